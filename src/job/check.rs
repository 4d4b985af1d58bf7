//! Collects what the conversion finds: faults with their place, and values taken for what was left open.

use std::ops::Range;

use super::fault::{Fault, FaultKind};
use super::given::Given;
use crate::data::tables;
use crate::finding::Assumption;
use crate::quantity::Mm;

/// Faults and assumptions so far.
#[derive(Debug, Default)]
pub(crate) struct Check {
    pub(crate) faults: Vec<Fault>,
    pub(crate) assumptions: Vec<Assumption>,
}

impl Check {
    /// Notes a fault.
    pub(crate) fn fault(&mut self, at: &Range<usize>, kind: FaultKind) {
        self.faults.push(Fault { at: Some(at.clone()), kind });
    }

    /// Notes a fault that has no place of its own.
    pub(crate) fn whole(&mut self, kind: FaultKind) {
        self.faults.push(Fault { at: None, kind });
    }

    /// Notes a fault that a stage would find, where it shows in the file alone.
    pub(crate) fn worked_out(&mut self, at: &Range<usize>, fault: &dyn std::error::Error, hint: impl Into<String>) {
        self.fault(at, FaultKind::WorkedOut { say: fault.to_string(), hint: Some(hint.into()) });
    }

    /// Notes a value taken for what was left open.
    pub(crate) fn assume(&mut self, about: &str, taken: impl Into<String>, key: impl Into<String>) {
        self.assumptions.push(Assumption { about: about.to_owned(), taken: taken.into(), key: key.into() });
    }

    /// The value, if it is there and can be read.
    pub(crate) fn take<T: Clone>(&mut self, given: Option<&Given<T>>) -> Option<T> {
        let given = given?;
        match &given.value {
            Ok(value) => Some(value.clone()),
            Err(kind) => {
                self.fault(&given.at, kind.clone());
                None
            }
        }
    }

    /// The length, if it is there, can be read and is more than zero.
    pub(crate) fn above_zero(&mut self, key: &'static str, given: Option<&Given<Mm>>) -> Option<Mm> {
        let length = self.take(given)?;
        if length > Mm::ZERO {
            return Some(length);
        }
        self.fault(&given?.at, FaultKind::NotAboveZero { key, found: length.to_string() });
        None
    }

    /// The length, if it is there, can be read and is not less than zero.
    pub(crate) fn not_below_zero(&mut self, key: &'static str, given: Option<&Given<Mm>>) -> Option<Mm> {
        let length = self.take(given)?;
        if length >= Mm::ZERO {
            return Some(length);
        }
        self.fault(&given?.at, FaultKind::BelowZero { key, found: length.to_string() });
        None
    }

    /// A length above zero that must be there.
    pub(crate) fn need_above_zero(
        &mut self,
        table: Table<'_>,
        key: &'static str,
        example: &'static str,
        given: Option<&Given<Mm>>,
    ) -> Option<Mm> {
        if given.is_none() {
            self.missing(table, key, example);
        }
        self.above_zero(key, given)
    }

    /// Notes that a table lacks a key.
    pub(crate) fn missing(&mut self, table: Table<'_>, key: &'static str, example: &'static str) {
        self.fault(table.at, FaultKind::Missing { key, table: table.name.to_owned(), example });
    }

    /// Of keys that say the same thing in different ways, more than one given is a fault at the last.
    pub(crate) fn only_one(&mut self, given: &[(&'static str, Option<&Range<usize>>)], why: &'static str) {
        let there: Vec<_> = given.iter().filter_map(|(key, at)| Some((*key, (*at)?))).collect();
        if let [_, .., (_, last)] = there[..] {
            self.fault(last, FaultKind::OnlyOne { given: there.iter().map(|(key, _)| *key).collect(), why });
        }
    }

    /// A material of the table, or several of a stack or blend joined by `+`, as written.
    pub(crate) fn material(&mut self, given: Option<&Given<String>>) -> Option<String> {
        let word = self.take(given)?;
        let strange = word.split('+').find(|name| tables().material(name).is_none());
        let Some(strange) = strange else { return Some(word) };
        let name = strange.trim().to_owned();
        let known = tables().materials().iter().map(|row| row.key.clone()).collect();
        self.fault(&given?.at, FaultKind::NoSuchMaterial { name, known });
        None
    }

    /// The meaning of a word, if it is one of the choices.
    pub(crate) fn one_of<T: Copy>(&mut self, given: Option<&Given<String>>, choices: &[(&str, T)]) -> Option<T> {
        let word = self.take(given)?;
        if let Some((_, meaning)) = choices.iter().find(|(choice, _)| choice.to_lowercase() == plain(&word)) {
            return Some(*meaning);
        }
        let choices = choices.iter().map(|(choice, _)| (*choice).to_owned()).collect();
        self.fault(&given?.at, FaultKind::NotOneOf { word, choices });
        None
    }
}

/// A word as choices are compared: without capitals, dashes as spaces.
pub(crate) fn plain(word: &str) -> String {
    word.to_lowercase().replace(['-', '_'], " ")
}

/// A table of the file, for messages about what it lacks.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Table<'a> {
    /// `hem.circle`
    pub(crate) name: &'a str,
    /// Its place.
    pub(crate) at: &'a Range<usize>,
}

/// Whether a name can be part of a file name on every machine: lower-case letters, digits and dashes, at most 40.
pub(crate) fn is_name(name: &str) -> bool {
    let plain = |b: u8| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'-';
    !name.is_empty() && name.len() <= 40 && name.bytes().all(plain) && !name.starts_with('-') && !name.ends_with('-')
}
