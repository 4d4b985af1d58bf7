//! Completion scripts and the manual page, made from the command line itself.

use clap::CommandFactory as _;

use super::args::Args;
use super::say;
use super::trouble::Trouble;

/// Writes the completion script of a shell.
pub(crate) fn completions(shell: clap_complete::Shell) -> Result<(), Trouble> {
    let mut script = Vec::new();
    clap_complete::generate(shell, &mut Args::command(), "hemwright", &mut script);
    say::out(&String::from_utf8_lossy(&script))
}

/// Writes the manual page, with a section for every command.
pub(crate) fn manual() -> Result<(), Trouble> {
    let mut page = Vec::new();
    let failed = |fault| Trouble::Output { fault };
    let mut command = Args::command().flatten_help(true);
    command.build();
    clap_mangen::Man::new(command).render(&mut page).map_err(failed)?;
    say::out(&String::from_utf8_lossy(&page))
}
