//! The program's shell: arguments, files in and out, progress and messages. Nothing in the library knows of it.
//!
//! Exit codes: 0 done, 1 the job cannot be planned or a file cannot be read or written, 2 wrong usage.

mod args;
mod contents;
mod counts;
mod draft_args;
mod folder;
mod input;
mod inspect;
mod materials;
mod new;
mod plan;
mod progress;
mod recut;
mod say;
mod shell;
mod summary;
mod table;
mod trouble;

use std::process::ExitCode;

use clap::Parser as _;

use args::{Args, Command};
use trouble::Trouble;

/// Reads the arguments, does what they ask, and says how it went.
pub(crate) fn run() -> ExitCode {
    let args = match Args::try_parse() {
        Ok(args) => args,
        Err(usage) => {
            let code = if usage.use_stderr() { ExitCode::from(2) } else { ExitCode::SUCCESS };
            // Nothing is left to do when the terminal is gone.
            let _ = usage.print();
            return code;
        }
    };
    match obey(args.command) {
        Ok(()) => ExitCode::SUCCESS,
        Err(Trouble::ReaderGone) => ExitCode::SUCCESS,
        Err(trouble) => {
            say::trouble(&trouble);
            ExitCode::from(trouble.exit_code())
        }
    }
}

fn obey(command: Command) -> Result<(), Trouble> {
    match command {
        Command::Plan(wanted) => plan::run(&wanted),
        Command::Inspect(wanted) => inspect::run(&wanted),
        Command::Counts { job } => counts::run(&job),
        Command::Recut(wanted) => recut::run(&wanted),
        Command::New(wanted) => new::run(&wanted),
        Command::Materials { word } => materials::run(word.as_deref()),
        Command::Completions { shell } => shell::completions(shell),
        Command::Manual => shell::manual(),
    }
}
