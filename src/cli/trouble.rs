//! What can go wrong outside the library: files, folders, and flags that are wanting.

use std::fmt;
use std::io;
use std::path::PathBuf;

/// Why the program stops.
#[derive(Debug)]
pub(crate) enum Trouble {
    /// Neither a job file nor enough flags.
    Wanting { flags: Vec<&'static str> },
    /// A job file, and flags that stand for one.
    FileAndFlags { file: PathBuf, flags: Vec<&'static str> },
    /// There is no such file.
    NoFile { path: PathBuf, what: &'static str },
    /// A folder, device or pipe where a file is wanted.
    NotAFile { path: PathBuf, what: &'static str },
    /// There is nothing in the file.
    Empty { path: PathBuf, what: &'static str },
    /// The file is larger than any job or drawing can be.
    TooLarge { path: PathBuf, bytes: u64, most: u64 },
    /// The drawings of a job are together larger than any job needs.
    TooLargeTogether { drawings: usize, bytes: u64, most: u64 },
    /// The file is not text, from this line and letter on where that is known.
    NotText { path: PathBuf, what: &'static str, at: Option<(usize, usize)> },
    /// The file is packed.
    Packed { path: PathBuf },
    /// The system does not let it be read.
    NotReadable { path: PathBuf, fault: io::Error },
    /// The job file has faults, already rendered with their lines.
    Job { rendered: String },
    /// A stage cannot do it.
    Plan(Box<hemwright::plan::Error>),
    /// The folder's place is taken by something that is not a folder.
    OutIsAFile { path: PathBuf },
    /// The folder's place is a link.
    OutIsALink { path: PathBuf },
    /// There is no folder to put the folder into.
    NoParent { path: PathBuf },
    /// The folder holds what this program did not write.
    NotOurs { path: PathBuf, holds: String },
    /// The folder was written for something else.
    HoldsAnother { path: PathBuf, holds: String },
    /// A file of an older plan was changed since.
    Changed { path: PathBuf, file: String },
    /// The system does not let it be written.
    NotWritable { path: PathBuf, fault: io::Error },
    /// A file is already there.
    FileThere { path: PathBuf },
    /// Something found in a drawing stops the job.
    DrawingStops { file: String, findings: usize },
    /// No row of the tables has this word.
    NoMaterial { word: String, near: Vec<String> },
    /// She asked to stop.
    Stopped,
    /// Whoever read the output has gone; not a fault.
    ReaderGone,
    /// The output cannot be written.
    Output { fault: io::Error },
}

impl Trouble {
    /// 2 for wrong usage, 1 for everything else.
    pub(crate) const fn exit_code(&self) -> u8 {
        if matches!(self, Self::Wanting { .. } | Self::FileAndFlags { .. }) { 2 } else { 1 }
    }

    /// What to do about it.
    pub(crate) fn hint(&self) -> Option<String> {
        Some(match self {
            Self::Wanting { .. } => "see  hemwright plan --help  for examples".to_owned(),
            Self::FileAndFlags { .. } => "write it into the job file instead, or leave the job file out".to_owned(),
            Self::NoFile { what: "drawing", path } if path.to_string_lossy().contains('\\') && !cfg!(windows) => {
                format!("write / between folders: {}", path.to_string_lossy().replace('\\', "/"))
            }
            Self::NoFile { what: "drawing", .. } => {
                "drawings are looked for beside the job file, or where you are when there is none".to_owned()
            }
            Self::NoFile { .. } => "check the name and the folder".to_owned(),
            Self::Empty { what: "drawing", .. } => "save the drawing again as plain SVG".to_owned(),
            Self::Empty { .. } => "\"hemwright new\" writes a job file with remarks".to_owned(),
            Self::NotAFile { what, .. } => format!("name the {what} itself"),
            Self::TooLarge { .. } => "is this the right file? Pictures inside a drawing can be left out".to_owned(),
            Self::TooLargeTogether { .. } => {
                "leave pictures and needless points out of the drawings, or split the job in two".to_owned()
            }
            Self::NotText { what: "drawing", .. } => "save the drawing as plain SVG (UTF-8)".to_owned(),
            Self::NotText { .. } => "save the file as plain text (UTF-8)".to_owned(),
            Self::Packed { .. } => "save the drawing as plain SVG, not packed (.svgz)".to_owned(),
            Self::Plan(fault) => fault.hint(),
            Self::OutIsAFile { .. } | Self::OutIsALink { .. } => "choose another name with --out".to_owned(),
            Self::NoParent { path } if path.exists() => "choose another name with --out".to_owned(),
            Self::NoParent { .. } => "make that folder first, or choose another name with --out".to_owned(),
            Self::NotOurs { .. } => {
                "choose another name with --out: only folders that hold nothing but an older plan are replaced"
                    .to_owned()
            }
            Self::HoldsAnother { .. } => "choose another name with --out, or take that folder away first".to_owned(),
            Self::Changed { .. } => "rename the folder to keep it, or choose another name with --out".to_owned(),
            Self::FileThere { .. } => "choose another name: nothing is overwritten".to_owned(),
            Self::DrawingStops { .. } => "mend what \"stops the job\" in the drawing, then inspect it again".to_owned(),
            Self::NoMaterial { near, .. } if near.is_empty() => {
                "\"hemwright materials\" without a word lists them all".to_owned()
            }
            Self::NoMaterial { near, .. } => format!("did you mean {}?", near.join(", ")),
            Self::NotWritable { .. } => {
                "nothing was left behind; choose a folder you may write to, with room".to_owned()
            }
            _ => return None,
        })
    }
}

impl fmt::Display for Trouble {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Wanting { flags } => write!(f, "give a job file, or: {}", flags.join("; ")),
            Self::FileAndFlags { file, flags } => {
                write!(f, "{} cannot go with the job file {}", flags.join(", "), file.display())
            }
            Self::NoFile { path, what } => write!(f, "there is no {what} {}", path.display()),
            Self::NotAFile { path, what } if path.is_dir() => {
                write!(f, "{} is a folder, and no {what}", path.display())
            }
            Self::NotAFile { path, what } => write!(f, "{} is not a file, so no {what}", path.display()),
            Self::Empty { path, what } => write!(f, "the {what} {} is empty", path.display()),
            Self::TooLarge { path, bytes, most } => {
                write!(
                    f,
                    "{} is {} MB large; at most {} MB are read",
                    path.display(),
                    bytes / 1_000_000,
                    most / 1_000_000
                )
            }
            Self::TooLargeTogether { drawings, bytes, most } => write!(
                f,
                "the {drawings} drawings of this job are {} MB large together; at most {} MB are read",
                bytes / 1_000_000,
                most / 1_000_000
            ),
            Self::NotText { path, what, at } => {
                write!(f, "{} is not text, so no {what}", path.display())?;
                at.map_or(Ok(()), |(line, letter)| write!(f, ": line {line}, letter {letter} is not UTF-8"))
            }
            Self::Packed { path } => write!(f, "{} is packed", path.display()),
            Self::NotReadable { path, fault } => write!(f, "{} cannot be read: {}", path.display(), plain(fault)),
            Self::Job { rendered } => f.write_str(rendered),
            Self::Plan(fault) => fault.fmt(f),
            Self::OutIsAFile { path } => write!(f, "{} is a file; the plan is a folder", path.display()),
            Self::OutIsALink { path } => write!(f, "{} is a link; links are not replaced", path.display()),
            Self::NoParent { path } if path.exists() => write!(f, "{} is a file, not a folder", path.display()),
            Self::NoParent { path } => write!(f, "there is no folder {}", path.display()),
            Self::NotOurs { path, holds } => {
                write!(f, "{} holds {holds}, which no plan wrote; nothing was touched", path.display())
            }
            Self::HoldsAnother { path, holds } => {
                write!(f, "{} holds the {holds}; nothing was touched", path.display())
            }
            Self::Changed { path, file } => {
                write!(f, "{} was changed since it was planned; nothing was touched", path.join(file).display())
            }
            Self::NotWritable { path, fault } => write!(f, "{} cannot be written: {}", path.display(), plain(fault)),
            Self::DrawingStops { file, findings: 1 } => write!(f, "1 finding in {file} stops the job"),
            Self::DrawingStops { file, findings } => write!(f, "{findings} findings in {file} stop the job"),
            Self::FileThere { path } => write!(f, "{} is already there", path.display()),
            Self::NoMaterial { word, .. } => write!(f, "nothing in the tables has \"{word}\" in its name"),
            Self::Stopped => f.write_str("stopped; nothing was written"),
            Self::ReaderGone => f.write_str("the output was closed"),
            Self::Output { fault } => write!(f, "the output cannot be written: {}", plain(fault)),
        }
    }
}

/// The system's own words without its number.
fn plain(fault: &io::Error) -> String {
    let text = fault.to_string();
    let end = text.find(" (os error").unwrap_or(text.len());
    text[..end].to_lowercase()
}

impl From<hemwright::plan::Error> for Trouble {
    fn from(fault: hemwright::plan::Error) -> Self {
        Self::Plan(Box::new(fault))
    }
}
