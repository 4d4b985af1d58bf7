//! What is said on the terminal: answers on standard output, troubles on standard error; colour only where it is seen.

use std::io::{self, Write as _};

use clap::builder::styling::{AnsiColor, Style};

use super::trouble::Trouble;

const ERROR: Style = AnsiColor::BrightRed.on_default().bold();
const HINT: Style = AnsiColor::BrightCyan.on_default().bold();

/// Writes an answer; a reader that has gone (`| head`) is no trouble.
pub(crate) fn out(text: &str) -> Result<(), Trouble> {
    let mut stdout = anstream::AutoStream::auto(io::stdout().lock());
    stdout.write_all(text.as_bytes()).and_then(|()| stdout.flush()).map_err(|fault| match fault.kind() {
        io::ErrorKind::BrokenPipe => Trouble::ReaderGone,
        _ => Trouble::Output { fault },
    })
}

/// Writes to standard error; there is nobody to tell when that fails.
pub(crate) fn err(text: &str) {
    let mut stderr = anstream::AutoStream::auto(io::stderr().lock());
    let _ = stderr.write_all(text.as_bytes()).and_then(|()| stderr.flush());
}

/// Says what went wrong and what to do.
pub(crate) fn trouble(trouble: &Trouble) {
    let mut text = String::new();
    if let Trouble::Job { rendered } = trouble {
        text.push_str(rendered);
        text.push('\n');
    } else {
        for line in trouble.to_string().lines() {
            text.push_str(&format!("{ERROR}error:{ERROR:#} {line}\n"));
        }
    }
    if let Some(hint) = trouble.hint().filter(|hint| !hint.is_empty()) {
        text.push_str(&format!("{HINT}hint:{HINT:#} {hint}\n"));
    }
    err(&text);
}
