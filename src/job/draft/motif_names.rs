//! Keys of motifs from the names of their drawings.

/// A key for each drawing, from its file name: lower-case letters, digits and dashes, no two alike.
pub(super) fn motif_names(art: &[String]) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for file in art {
        let stem = file.rsplit(['/', '\\']).next().unwrap_or(file);
        let stem = stem.rsplit_once('.').map_or(stem, |(stem, _)| stem).to_lowercase();
        let plain: String = stem.chars().map(|c| if c.is_ascii_alphanumeric() { c } else { '-' }).take(30).collect();
        let words: Vec<&str> = plain.split('-').filter(|word| !word.is_empty()).collect();
        let name = if words.is_empty() { "motif".to_owned() } else { words.join("-") };
        let free = (2..).map(|n| format!("{name}-{n}")).find(|numbered| !names.contains(numbered));
        names.push(if names.contains(&name) { free.expect("numbers do not run out") } else { name });
    }
    names
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_of_motifs_are_fit_for_file_names_and_no_two_alike() {
        let art = ["Fleur d'été.svg", "..svg", "§.svg", "a.svg", "b/a.svg"].map(str::to_owned);
        assert_eq!(motif_names(&art), ["fleur-d-t", "motif", "motif-2", "a", "a-2"]);
    }
}
