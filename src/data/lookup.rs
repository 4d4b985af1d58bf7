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
/// Likeness is the number of letters put in, left out, changed or swapped with a neighbour (F. J. Damerau, 1964); a name
/// that contains the other counts as one change. Names more than a third different are left out.
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
