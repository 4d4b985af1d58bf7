//! TOML text to the sections of a job file.
//!
//! A key that is not known or has the wrong shape is noted, taken out, and the rest read again, so that one look at the
//! messages shows everything there is to mend. The number of such rounds is bounded by [`MOST_FAULTS`].

use std::ops::Range;

use serde::Deserialize;
use toml::Spanned;
use toml::de::{DeArray, DeTable, DeValue};

use super::File;
use super::unreadable::unreadable;
use crate::job::fault::{Fault, FaultKind};

/// Faults of shape that are told at once; after so many the file is something else.
const MOST_FAULTS: usize = 20;

/// The sections, and the faults of shape met on the way; no sections when the text is no TOML.
pub(super) fn sections(text: &str) -> (Option<File>, Vec<Fault>) {
    let (mut table, errors) = DeTable::parse_recoverable(text);
    if !errors.is_empty() {
        return (None, unreadable(text, &errors));
    }
    let mut faults = Vec::new();
    while faults.len() < MOST_FAULTS {
        match File::deserialize(toml::Deserializer::from(table.clone())) {
            Ok(file) => return (Some(file), faults),
            Err(error) => {
                let at = error.span();
                let written = at.clone().and_then(|at| text.get(at)).unwrap_or_default();
                faults.push(Fault { at: at.clone(), kind: fault_of_shape(error.message(), written) });
                if !at.is_some_and(|at| take_out(table.get_mut(), &at)) {
                    return (None, faults);
                }
            }
        }
    }
    (None, faults)
}

/// Takes out the entry whose key or value has this place.
fn take_out(table: &mut DeTable<'_>, at: &Range<usize>) -> bool {
    let found = table.iter().find(|(key, value)| key.span() == *at || value.span() == *at).map(|(key, _)| key.clone());
    if let Some(key) = found {
        return table.remove(&key).is_some();
    }
    table.iter_mut().any(|(_, value)| take_out_below(value, at))
}

fn take_out_below(value: &mut Spanned<DeValue<'_>>, at: &Range<usize>) -> bool {
    match value.get_mut() {
        DeValue::Table(table) => take_out(table, at),
        DeValue::Array(list) => {
            if list.iter().any(|value| value.span() == *at) {
                let all = std::mem::replace(list, DeArray::new());
                *list = all.into_iter().filter(|value| value.span() != *at).collect();
                return true;
            }
            list.iter_mut().any(|value| take_out_below(value, at))
        }
        _ => false,
    }
}

/// What the reader's own message means to a maker.
fn fault_of_shape(message: &str, written: &str) -> FaultKind {
    let quoted: Vec<String> = message.split('`').skip(1).step_by(2).map(str::to_owned).collect();
    if let (true, [key, known @ ..]) = (message.starts_with("unknown field"), &quoted[..]) {
        return FaultKind::UnknownKey { key: key.clone(), known: known.to_vec() };
    }
    let Some((found, wanted)) = message.strip_prefix("invalid type: ").and_then(|rest| rest.split_once(", expected "))
    else {
        return FaultKind::WrongShape { say: message.to_owned() };
    };
    let plain = |text: &str, words: &[(&str, &str)]| {
        let word = words.iter().find(|(word, _)| text.starts_with(word));
        word.map_or_else(|| text.to_owned(), |(word, plain)| text.replacen(word, plain, 1))
    };
    // A date without quotes comes as a table of its own making.
    let found = if found.starts_with("map") && written.starts_with(|first: char| first.is_ascii_digit()) {
        "a date"
    } else {
        found
    };
    let found = plain(
        found,
        &[
            ("sequence", "a list"),
            ("map", "a table"),
            ("string", "the text"),
            ("integer", "the number"),
            ("floating point", "the number"),
            ("boolean", "the word"),
        ],
    );
    let wanted = plain(wanted, &[("a sequence", "a list"), ("a map", "a table"), ("a string", "a text in quotes")]);
    let say = format!("{found} stands where there should be {wanted}");
    FaultKind::WrongShape { say }
}
