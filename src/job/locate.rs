//! Where in the text of a job file something stands, for faults that only show once the whole job is worked out.

use std::ops::Range;

use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// What a fault is about, from the top of the file downward.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Step {
    /// A key of a table.
    Key(String),
    /// An item of a list of tables: the one with this `name`, or, for `band 2`, the second without one.
    Named(String),
    /// An item of a list, from 0.
    Item(usize),
}

/// The place of the deepest step that the file has; `None` when it has not even the first.
#[must_use]
pub fn span_of(text: &str, steps: &[Step]) -> Option<Range<usize>> {
    let table = DeValue::Table(DeTable::parse(text).ok()?.into_inner());
    walked(&table, steps).0
}

/// How many items the list has to which all steps lead, one where they lead to a value alone; `None` when the file has them not.
#[must_use]
pub fn count_of(text: &str, steps: &[Step]) -> Option<usize> {
    let table = DeValue::Table(DeTable::parse(text).ok()?.into_inner());
    match walked(&table, steps) {
        (_, value, taken) if taken == steps.len() => Some(value.as_array().map_or(1, |items| items.len())),
        _ => None,
    }
}

/// The place of the deepest step that there is, what lies there, and how many steps lead to it.
fn walked<'v>(table: &'v DeValue<'v>, steps: &[Step]) -> (Option<Range<usize>>, &'v DeValue<'v>, usize) {
    let (mut found, mut taken) = (None, 0);
    let mut at = table;
    for step in steps {
        let (span, next) = match (step, at) {
            (Step::Key(key), DeValue::Table(table)) => {
                let Some((own, value)) = table.iter().find(|(own, _)| own.get_ref().as_ref() == key) else { break };
                // A value on a line of its own is shown whole, a table by its name.
                let shown = if value.get_ref().is_table() { own.span() } else { own.span().start..value.span().end };
                (shown, value)
            }
            (Step::Named(name), DeValue::Array(items)) => {
                let own = |item: &Spanned<DeValue<'_>>| {
                    item.get_ref().get("name").and_then(|name| name.get_ref().as_str().map(str::to_owned))
                };
                let named = items.iter().find(|item| own(item).as_deref() == Some(name.as_str()));
                let number = name.rsplit(' ').next().and_then(|number| number.parse::<usize>().ok());
                let Some(item) = named.or_else(|| items.get(number?.checked_sub(1)?)) else { break };
                (item.span(), item)
            }
            (Step::Item(index), DeValue::Array(items)) => {
                let Some(item) = items.get(*index) else { break };
                (item.span(), item)
            }
            _ => break,
        };
        (found, at, taken) = (Some(span), next.get_ref(), taken + 1);
    }
    (found, at, taken)
}

/// The first place where a text is written as a value.
#[must_use]
pub fn span_of_text(text: &str, wanted: &str) -> Option<Range<usize>> {
    fn search(value: &Spanned<DeValue<'_>>, wanted: &str) -> Option<Range<usize>> {
        match value.get_ref() {
            DeValue::String(own) => (own.as_ref() == wanted).then(|| value.span()),
            DeValue::Array(items) => items.iter().filter_map(|item| search(item, wanted)).min_by_key(|at| at.start),
            DeValue::Table(table) => {
                table.iter().filter_map(|(_, value)| search(value, wanted)).min_by_key(|at| at.start)
            }
            _ => None,
        }
    }
    let table = DeTable::parse(text).ok()?;
    table.get_ref().iter().filter_map(|(_, value)| search(value, wanted)).min_by_key(|at| at.start)
}

#[cfg(test)]
mod tests {
    use super::*;

    const JOB: &str = "[hem]\nhung = [\"1 m\", \"2 m\"]\n[hem.circle]\nwaist = \"72 cm\"\n[[band]]\nheight = \"7 cm\"\n\
                       [[band]]\nname = \"upper\"\nheight = \"9 cm\"\n[motif.flower]\nart = \"flower.svg\"\n";

    fn key(name: &str) -> Step {
        Step::Key(name.to_owned())
    }

    fn at(steps: &[Step]) -> Option<&'static str> {
        span_of(JOB, steps).map(|span| &JOB[span])
    }

    #[test]
    fn the_deepest_step_that_is_there_is_found() {
        assert_eq!(at(&[key("hem"), key("circle"), key("waist")]), Some("waist = \"72 cm\""));
        assert_eq!(at(&[key("hem"), key("hung"), Step::Item(1)]), Some("\"2 m\""));
        assert_eq!(at(&[key("hem"), key("circle"), key("length")]), Some("circle"));
        assert_eq!(at(&[key("press")]), None);
        assert_eq!(count_of(JOB, &[key("hem"), key("hung")]), Some(2));
        assert_eq!(count_of(JOB, &[key("hem"), key("circle"), key("waist")]), Some(1));
        assert_eq!(count_of(JOB, &[key("hem"), key("circle"), key("length")]), None);
    }

    #[test]
    fn a_band_is_found_by_its_name_or_its_number() {
        let height = |name: &str| at(&[key("band"), Step::Named(name.to_owned()), key("height")]);
        assert_eq!(height("upper"), Some("height = \"9 cm\""));
        assert_eq!(height("band 1"), Some("height = \"7 cm\""));
        assert_eq!(span_of_text(JOB, "flower.svg").map(|span| &JOB[span]), Some("\"flower.svg\""));
        assert_eq!(span_of_text(JOB, "tulip.svg"), None);
    }
}
