//! The text of a job file as it grows: headings, remarks, keys with their values.

use std::fmt::Write as _;

/// The text so far.
#[derive(Debug, Default)]
pub(super) struct Text(pub(super) String);

impl Text {
    pub(super) fn table(&mut self, heading: &str) {
        self.0.push('\n');
        self.0.push_str(heading);
        self.0.push('\n');
    }

    pub(super) fn comment(&mut self, comment: &str) {
        writeln!(self.0, "# {comment}").expect("writing to a String cannot fail");
    }

    pub(super) fn line(&mut self, key: &str, value: &str) {
        writeln!(self.0, "{key} = {value}").expect("writing to a String cannot fail");
    }

    pub(super) fn text(&mut self, key: &str, value: Option<&str>) {
        if let Some(value) = value {
            self.line(key, &quoted(value));
        }
    }
}

/// A text in quotes, with what must be escaped.
pub(super) fn quoted(text: &str) -> String {
    toml::Value::String(text.to_owned()).to_string()
}
