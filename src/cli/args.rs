//! The command line as typed. What a flag is called is known here and nowhere else.

use std::path::PathBuf;

use clap::{Args as ClapArgs, Parser, Subcommand, ValueEnum};
use hemwright::art::Working;
use hemwright::job::{Draft, HemDraft};
use hemwright::plan::{OffCut, Spoiled};
use hemwright::quantity::{heat_text, length_text, size_text, time_text};

use super::trouble::Trouble;

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

/// A job without a file.
#[derive(Clone, Debug, Default, ClapArgs)]
#[group(id = "DraftArgs", multiple = true)]
#[command(next_help_heading = "What the job says")]
pub(crate) struct DraftArgs {
    /// Drawing of a motif; may be given several times
    #[arg(long = "motif", value_name = "SVG")]
    motifs: Vec<String>,
    /// Finished width of the motif
    #[arg(long, value_name = "LENGTH", value_parser = length, allow_hyphen_values = true)]
    width: Option<String>,
    /// Length of the finished hem by tape
    #[arg(long, value_name = "LENGTH", value_parser = length, allow_hyphen_values = true, conflicts_with_all = ["waist", "straight"])]
    hem: Option<String>,
    /// Angle through which a measured hem turns: "360 deg" for a full circle
    #[arg(long, value_name = "ANGLE", requires = "hem")]
    sweep: Option<String>,
    /// Finished waist of a circle skirt
    #[arg(long, value_name = "LENGTH", value_parser = length, allow_hyphen_values = true, requires = "length", conflicts_with = "straight")]
    waist: Option<String>,
    /// From waist to hem of a circle skirt
    #[arg(long, value_name = "LENGTH", value_parser = length, allow_hyphen_values = true, requires = "waist")]
    length: Option<String>,
    /// Part of a circle: full, 3/4, half, quarter
    #[arg(long, value_name = "PART", requires = "waist")]
    fraction: Option<String>,
    /// Length of a straight band
    #[arg(long, value_name = "LENGTH", value_parser = length, allow_hyphen_values = true)]
    straight: Option<String>,
    /// The hem has two ends, as on a cape
    #[arg(long, conflicts_with = "opening")]
    open: bool,
    /// Where the opening lies: CB, CF, "side left", or a distance from CF
    #[arg(long, value_name = "PLACE")]
    opening: Option<String>,
    /// How far one edge of the opening reaches under the other
    #[arg(long, value_name = "LENGTH", value_parser = length, allow_hyphen_values = true, conflicts_with = "open")]
    underlap: Option<String>,
    /// A seam that motifs keep clear of: "side left", CB, or a distance from CF; may be given several times
    #[arg(long = "seam", value_name = "PLACE")]
    seams: Vec<String>,
    /// At least this much between motifs along their line
    #[arg(long, value_name = "LENGTH", value_parser = length, allow_hyphen_values = true)]
    gap: Option<String>,
    /// Exactly so many motifs; with --gap they are made smaller where so many would not fit
    #[arg(long, value_name = "NUMBER")]
    count: Option<u32>,
    /// From the hem up to the motifs' middles
    #[arg(long, value_name = "LENGTH", value_parser = length, allow_hyphen_values = true, conflicts_with = "lower_edge")]
    height: Option<String>,
    /// From the hem up to the motifs' lower edge
    #[arg(long, value_name = "LENGTH", value_parser = length, allow_hyphen_values = true)]
    lower_edge: Option<String>,
    /// What lies on centre front: motif, gap or best
    #[arg(long, value_name = "WHAT")]
    cf: Option<String>,
    /// Every motif of a ring so far to the wearer's left, negative to her right
    #[arg(long, value_name = "LENGTH", value_parser = length, allow_hyphen_values = true)]
    shift: Option<String>,
    /// Which way up: "square to hem", "bent" to follow the line, or "upright"
    #[arg(long, value_name = "WAY")]
    stance: Option<String>,
    /// A place such as a pocket that no motif may reach into, along the hem from CF: "100mm to 350mm"; may be given several times
    #[arg(long = "keep-out", value_name = "FROM to TO", value_parser = keep_out, allow_hyphen_values = true)]
    keep_out: Vec<FromTo>,
    /// "as drawn", "mirrored right" or "alternating"
    #[arg(long, value_name = "HANDS")]
    hands: Option<String>,
    /// Spare motifs of each hand
    #[arg(long, value_name = "NUMBER")]
    spares: Option<u32>,
    /// Sheet size of the films: 300x500mm
    #[arg(long, value_name = "SIZE")]
    sheet: Option<String>,
    /// Price of a sheet
    #[arg(long, value_name = "PRICE", requires = "sheet")]
    price: Option<f64>,
    /// Class of the films: smooth, glitter, and others that "hemwright materials" lists
    #[arg(long, value_name = "CLASS")]
    film: Option<String>,
    /// Cloth of the garment, as "hemwright materials" lists it
    #[arg(long, value_name = "CLOTH")]
    cloth: Option<String>,
    /// Plate of the press, along the hem x up the garment
    #[arg(long, value_name = "SIZE")]
    plate: Option<String>,
    /// Press temperature from the film maker's sheet: 150C, 300F
    #[arg(long, value_name = "TEMPERATURE", value_parser = heat, allow_hyphen_values = true)]
    temperature: Option<String>,
    /// Press time from the film maker's sheet: 15s
    #[arg(long, value_name = "TIME", value_parser = time, allow_hyphen_values = true)]
    dwell: Option<String>,
    /// A4 or Letter
    #[arg(long, value_name = "PAPER")]
    paper: Option<String>,
    /// What the job is called on the papers
    #[arg(long, value_name = "NAME")]
    name: Option<String>,
}

impl DraftArgs {
    /// The draft of a job that can be planned, or what is still wanted.
    ///
    /// # Errors
    /// [`Trouble::Wanting`] with the flags that are missing.
    pub(crate) fn draft(&self) -> Result<Draft, Trouble> {
        let mut wanting = Vec::new();
        if self.motifs.is_empty() {
            wanting.push("--motif SVG");
        }
        if self.hem_draft().is_none() {
            wanting.push("--hem LENGTH, or --waist LENGTH --length LENGTH, or --straight LENGTH");
        }
        if self.gap.is_none() && self.count.is_none() {
            wanting.push("--gap LENGTH, or --count NUMBER");
        }
        if wanting.is_empty() { Ok(self.part()) } else { Err(Trouble::Wanting { flags: wanting }) }
    }

    /// The draft as far as the flags go.
    pub(crate) fn part(&self) -> Draft {
        let given = self.clone();
        Draft {
            name: given.name,
            cloth: given.cloth,
            hem: self.hem_draft(),
            open: given.open,
            opening: given.opening,
            underlap: given.underlap,
            seams: given.seams,
            art: given.motifs,
            width: given.width,
            height: given.height,
            lower_edge: given.lower_edge,
            gap: given.gap,
            count: given.count,
            cf: given.cf,
            shift: given.shift,
            stance: given.stance,
            keep_out: given.keep_out.into_iter().map(|FromTo(from, to)| (from, to)).collect(),
            hands: given.hands,
            spares: given.spares,
            sheet: given.sheet,
            price: given.price,
            film: given.film,
            plate: given.plate,
            temperature: given.temperature,
            dwell: given.dwell,
            paper: given.paper,
        }
    }

    fn hem_draft(&self) -> Option<HemDraft> {
        if let Some(hem) = &self.hem {
            return Some(HemDraft::Measured { hem: hem.clone(), sweep: self.sweep.clone() });
        }
        if let (Some(waist), Some(length)) = (&self.waist, &self.length) {
            let fraction = self.fraction.clone();
            return Some(HemDraft::Circle { waist: waist.clone(), length: length.clone(), fraction });
        }
        self.straight.as_ref().map(|length| HemDraft::Straight { length: length.clone() })
    }

    /// The flags that were given.
    pub(crate) fn given(&self) -> Vec<&'static str> {
        let all = [
            ("--motif", !self.motifs.is_empty()),
            ("--width", self.width.is_some()),
            ("--hem", self.hem.is_some()),
            ("--sweep", self.sweep.is_some()),
            ("--waist", self.waist.is_some()),
            ("--length", self.length.is_some()),
            ("--fraction", self.fraction.is_some()),
            ("--straight", self.straight.is_some()),
            ("--open", self.open),
            ("--opening", self.opening.is_some()),
            ("--underlap", self.underlap.is_some()),
            ("--seam", !self.seams.is_empty()),
            ("--gap", self.gap.is_some()),
            ("--count", self.count.is_some()),
            ("--height", self.height.is_some()),
            ("--lower-edge", self.lower_edge.is_some()),
            ("--cf", self.cf.is_some()),
            ("--shift", self.shift.is_some()),
            ("--stance", self.stance.is_some()),
            ("--keep-out", !self.keep_out.is_empty()),
            ("--hands", self.hands.is_some()),
            ("--spares", self.spares.is_some()),
            ("--sheet", self.sheet.is_some()),
            ("--price", self.price.is_some()),
            ("--film", self.film.is_some()),
            ("--cloth", self.cloth.is_some()),
            ("--plate", self.plate.is_some()),
            ("--temperature", self.temperature.is_some()),
            ("--dwell", self.dwell.is_some()),
            ("--paper", self.paper.is_some()),
            ("--name", self.name.is_some()),
        ];
        all.into_iter().filter(|(_, given)| *given).map(|(flag, _)| flag).collect()
    }

    /// File name of the first drawing, from which a folder is named.
    pub(crate) fn first_motif(&self) -> Option<&str> {
        self.motifs.first().map(String::as_str)
    }
}

/// A stretch of the hem as typed.
#[derive(Clone, Debug)]
pub(crate) struct FromTo(String, String);

/// Two lengths with "to" between them.
fn keep_out(text: &str) -> Result<FromTo, String> {
    let (from, to) = text.split_once(" to ").ok_or("write from where to where along the hem: \"100mm to 350mm\"")?;
    let checked = |text: &str| length(text.trim()).map_err(|fault| fault.to_string());
    Ok(FromTo(checked(from)?, checked(to)?))
}

/// Refuses at once what is no length, with the flag's name; the words are kept as typed.
fn length(text: &str) -> Result<String, length_text::LengthTextError> {
    length_text::parse(text).map(|_| text.to_owned())
}

fn heat(text: &str) -> Result<String, heat_text::HeatTextError> {
    heat_text::parse(text).map(|_| text.to_owned())
}

fn time(text: &str) -> Result<String, time_text::TimeTextError> {
    time_text::parse(text).map(|_| text.to_owned())
}

#[cfg(test)]
mod tests {
    use clap::CommandFactory as _;

    #[test]
    fn the_command_line_holds_together() {
        super::Args::command().debug_assert();
    }
}
