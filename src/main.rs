//! The `hemwright` program: arguments in, files and messages out. Everything else is in the library.
#![allow(clippy::disallowed_methods, reason = "the program's shell is where disk, clock and environment are touched")]

mod cli;

fn main() -> std::process::ExitCode {
    cli::run()
}
