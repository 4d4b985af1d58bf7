//! The word that was probably meant: nearest of the known ones by slips of the keyboard.

/// The known word nearest to `word`, if it is near enough to be what was meant: one slip for every three letters.
pub(crate) fn nearest<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let plain = |text: &str| text.to_lowercase().replace(['-', ' '], "_");
    let word = plain(word);
    if word.chars().count() > LONGEST {
        return None;
    }
    let allowed = word.chars().count().div_ceil(3).max(1);
    known
        .into_iter()
        .map(|candidate| (slips(&word, &plain(candidate)), candidate))
        .filter(|(slips, _)| *slips <= allowed)
        .min_by_key(|(slips, _)| *slips)
        .map(|(_, candidate)| candidate)
}

/// No key is longer; keeps the table below small whatever the file holds.
const LONGEST: usize = 40;

/// Letters left out, put in, changed, or swapped with a neighbour: the restricted edit distance of Damerau (1964).
fn slips(a: &str, b: &str) -> usize {
    let (a, b): (Vec<char>, Vec<char>) = (a.chars().collect(), b.chars().collect());
    let mut rows = vec![(0..=b.len()).collect::<Vec<usize>>()];
    for i in 1..=a.len() {
        let mut row = vec![i];
        for j in 1..=b.len() {
            let changed = rows[i - 1][j - 1] + usize::from(a[i - 1] != b[j - 1]);
            let mut least = changed.min(rows[i - 1][j] + 1).min(row[j - 1] + 1);
            if i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1] {
                least = least.min(rows[i - 2][j - 2] + 1);
            }
            row.push(least);
        }
        rows.push(row);
    }
    rows[a.len()][b.len()]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slip_of_the_keyboard_is_understood() {
        let known = ["height", "motifs", "gap", "count", "pre_press"];
        assert_eq!(nearest("heigth", known), Some("height"));
        assert_eq!(nearest("Motif", known), Some("motifs"));
        assert_eq!(nearest("pre-press", known), Some("pre_press"));
        assert_eq!(nearest("gpa", known), Some("gap"));
    }

    #[test]
    fn a_word_unlike_all_others_gets_no_suggestion() {
        assert_eq!(nearest("colour", ["height", "gap"]), None);
        assert_eq!(nearest(&"x".repeat(10_000), ["height"]), None);
    }
}
