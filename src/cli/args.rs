//! The command line as typed. What a flag is called is known here and nowhere else.

use std::path::PathBuf;

use clap::{Args as ClapArgs, Parser, Subcommand, ValueEnum};
use hemwright::art::Working;
use hemwright::plan::{OffCut, Spoiled};
use hemwright::quantity::size_text;

use super::draft_args::{DraftArgs, length};

/// Sets out motifs along a curved hem, nests the pieces onto film, and plans the pressing
#[derive(Debug, Parser)]
#[command(name = "hemwright", version, max_term_width = 100, arg_required_else_help = true)]
#[command(after_help = "Exit codes: 0 done, 1 cannot be planned, 2 wrong usage.\n\
    Start with  hemwright plan --help  or read docs/formats.md for the job file.")]
pub(crate) struct Args {
    #[command(subcommand)]
    pub(crate) command: Command,
}

/// What is to be done.
#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    /// Plan a whole job into one folder: cut files, papers, press plan
    Plan(PlanArgs),
    /// Is the drawing fit to cut? Findings in words, and numbered on a picture
    Inspect(InspectArgs),
    /// Show the neighbouring counts side by side: gaps, what lies on CF and CB, sheets, press time
    #[command(after_help = "Examples:\n  \
        hemwright counts skirt.toml\n  \
        hemwright counts --motif flower.svg --width 60mm --hem 5118mm --gap 40mm\n\n\
        > marks the count that is recommended; below the table stands why. \"gap\" is what lies between two motifs along their \
        line, \"tightest\" the shortest distance between their outlines; \"look at\" names what is too near with that count.")]
    Counts {
        #[command(flatten)]
        job: JobArgs,
    },
    /// Write a small folder of cut files for spoiled pieces
    Recut(RecutArgs),
    /// Write a commented job file from a few answers or flags
    New(NewArgs),
    /// List the built-in tables of cloth, trims, films and presses, each value with its source
    #[command(
        after_help = "Examples:\n  hemwright materials\n  hemwright materials silk\n  hemwright materials glitter"
    )]
    Materials {
        /// Show all that is known of what has this word in its name
        word: Option<String>,
    },
    /// Write a completion script for a shell
    #[command(
        after_help = "Example:\n  hemwright completions bash > ~/.local/share/bash-completion/completions/hemwright"
    )]
    Completions {
        /// Which shell
        shell: clap_complete::Shell,
    },
    /// Write the manual page
    #[command(after_help = "Example:\n  hemwright manual > ~/.local/share/man/man1/hemwright.1")]
    Manual,
}

/// Arguments of `plan`.
#[derive(Debug, ClapArgs)]
#[command(after_help = "Examples:\n  \
    hemwright plan skirt.toml --out skirt-plan\n  \
    hemwright plan --motif flower.svg --width 60mm --hem 5118mm --gap 40mm --out skirt-plan\n  \
    hemwright plan --motif rose.svg --width \"2 1/2 in\" --waist 72cm --length 70cm --count 30\n\n\
    Lengths carry their unit: mm, cm, m or in. What is left out is filled with the usual value, and said.")]
pub(crate) struct PlanArgs {
    #[command(flatten)]
    pub(crate) job: JobArgs,

    /// Folder to write [default: the name of the job or drawing, and "-plan"]
    #[arg(long, short, value_name = "DIR")]
    pub(crate) out: Option<PathBuf>,

    /// Print the JSON schema of the job file, and stop
    #[arg(long, exclusive = true)]
    pub(crate) job_schema: bool,
}

/// Arguments of `new`.
#[derive(Debug, ClapArgs)]
#[command(after_help = "Examples:\n  \
    hemwright new skirt.toml\n  \
    hemwright new skirt.toml --motif flower.svg --width 60mm --waist 72cm --length 70cm --gap 40mm\n\n\
    On a terminal, what the flags leave open is asked. A job file is never overwritten.")]
pub(crate) struct NewArgs {
    /// Job file to write
    #[arg(value_name = "JOB")]
    pub(crate) file: PathBuf,

    #[command(flatten)]
    pub(crate) draft: DraftArgs,
}

/// Arguments of `inspect`.
#[derive(Debug, ClapArgs)]
#[command(after_help = "Examples:\n  \
    hemwright inspect flower.svg\n  \
    hemwright inspect flower.svg --width 60mm --film glitter --out flower-inspected\n\n\
    Ends with 1 when something in the drawing stops the job. A picture never takes the place of another file.")]
pub(crate) struct InspectArgs {
    /// Drawing (SVG)
    #[arg(value_name = "ART")]
    pub(crate) art: PathBuf,

    /// Finished width; the size the drawing states where not given
    #[arg(long, value_name = "LENGTH", value_parser = length, allow_hyphen_values = true)]
    pub(crate) width: Option<String>,

    /// How its pieces are worked
    #[arg(long, value_enum, default_value_t = WorkingWord::Film)]
    pub(crate) working: WorkingWord,

    /// Class of the film, which says how narrow a part may be: smooth, glitter, and others of "hemwright materials"
    #[arg(long, value_name = "CLASS")]
    pub(crate) film: Option<String>,

    /// Folder to write the numbered picture (PNG and SVG) and the findings (JSON) into
    #[arg(long, value_name = "FOLDER")]
    pub(crate) out: Option<PathBuf>,
}

/// How pieces are worked, as typed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum WorkingWord {
    /// Heat-transfer film
    Film,
    /// Cloth fused with web, edges raw
    RawEdge,
    /// Cloth with its edges turned under
    TurnedEdge,
}

impl From<WorkingWord> for Working {
    fn from(word: WorkingWord) -> Self {
        match word {
            WorkingWord::Film => Self::Film,
            WorkingWord::RawEdge => Self::RawEdge,
            WorkingWord::TurnedEdge => Self::TurnedEdge,
        }
    }
}

/// Arguments of `recut`.
#[derive(Debug, ClapArgs)]
#[command(after_help = "Examples:\n  \
    hemwright recut skirt.toml poppy-red=2\n  \
    hemwright recut skirt.toml poppy-red-7 leaf-green-12 --on red=120x200mm\n  \
    hemwright recut skirt.toml poppy --out one-more-poppy\n\n\
    Pieces are named as on the cut files and in the papers, with or without their number there; a motif's name \
    stands for all its pieces. Off-cuts are used first, then as little of a new sheet as the pieces need.")]
pub(crate) struct RecutArgs {
    /// Job file (TOML)
    #[arg(value_name = "JOB")]
    pub(crate) job: PathBuf,

    /// Pieces to cut again: NAME, or NAME=HOW-MANY
    #[arg(value_name = "PIECE", required = true, value_parser = piece)]
    pub(crate) pieces: Vec<Piece>,

    /// Size of an off-cut to use first, of any film or of one: 120x200mm, red=120x200mm; may be given several times
    #[arg(long, value_name = "[FILM=]SIZE", value_parser = offcut)]
    pub(crate) on: Vec<FilmPiece>,

    /// Folder to write [default: the name of the job, and "-recut"]
    #[arg(long, short, value_name = "DIR")]
    pub(crate) out: Option<PathBuf>,
}

/// A spoiled piece as typed.
#[derive(Clone, Debug)]
pub(crate) struct Piece(pub(crate) Spoiled);

/// An off-cut as typed.
#[derive(Clone, Debug)]
pub(crate) struct FilmPiece(pub(crate) OffCut);

/// Most pieces of one name that are cut again: more is a new plan.
const MOST_AGAIN: u32 = 1000;

fn piece(text: &str) -> Result<Piece, String> {
    let (name, count) = match text.split_once('=') {
        None => (text, 1),
        Some((name, count)) => {
            let count = count.parse().ok().filter(|count| (1..=MOST_AGAIN).contains(count));
            (name, count.ok_or_else(|| format!("write how many as a number from 1 to {MOST_AGAIN}: {name}=2"))?)
        }
    };
    Ok(Piece(Spoiled { name: name.to_owned(), count }))
}

fn offcut(text: &str) -> Result<FilmPiece, String> {
    let (film, size) = match text.split_once('=') {
        None => (None, text),
        Some((film, size)) => (Some(film.to_owned()), size),
    };
    let size = size_text::parse(size).map_err(|fault| fault.to_string())?;
    Ok(FilmPiece(OffCut { film, size }))
}

/// A job: a file, or the flags that stand for one.
#[derive(Debug, ClapArgs)]
pub(crate) struct JobArgs {
    /// Job file (TOML)
    #[arg(value_name = "JOB")]
    pub(crate) file: Option<PathBuf>,

    #[command(flatten)]
    pub(crate) draft: DraftArgs,
}
#[cfg(test)]
mod tests {
    use clap::CommandFactory as _;

    #[test]
    fn the_command_line_holds_together() {
        super::Args::command().debug_assert();
    }
}
