//! File names that a stranger understands without opening the file.

use crate::plan::{FilmSheets, Plan};

/// `red-smooth-sheet-1-of-3-cut-3-times`: the film, its class, which sheet of how many different ones, how often.
pub(crate) fn sheet(plan: &Plan, film_sheets: &FilmSheets, number: usize) -> String {
    let film = &plan.films[film_sheets.film];
    let class = part(&film.class);
    let key = part(&film.key);
    let start = if class.is_empty() || class == key { key } else { format!("{key}-{class}") };
    let of = film_sheets.layout.sheets.len();
    let copies = film_sheets.layout.sheets[number].copies;
    let times = if copies > 1 { format!("-cut-{copies}-times") } else { String::new() };
    format!("{start}-sheet-{}-of-{of}{times}", number + 1)
}

/// Any words as a part of a file name: lower-case letters, digits and single dashes.
pub(crate) fn part(words: &str) -> String {
    let mut name = String::new();
    for c in words.chars().flat_map(char::to_lowercase) {
        if c.is_ascii_alphanumeric() {
            name.push(c);
        } else if !name.is_empty() && !name.ends_with('-') {
            name.push('-');
        }
    }
    name.truncate(60);
    name.trim_end_matches('-').to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_part_of_a_name_is_safe_on_every_disk() {
        assert_eq!(part("Rot & Gold / 2"), "rot-gold-2");
        assert_eq!(part("../../etc"), "etc");
        assert_eq!(part("ä"), "");
        assert!(part(&"x".repeat(500)).len() <= 60);
    }
}
