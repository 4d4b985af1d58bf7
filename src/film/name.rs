//! Names of piece kinds: readable, safe as file names, and each only once.

use std::collections::BTreeSet;

use crate::place::Hand;

/// What a name is made of.
#[derive(Clone, Copy, Debug)]
pub(super) struct Parts<'a> {
    /// Motif key.
    pub(super) motif: &'a str,
    /// Film key.
    pub(super) film: &'a str,
    /// Hand on the garment.
    pub(super) hand: Hand,
    /// Factor on the motif's finished size.
    pub(super) scale: f64,
    /// Number of the piece among several cut singly from one layer, from 1.
    pub(super) single: Option<usize>,
}

/// `poppy-red`, `leaf-green-mirrored`, `poppy-red-80-percent`, `poppy-calico-piece-2`; a name already taken gets a number.
pub(super) fn unique(parts: Parts<'_>, taken: &mut BTreeSet<String>) -> String {
    let mut name = format!("{}-{}", parts.motif, parts.film);
    if let Some(number) = parts.single {
        name += &format!("-piece-{number}");
    }
    if (parts.scale - 1.0).abs() > 1e-6 {
        name += &format!("-{:.0}-percent", parts.scale * 100.0);
    }
    if parts.hand == Hand::Mirrored {
        name += "-mirrored";
    }
    let name = file_safe(&name);
    let numbered = (2_u32..).map(|n| format!("{name}-no-{n}"));
    let free = std::iter::once(name.clone()).chain(numbered).find(|candidate| !taken.contains(candidate));
    let free = free.expect("endless numbers leave one free");
    taken.insert(free.clone());
    free
}

/// Lower-case letters, digits and dashes; anything else becomes a dash.
fn file_safe(text: &str) -> String {
    text.chars()
        .map(|c| if c.is_ascii_alphanumeric() { c.to_ascii_lowercase() } else { '-' })
        .collect::<String>()
        .trim_matches('-')
        .to_string()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_tell_hand_size_and_piece_and_never_repeat() {
        let plain = Parts { motif: "leaf", film: "green", hand: Hand::AsDrawn, scale: 1.0, single: None };
        let mut taken = BTreeSet::new();
        let mut name = |parts| unique(parts, &mut taken);
        assert_eq!(name(plain), "leaf-green");
        assert_eq!(name(Parts { hand: Hand::Mirrored, ..plain }), "leaf-green-mirrored");
        assert_eq!(name(Parts { scale: 0.8, ..plain }), "leaf-green-80-percent");
        assert_eq!(name(Parts { single: Some(2), ..plain }), "leaf-green-piece-2");
        assert_eq!(name(plain), "leaf-green-no-2");
        assert_eq!(name(Parts { film: "../Grün", ..plain }), "leaf----gr-n");
    }
}
