//! How long a drawing's text becomes when its own entities are written out, reckoned before anything writes them out.
//!
//! An entity of 100 kB used 20 000 times makes 2 GB; the XML parser would do it.

use std::collections::BTreeMap;

/// Rounds of putting entities into entities; the XML parser follows ten and refuses more.
const ROUNDS: usize = 11;

/// Bytes of the text with all entities written out, from above; saturates instead of overflowing.
pub(super) fn length_written_out(svg: &str) -> u64 {
    let declared = declared(svg);
    if declared.is_empty() {
        return svg.len() as u64;
    }
    let mut lengths: BTreeMap<&str, u64> = declared.iter().map(|(name, text)| (*name, text.len() as u64)).collect();
    for _ in 0..ROUNDS {
        let grown = |text: &str| written_out(text, &lengths);
        lengths = declared.iter().map(|(name, text)| (*name, grown(text))).collect();
    }
    written_out(svg, &lengths)
}

fn written_out(text: &str, lengths: &BTreeMap<&str, u64>) -> u64 {
    let inserted = text.split('&').skip(1).filter_map(|rest| {
        let name = rest.split_once(';')?.0;
        lengths.get(name)
    });
    inserted.fold(text.len() as u64, |sum, length| sum.saturating_add(*length))
}

/// Entities with their text: `<!ENTITY name "text">`.
fn declared(svg: &str) -> BTreeMap<&str, &str> {
    svg.split("<!ENTITY").skip(1).filter_map(declaration).collect()
}

fn declaration(rest: &str) -> Option<(&str, &str)> {
    let (name, rest) = rest.trim_start().split_once(|c: char| c.is_whitespace())?;
    let rest = rest.trim_start();
    let quote = rest.chars().next().filter(|c| matches!(c, '"' | '\''))?;
    let (text, _) = rest[1..].split_once(quote)?;
    Some((name, text))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn entities_within_entities_multiply() {
        let plain = "<svg>&amp;</svg>";
        assert_eq!(length_written_out(plain), plain.len() as u64);
        let doc = "<!DOCTYPE svg [<!ENTITY a \"0123456789\"><!ENTITY b '&a;&a;&a;'>]><svg>&b;&b;</svg>";
        // &b; is 9 + 3 x 10 from above, used twice; the 3 x &a; of its declaration count once more.
        assert_eq!(length_written_out(doc), doc.len() as u64 + 2 * 39 + 30);
    }

    #[test]
    fn a_bomb_saturates_or_grows_past_any_limit() {
        let mut doc = String::from("<!DOCTYPE svg [<!ENTITY l0 \"xxxxxxxxxx\">");
        for level in 1..40 {
            doc.push_str(&format!("<!ENTITY l{level} \"{}\">", format!("&l{};", level - 1).repeat(10)));
        }
        assert!(length_written_out(&format!("{doc}]><svg>&l39;</svg>")) > 1 << 34);
    }
}
