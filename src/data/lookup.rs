//! Names of rows: how a maker's spelling is matched, and what to suggest when it is not found.

use std::collections::BTreeSet;

use super::TableFault;

/// A name as the tables write it: lower case, dashes for spaces and underscores.
#[must_use]
pub fn folded_name(name: &str) -> String {
    let words: Vec<&str> = name.split([' ', '_', '-']).filter(|word| !word.is_empty()).collect();
    words.join("-").to_lowercase()
}

/// Up to three names like the one written, most like first.
///
/// Likeness is the number of single-letter changes (V. I. Levenshtein, 1966); a name that contains the other counts as one
/// change. Names more than a third different are left out.
#[must_use]
pub fn nearest_names<'a>(wanted: &str, names: impl IntoIterator<Item = &'a str>) -> Vec<&'a str> {
    // Only the first letters are compared, so that a hostile name costs no time.
    let wanted: String = folded_name(wanted).chars().take(40).collect();
    let mut ranked: Vec<(usize, &str)> = names
        .into_iter()
        .map(|name| {
            let holds = wanted.len() > 2 && (name.contains(&wanted) || wanted.contains(name));
            (if holds { 1 } else { changes(&wanted, name) }, name)
        })
        .filter(|(changes, name)| changes * 3 <= name.len().max(wanted.len()))
        .collect();
    ranked.sort_unstable();
    ranked.into_iter().map(|(_, name)| name).take(3).collect()
}

fn changes(a: &str, b: &str) -> usize {
    let b: Vec<char> = b.chars().collect();
    let mut row: Vec<usize> = (0..=b.len()).collect();
    for (i, letter) in a.chars().enumerate() {
        let mut corner = row[0];
        row[0] = i + 1;
        for j in 0..b.len() {
            let change = corner + usize::from(letter != b[j]);
            corner = row[j + 1];
            row[j + 1] = change.min(row[j] + 1).min(corner + 1);
        }
    }
    row[b.len()]
}

/// Every name of a table is written as [`folded_name`] gives it and stands for one row only.
pub(super) fn names_are_single<'a>(
    table: &'static str,
    rows: impl Iterator<Item = (&'a str, &'a [String])>,
) -> Result<(), TableFault> {
    let mut seen = BTreeSet::new();
    for (key, also) in rows {
        for name in std::iter::once(key).chain(also.iter().map(String::as_str)) {
            if folded_name(name) != name || !seen.insert(name) {
                return Err(TableFault::BadName { table, name: name.into() });
            }
        }
    }
    Ok(())
}
