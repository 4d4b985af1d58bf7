//! What makes a text no TOML, at the place where it must be mended.

mod plain;

use std::ops::Range;

use crate::job::fault::{Fault, FaultKind};

/// Faults told of a text that is no TOML; what is wrong further down often comes from what is wrong above.
const MOST_UNREADABLE: usize = 6;

/// Begins of what the reader says where a bracket further up has no end.
const UNCLOSED: [&str; 3] = ["unclosed array", "unclosed inline table", "unexpected `=` in array"];

/// What makes the text no TOML: the same at the same place once, nothing that only follows from it, and no more than
/// [`MOST_UNREADABLE`].
pub(super) fn unreadable(text: &str, errors: &[toml::de::Error]) -> Vec<Fault> {
    let opened = opened(text, errors);
    let first = opened.first().map_or(text.len(), |opening| opening.start);
    let mut given_twice: Option<usize> = None;
    let mut faults: Vec<Fault> = Vec::new();
    let mut count = 0_usize;
    for opening in opened {
        let message = if text[opening.clone()].starts_with('[') { UNCLOSED[0] } else { UNCLOSED[1] };
        faults.push(plain::fault(text, opening, message));
    }
    for error in errors {
        let message = error.message();
        let at = error.span().unwrap_or(text.len()..text.len());
        // Below a bracket without end everything is taken for what it holds.
        let unclosed = first < text.len() && UNCLOSED.iter().any(|begins| message.starts_with(begins));
        let inside = at.start > first || unclosed;
        let heading = plain::heading_before(text, at.start);
        let follows = plain::is_twice(message) && given_twice.is_some_and(|above| Some(above) == heading);
        if inside || follows {
            continue;
        }
        if plain::is_twice(message) && plain::line(text, at.start).trim_start().starts_with('[') {
            given_twice = Some(plain::line_start(text, at.start));
        }
        if faults.len() >= MOST_UNREADABLE {
            count += 1;
            continue;
        }
        let fault = plain::fault(text, at, message);
        if faults.iter().all(|told| told != &fault) {
            faults.push(fault);
        }
    }
    faults.extend((count > 0).then_some(Fault { at: None, kind: FaultKind::Others { count } }));
    faults
}

/// The brackets that have no end, in the order of the text, as far as the reader stumbles over them.
fn opened(text: &str, errors: &[toml::de::Error]) -> Vec<Range<usize>> {
    let stumbles = errors.iter().filter(|error| UNCLOSED.iter().any(|begins| error.message().starts_with(begins)));
    let ends = stumbles.take(MOST_UNREADABLE).map(|error| error.span().map_or(text.len(), |at| at.end));
    let mut found: Vec<Range<usize>> = ends.filter_map(|end| opening(text, end)).collect();
    found.sort_by_key(|at| at.start);
    found.dedup();
    found
}

/// The innermost bracket of a value that is open where a text ends, or where the next key or heading shows that its end is missing.
fn opening(text: &str, end: usize) -> Option<Range<usize>> {
    let mut open: Vec<usize> = Vec::new();
    let mut at = 0;
    let mut begins_line = true;
    while at < end.min(text.len()) {
        let rest = &text[at..];
        if begins_line {
            begins_line = false;
            at += rest.len() - rest.trim_start_matches([' ', '\t']).len();
            if open.is_empty() && text[at..].starts_with('[') {
                // A heading, whether it ends or not.
                at += line_length(&text[at..]);
            } else if !open.is_empty() && begins_entry(&text[at..]) {
                break;
            }
            continue;
        }
        let Some(letter) = rest.chars().next() else { break };
        match letter {
            '#' => at += line_length(rest),
            '"' | '\'' => at += quoted_length(rest, letter),
            _ => {
                match letter {
                    '[' | '{' => open.push(at),
                    // The end of another bracket shows that the innermost one has none.
                    ']' if open.last().is_some_and(|at| text[*at..].starts_with('{')) => break,
                    '}' if open.last().is_some_and(|at| text[*at..].starts_with('[')) => break,
                    ']' | '}' => drop(open.pop()),
                    _ => {}
                }
                begins_line = letter == '\n';
                at += letter.len_utf8();
            }
        }
    }
    open.last().map(|at| *at..at + 1)
}

/// Whether a line begins a table, or a key with its value.
fn begins_entry(line: &str) -> bool {
    let line = &line[..line_length(line)];
    let bare = |text: &str| {
        let text = text.trim();
        !text.is_empty() && text.chars().all(|c| c.is_alphanumeric() || matches!(c, '_' | '-' | '.' | ' '))
    };
    match line.trim_start_matches('[') {
        // A list within a list holds texts, numbers or tables, and never a bare name.
        inner if inner.len() < line.len() => {
            let name = inner.split(']').next().unwrap_or_default();
            inner.contains(']') && bare(name) && name.trim_start().starts_with(|c: char| c.is_alphabetic())
        }
        _ => line.split_once('=').is_some_and(|(key, _)| bare(key)),
    }
}

fn line_length(text: &str) -> usize {
    text.find('\n').unwrap_or(text.len())
}

/// Length of a quoted text from its first quote on; one that is not closed ends with its line.
fn quoted_length(text: &str, quote: char) -> usize {
    let three: String = std::iter::repeat_n(quote, 3).collect();
    if let Some(inner) = text.strip_prefix(&three) {
        return inner.find(&three).map_or(text.len(), |end| end + 6);
    }
    let mut escaped = false;
    for (at, letter) in text.char_indices().skip(1) {
        match letter {
            '\n' => return at,
            _ if escaped => escaped = false,
            '\\' if quote == '"' => escaped = true,
            _ if letter == quote => return at + 1,
            _ => {}
        }
    }
    text.len()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The line on which a missing bracket is told.
    fn told(text: &str) -> Vec<&str> {
        let errors = toml::de::DeTable::parse_recoverable(text).1;
        let faults = unreadable(text, &errors);
        faults.into_iter().filter_map(|fault| text.get(fault.at?.start..)?.lines().next()).collect()
    }

    #[test]
    fn a_list_without_end_is_told_at_its_opening() {
        assert_eq!(told("a = 1\nseams = [\"CF\", \"CB\"\n"), ["[\"CF\", \"CB\""]);
        assert_eq!(told("seams = [\"C]F\", # ]\n  \"CB\",\n\n"), ["[\"C]F\", # ]"]);
        assert_eq!(told("[hem]\nhung = [\n\"1 m\",\n\"2 m\"\n[hem.circle]\nwaist = \"1 m\"\n")[0], "[");
        assert_eq!(told("sheets = [{ size = \"1 x 2 m\" ]\n")[0], "{ size = \"1 x 2 m\" ]");
    }

    #[test]
    fn brackets_in_texts_and_remarks_are_none() {
        assert_eq!(opening("a = \"[\" # [\nb = '[' \nc = \"\"\"[\n[\"\"\"\n", 100), None);
        assert_eq!(opening("a = [1, 2]\n[b.c]\n[[d]]\ne = [[1], [2]\n", 100), Some(27..28));
    }
}
