//! The list of a folder's files, by which a later run knows that it may replace the folder.
//!
//! A folder may be replaced only by another of the same, and only when each of its files is on the list and as it was
//! written: a chalk list she has ticked off or a page she has added is hers, and a plan is no place for a recut.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::Path;

use hemwright::write::OutFile;

/// Name of the list in the folder.
pub(crate) const NAME: &str = "contents.txt";
/// First line of every such list.
const HEADING: &str = "hemwright contents 2: what this folder is, then its files with check figure and size";

/// Size and check figure of a file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Mark {
    bytes: u64,
    figure: u64,
}

impl Mark {
    /// Of a file's contents.
    pub(crate) fn of(bytes: &[u8]) -> Self {
        // FNV-1a, 64 bits (Fowler, Noll, Vo; from memory): tells an edited file, not a forged one.
        let figure = bytes
            .iter()
            .fold(0xcbf2_9ce4_8422_2325_u64, |hash, byte| (hash ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3));
        Self { bytes: bytes.len() as u64, figure }
    }
}

/// What is on a list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Contents {
    /// `plan of ../skirt.toml`.
    pub(crate) about: String,
    /// Every file with its mark.
    pub(crate) files: BTreeMap<String, Mark>,
}

/// A file as it is found from a folder: `../skirt.toml`. Two jobs of one name in different folders are different jobs, and a job that
/// is moved together with its plan stays the same.
pub(crate) fn seen_from(folder: &Path, file: &Path) -> String {
    let whole = |path: &Path| {
        let path = std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
        match (path.parent().and_then(|parent| parent.canonicalize().ok()), path.file_name()) {
            (Some(parent), Some(name)) => parent.join(name),
            _ => path,
        }
    };
    let (folder, file) = (whole(folder), whole(file));
    let shared = folder.components().zip(file.components()).take_while(|(a, b)| a == b).count();
    let up = folder.components().skip(shared).map(|_| "..".to_owned());
    let down = file.components().skip(shared).map(|part| part.as_os_str().to_string_lossy().into_owned());
    up.chain(down).collect::<Vec<_>>().join("/")
}

/// The list of these files of a folder that is `about`, on one line.
pub(crate) fn list(about: &str, files: &[OutFile]) -> OutFile {
    let mut text = format!("{HEADING}\n{about}\n");
    for file in files {
        let mark = Mark::of(&file.bytes);
        writeln!(text, "{:016x} {} {}", mark.figure, mark.bytes, file.name).expect("writing to a String cannot fail");
    }
    OutFile { name: NAME.to_owned(), bytes: text.into_bytes() }
}

/// Reads such a list; `None` when it is none.
pub(crate) fn read(text: &str) -> Option<Contents> {
    let mut lines = text.lines();
    if lines.next()? != HEADING {
        return None;
    }
    let about = lines.next()?.to_owned();
    let file = |line: &str| {
        let mut parts = line.splitn(3, ' ');
        let figure = u64::from_str_radix(parts.next()?, 16).ok()?;
        let bytes = parts.next()?.parse().ok()?;
        Some((parts.next()?.to_owned(), Mark { bytes, figure }))
    };
    Some(Contents { about, files: lines.map(file).collect::<Option<_>>()? })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_list_reads_back_and_tells_a_changed_file() {
        let files = [OutFile { name: "cut/red sheet.svg".into(), bytes: b"<svg/>".to_vec() }];
        let read = read(std::str::from_utf8(&list("plan of skirt", &files).bytes).unwrap()).unwrap();
        assert_eq!(read.about, "plan of skirt");
        assert_eq!(read.files["cut/red sheet.svg"], Mark::of(b"<svg/>"));
        assert_ne!(read.files["cut/red sheet.svg"], Mark::of(b"<svg >"));
    }

    #[test]
    fn a_job_is_told_from_another_of_its_name_by_the_way_to_it() {
        let seen = |folder: &str, file: &str| seen_from(Path::new(folder), Path::new(file));
        assert_eq!(seen("skirt-plan", "skirt.toml"), "../skirt.toml");
        assert_eq!(seen("none/common", "none/a/job.toml"), "../a/job.toml");
        assert_eq!(seen("/none/common", "/none/b/job.toml"), "../b/job.toml");
        assert_eq!(seen("skirt.toml", "skirt.toml"), "");
    }

    #[test]
    fn other_texts_are_no_list() {
        assert_eq!(read(""), None);
        assert_eq!(read("my own notes\n"), None);
        assert_eq!(read(&format!("{HEADING}\nplan of a\nzz 1 a\n")), None);
    }
}
