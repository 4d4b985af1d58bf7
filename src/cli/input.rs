//! Reads the job file and the drawings it names, and nothing else.

use std::collections::BTreeMap;
use std::fs::File;
use std::io::{self, Read as _};
use std::ops::Range;
use std::path::{Path, PathBuf};

use hemwright::job::{self, Fault, FaultKind, Job, JobError, Look};
use hemwright::plan;

use super::args::JobArgs;
use super::trouble::Trouble;

/// Largest drawing that is read, in bytes: a flower traced with 100 000 points takes 3 MB.
const LARGEST_DRAWING: u64 = 16_000_000;

/// Largest sum of a job's drawings, in bytes, since all are held at once: thirty flowers traced with 100 000 points.
const LARGEST_TOGETHER: u64 = 100_000_000;

/// Most faults of the drawings and stages that are told at once: a drawing can have thousands.
const MOST_TOLD: usize = 40;

/// What messages call the job that flags stand for.
pub(crate) const FROM_FLAGS: &str = "job made from the flags";

/// A job with the texts of its drawings.
pub(crate) struct Input {
    /// The job as checked.
    pub(crate) job: Job,
    /// Texts of the drawings by the file name the job gives.
    pub(crate) art: BTreeMap<String, String>,
    /// What a folder or file made from the job is named after.
    pub(crate) stem: String,
    /// The job file, or the first drawing of a job that flags stand for.
    pub(crate) origin: PathBuf,
    /// The job file, where it was read from one.
    pub(crate) source: Option<Source>,
}

/// A job file as messages show it.
pub(crate) struct Source {
    name: String,
    text: String,
}

/// What a stage says of a job, at the line of its file where it is about one.
pub(crate) fn trouble(source: Option<&Source>, fault: plan::Error) -> Trouble {
    let Some(source) = source else { return fault.into() };
    let each = fault.clone().each();
    if each.iter().all(|fault| fault.place_in(&source.text).is_none()) {
        return fault.into();
    }
    let mut faults: Vec<Fault> = each.iter().take(MOST_TOLD).map(|fault| in_file(&source.text, fault)).collect();
    let count = each.len() - faults.len();
    faults.extend((count > 0).then_some(Fault { at: None, kind: FaultKind::Others { count } }));
    let faults = JobError::new(faults);
    Trouble::Job { rendered: faults.render(&source.name, &source.text, look()) }
}

/// What a stage says of a job, as a fault of the line of its file that it is about.
fn in_file(text: &str, fault: &plan::Error) -> Fault {
    let hint = Some(fault.hint()).filter(|hint| !hint.is_empty());
    Fault { at: fault.place_in(text), kind: FaultKind::WorkedOut { say: fault.to_string(), hint } }
}

/// Reads the job from its file or from flags, and its drawings.
///
/// # Errors
/// [`Trouble`] with the file that cannot be read, or the faults of the job.
pub(crate) fn read(args: &JobArgs) -> Result<Input, Trouble> {
    if let Some(path) = &args.file {
        let flags = args.draft.given();
        if !flags.is_empty() {
            return Err(Trouble::FileAndFlags { file: path.clone(), flags });
        }
        return read_file(path);
    }
    let draft = args.draft.draft()?;
    let origin = Path::new(args.draft.first_motif().unwrap_or("hem"));
    check(FROM_FLAGS, draft.to_toml(), Path::new(""), origin, false)
}

/// Reads a job file and its drawings.
///
/// # Errors
/// As [`read`].
pub(crate) fn read_file(path: &Path) -> Result<Input, Trouble> {
    let text = with_line_ends(read_text(path, "job file", job::LONGEST_FILE as u64)?);
    let folder = path.parent().unwrap_or(Path::new(""));
    check(&path.display().to_string(), text, folder, path, true)
}

/// A text whose lines end as they did on old machines, with line ends that are read.
fn with_line_ends(text: String) -> String {
    if text.contains('\r') && !text.contains('\n') { text.replace('\r', "\n") } else { text }
}

/// Checks the text of a job and reads its drawings, which lie in `folder`. Drawings that are not to be had are told together with
/// what is wrong in the text, each at the line that names it.
fn check(name: &str, text: String, folder: &Path, origin: &Path, is_file: bool) -> Result<Input, Trouble> {
    let named = job::drawings(&text);
    let refused = |fault: JobError| Trouble::Job { rendered: fault.render(name, &text, look()) };
    let job = match job::read(&text) {
        Ok(job) => job,
        Err(fault) => {
            let beside = beside_faults(&text, &fault, &named, folder);
            let missing =
                named.into_iter().filter_map(|(file, at)| Some((at, may_read_drawing(&folder.join(file)).err()?)));
            return Err(refused(fault.with(missing.map(not_to_be_had).collect()).with(beside)));
        }
    };
    may_read_together(named.iter().map(|(file, _)| folder.join(file)))?;
    let (mut art, mut missing) = (BTreeMap::new(), Vec::new());
    for (file, at) in named {
        match read_drawing(&folder.join(&file)) {
            Ok(drawing) => drop(art.insert(file, drawing)),
            Err(fault) => missing.push((at, fault)),
        }
    }
    if !missing.is_empty() {
        // What flags stand for has no lines that she could look at.
        if !is_file {
            return Err(missing.swap_remove(0).1);
        }
        let found = plan::faults(&job, &art);
        // Those are told with what is wrong with the file itself.
        let others = found.iter().filter(|fault| !matches!(fault, plan::Error::NoDrawing { .. }));
        let others = others.map(|fault| in_file(&text, fault)).collect();
        return Err(refused(JobError::new(missing.into_iter().map(not_to_be_had).collect()).with(others)));
    }
    let job = if is_file { job } else { job.without_lines() };
    let source = is_file.then(|| Source { name: name.to_owned(), text });
    Ok(Input { job, art, stem: stem(origin), origin: origin.to_owned(), source })
}

/// What the stages find wrong with the rest of a job whose file has faults, where that does not hang on those.
fn beside_faults(text: &str, fault: &JobError, named: &[(String, Range<usize>)], folder: &Path) -> Vec<Fault> {
    let Some(job) = job::in_part(text) else { return Vec::new() };
    if may_read_together(named.iter().map(|(file, _)| folder.join(file))).is_err() {
        return Vec::new();
    }
    let art =
        named.iter().filter_map(|(file, _)| Some((file.clone(), read_drawing(&folder.join(file)).ok()?))).collect();
    let touched = job::tables_at_fault(text, fault);
    let stands = |found: &plan::Error| found.hangs_on().iter().all(|table| !touched.contains(*table));
    let found = plan::faults(&job, &art).into_iter().filter(|found| !matches!(found, plan::Error::NoDrawing { .. }));
    found.filter(stands).take(MOST_TOLD).map(|found| in_file(text, &found)).collect()
}

/// A drawing that cannot be read, as a fault of the line that names it.
fn not_to_be_had((at, fault): (Range<usize>, Trouble)) -> Fault {
    Fault { at: Some(at), kind: FaultKind::WorkedOut { say: fault.to_string(), hint: fault.hint() } }
}

/// Reads a drawing.
///
/// # Errors
/// [`Trouble`] when there is none, or it is no text, packed, or too large.
pub(crate) fn read_drawing(path: &Path) -> Result<String, Trouble> {
    read_text(path, "drawing", LARGEST_DRAWING)
}

/// Whether there is a file at the place of a drawing, no larger than one that is read.
fn may_read_drawing(path: &Path) -> Result<(), Trouble> {
    may_read(path, "drawing", LARGEST_DRAWING)
}

/// Whether drawings, each of which may be read, are not too large together.
fn may_read_together(paths: impl Iterator<Item = PathBuf>) -> Result<(), Trouble> {
    let sizes: Vec<u64> = paths
        .filter_map(|path| may_read_drawing(&path).ok().and_then(|()| Some(std::fs::metadata(path).ok()?.len())))
        .collect();
    let bytes = sizes.iter().sum();
    if bytes > LARGEST_TOGETHER {
        return Err(Trouble::TooLargeTogether { drawings: sizes.len(), bytes, most: LARGEST_TOGETHER });
    }
    Ok(())
}

/// Colour codes are taken out again where the terminal shows none.
pub(crate) fn look() -> Look {
    let stderr = anstream::AutoStream::choice(&io::stderr());
    if stderr == anstream::ColorChoice::Never { Look::Plain } else { Look::Coloured }
}

fn stem(path: &Path) -> String {
    path.file_stem().map_or_else(|| "hem".to_owned(), |stem| stem.to_string_lossy().into_owned())
}

/// Whether there is a file of at most so many bytes.
fn may_read(path: &Path, what: &'static str, most: u64) -> Result<(), Trouble> {
    let about = std::fs::metadata(path).map_err(|fault| not_readable(path, what, fault))?;
    if !about.is_file() {
        return Err(Trouble::NotAFile { path: path.to_owned(), what });
    }
    if about.len() > most {
        return Err(Trouble::TooLarge { path: path.to_owned(), bytes: about.len(), most });
    }
    Ok(())
}

fn not_readable(path: &Path, what: &'static str, fault: io::Error) -> Trouble {
    match fault.kind() {
        io::ErrorKind::NotFound => Trouble::NoFile { path: path.to_owned(), what },
        _ => Trouble::NotReadable { path: path.to_owned(), fault },
    }
}

/// Reads a text file whose size is checked before it is read, and again while.
fn read_text(path: &Path, what: &'static str, most: u64) -> Result<String, Trouble> {
    may_read(path, what, most)?;
    let mut bytes = Vec::new();
    let failed = |fault: io::Error| not_readable(path, what, fault);
    let read = File::open(path).and_then(|file| file.take(most + 1).read_to_end(&mut bytes)).map_err(failed)?;
    if read as u64 > most {
        return Err(Trouble::TooLarge { path: path.to_owned(), bytes: read as u64, most });
    }
    let text = text_of(bytes).map_err(|fault| match fault {
        NoText::Packed => Trouble::Packed { path: path.to_owned() },
        NoText::Unknown { at } => Trouble::NotText { path: path.to_owned(), what, at },
    })?;
    if text.trim().is_empty() { Err(Trouble::Empty { path: path.to_owned(), what }) } else { Ok(text) }
}

/// Why bytes are no text.
#[derive(Debug, PartialEq, Eq)]
enum NoText {
    Packed,
    /// From this line and letter on, where that is known.
    Unknown {
        at: Option<(usize, usize)>,
    },
}

/// UTF-8, or UTF-16 with its mark, as some drawing programs save it.
fn text_of(bytes: Vec<u8>) -> Result<String, NoText> {
    let wide = |pair: fn([u8; 2]) -> u16| {
        let units = bytes[2..].chunks_exact(2).map(|two| pair([two[0], two[1]]));
        char::decode_utf16(units).collect::<Result<String, _>>().map_err(|_| NoText::Unknown { at: None })
    };
    match bytes.as_slice() {
        [0x1f, 0x8b, ..] => Err(NoText::Packed),
        [0xff, 0xfe, ..] => wide(u16::from_le_bytes),
        [0xfe, 0xff, ..] => wide(u16::from_be_bytes),
        _ => {
            let text = String::from_utf8(bytes).map_err(|fault| NoText::Unknown { at: Some(end_of_text(&fault)) })?;
            Ok(text.strip_prefix('\u{feff}').map(str::to_owned).unwrap_or(text))
        }
    }
}

/// Line and letter, from 1, of the first byte that is not text.
fn end_of_text(fault: &std::string::FromUtf8Error) -> (usize, usize) {
    let before = &fault.as_bytes()[..fault.utf8_error().valid_up_to()];
    let text = std::str::from_utf8(before).unwrap_or_default();
    let last = text.rsplit('\n').next().unwrap_or_default();
    (text.matches('\n').count() + 1, last.chars().count() + 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_is_read_in_the_ways_drawing_programs_save_it() {
        let wide: Vec<u8> = "\u{feff}<svg/>".encode_utf16().flat_map(u16::to_le_bytes).collect();
        assert_eq!(text_of(wide).unwrap(), "<svg/>");
        let wide: Vec<u8> = "\u{feff}<svg/>".encode_utf16().flat_map(u16::to_be_bytes).collect();
        assert_eq!(text_of(wide).unwrap(), "<svg/>");
        assert_eq!(text_of("\u{feff}<svg/>".into()).unwrap(), "<svg/>");
        assert_eq!(text_of(vec![0x1f, 0x8b, 8]), Err(NoText::Packed));
        assert_eq!(text_of(vec![0x89, b'P', b'N', b'G']), Err(NoText::Unknown { at: Some((1, 1)) }));
        assert_eq!(text_of("a\nbé\u{0}".bytes().chain([0xff]).collect()), Err(NoText::Unknown { at: Some((2, 4)) }));
    }
}
