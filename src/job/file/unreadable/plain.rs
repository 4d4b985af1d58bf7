//! What the reader of TOML says, in a maker's words, with what to write instead.

use std::ops::Range;

use crate::job::fault::{Fault, FaultKind};

/// Quotes of other kinds than the straight ones, as writing programs put them in.
const ROUND_QUOTES: [char; 11] = [
    '\u{201c}', '\u{201d}', '\u{201e}', '\u{201f}', '\u{2018}', '\u{2019}', '\u{201a}', '\u{ab}', '\u{bb}', '`',
    '\u{b4}',
];

/// Longest value that a message repeats, in letters.
const REPEATED: usize = 60;

/// What the reader stumbles over by how its message begins, and what to look for.
const PLAIN: [(&str, &str, &str); 12] = [
    (
        "invalid basic string",
        "this text has no closing quote",
        "a text stands between two quotes on one line: write the one that is missing",
    ),
    (
        "invalid literal string",
        "this text has no closing quote",
        "a text stands between two quotes on one line: write the one that is missing",
    ),
    (
        "invalid multi-line",
        "this text has no end",
        "a text that begins with three quotes ends with three: write those that are missing",
    ),
    (
        "missing opening quote",
        "this text has no opening quote",
        "here, or further left in this line, a text lacks one of its two quotes",
    ),
    (
        "missing comma",
        "two entries stand here without a comma between them",
        "write a comma between two entries; where there is one, a text before it lacks its closing quote",
    ),
    ("string values must be quoted", "this text has no quotes", "write the text between quotes: \"60 mm\""),
    ("unclosed array table", "this heading has no end", "the heading of a table that begins with [[ ends with ]]"),
    ("unclosed array", "this list has no end", "a list ends with ]: write it after the last entry"),
    (
        "unclosed inline table",
        "this table has no end",
        "a table that begins with { ends with }: write it on the same line",
    ),
    ("unclosed table", "this heading has no end", "the heading of a table ends with ]"),
    (
        "key with no value",
        "this line is neither a heading nor a key with its value",
        "write the key, = and its value on one line; a remark begins with #",
    ),
    (
        "unexpected key or value",
        "more stands on this line than a key and its value",
        "one key with one value stands on a line; a remark begins with #",
    ),
];

/// Whether something is given twice.
pub(super) fn is_twice(message: &str) -> bool {
    message.starts_with("duplicate key")
}

/// A fault in plain words.
pub(super) fn fault(text: &str, at: Range<usize>, message: &str) -> Fault {
    let found = PLAIN.iter().find(|(begins, ..)| message.starts_with(begins));
    let own = if is_twice(message) { twice(text, &at) } else { own_words(text, &at, message) };
    let (at, say, hint) = match (own, found) {
        (Some((range, say, hint)), _) => (range, say, Some(hint)),
        (None, Some((_, say, hint))) => (at, (*say).to_owned(), Some((*hint).to_owned())),
        (None, None) => (at, message.lines().collect::<Vec<_>>().join("; "), None),
    };
    Fault { at: Some(at), kind: FaultKind::NotReadable { say, hint } }
}

/// Words for the very value that stands there: place, what is wrong, what to write.
fn own_words(text: &str, at: &Range<usize>, message: &str) -> Option<(Range<usize>, String, String)> {
    let start = line_start(text, at.start);
    let line = line(text, at.start);
    if message.starts_with("key with no value") {
        let (key, value) = line.split_once(':').filter(|(key, _)| !key.contains(['"', '\'', '=', '[', '#']))?;
        let instead = format!("{} = {}", key.trim(), value.trim());
        let hint = format!("write = between a key and its value: {instead}");
        return Some((
            start + key.len()..start + key.len() + 1,
            "a key and its value have no = between them".to_owned(),
            hint,
        ));
    }
    let (key, rest) = line.split_once('=')?;
    let written = rest.trim();
    let from = start + key.len() + 1 + (rest.len() - rest.trim_start().len());
    let whole = from..from + written.len();
    if written.starts_with(['[', '{']) || written.chars().count() > REPEATED || at.start < from || written.contains('#')
    {
        return None;
    }
    let bare = written.trim_matches(|c: char| ROUND_QUOTES.contains(&c) || matches!(c, '"' | '\'')).trim();
    if bare.contains('"') || bare.is_empty() {
        return None;
    }
    match message {
        _ if message.starts_with("missing escaped value") => {
            let say = "a backslash in a text begins a special mark".to_owned();
            Some((whole, say, format!("write / between folders: \"{}\"", bare.replace('\\', "/"))))
        }
        _ if message.starts_with("string values must be quoted") && written.starts_with(ROUND_QUOTES) => {
            let say = format!("{written} stands between typographic quotes");
            Some((whole, say, format!("write the text between quotes that are straight: \"{bare}\"")))
        }
        _ if message.starts_with("unexpected key or value")
            && written.starts_with('"')
            && written.ends_with("\"\"") =>
        {
            let say = "the first of the two quotes at the end, for inches, ends this text".to_owned();
            Some((whole, say, format!("write \"{bare} in\"")))
        }
        _ if message.starts_with("string values must be quoted") || message.starts_with("unexpected key or value") => {
            let number = bare.bytes().all(|b| b.is_ascii_digit() || b == b',');
            let hint = match number {
                true => {
                    let point = bare.replace(',', ".");
                    format!(
                        "write a length in quotes with its unit, \"{bare} cm\", and a number with a decimal point, {point}"
                    )
                }
                false => format!("write the text between quotes: \"{bare}\""),
            };
            let ends_in_quote = written.ends_with(['"', '\'']) || written.starts_with(['"', '\'']);
            (!ends_in_quote).then(|| (whole, format!("{written} stands here without quotes"), hint))
        }
        _ => None,
    }
}

/// What is given twice, and where it stands first.
fn twice(text: &str, at: &Range<usize>) -> Option<(Range<usize>, String, String)> {
    let own = line(text, at.start).trim();
    let start = line_start(text, at.start);
    let (what, first) = if own.starts_with('[') {
        (own.split(['#', '\r']).next()?.trim(), position(text, 0..start, |line| line.trim().starts_with(own)))
    } else {
        let key = text.get(at.clone())?;
        let table = heading_before(text, start).unwrap_or(0);
        let is_key = |line: &str| line.split_once('=').is_some_and(|(before, _)| before.trim() == key);
        (key, position(text, table..start, is_key))
    };
    let before = first.map_or_else(String::new, |line| format!("; it stands first on line {line}"));
    let hint = "write each key and each table once; what is given twice can only mean one".to_owned();
    Some((at.clone(), format!("{what} is given twice{before}"), hint))
}

/// Number of the first line within a part of the text that is as asked.
fn position(text: &str, part: Range<usize>, is: impl Fn(&str) -> bool) -> Option<usize> {
    let before = text.get(..part.start)?.matches('\n').count();
    text.get(part)?.lines().position(is).map(|index| before + index + 1)
}

/// Start of the line on which something stands.
pub(super) fn line_start(text: &str, at: usize) -> usize {
    text.get(..at).and_then(|before| before.rfind('\n')).map_or(0, |end| end + 1)
}

/// The line on which something stands.
pub(super) fn line(text: &str, at: usize) -> &str {
    text.get(line_start(text, at)..).and_then(|rest| rest.lines().next()).unwrap_or_default()
}

/// Start of the line of the last heading above a place.
pub(super) fn heading_before(text: &str, at: usize) -> Option<usize> {
    let before = text.get(..line_start(text, at))?;
    if before.starts_with('[') && !before.contains("\n[") {
        return Some(0);
    }
    before.rfind("\n[").map(|end| end + 1)
}
