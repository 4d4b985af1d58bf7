//! The list of a plan folder's files, by which a later plan knows that it may replace the folder.
//!
//! A folder may be replaced only when each of its files is on the list and as it was written: a chalk list she has ticked
//! off or a page she has added is hers.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use hemwright::write::OutFile;

/// Name of the list in the folder.
pub(crate) const NAME: &str = "contents.txt";
/// First line of every such list.
const HEADING: &str = "hemwright contents 1: files of this plan with their size and check figure";

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

/// The list of these files.
pub(crate) fn list(files: &[OutFile]) -> OutFile {
    let mut text = format!("{HEADING}\n");
    for file in files {
        let mark = Mark::of(&file.bytes);
        writeln!(text, "{:016x} {} {}", mark.figure, mark.bytes, file.name).expect("writing to a String cannot fail");
    }
    OutFile { name: NAME.to_owned(), bytes: text.into_bytes() }
}

/// Reads such a list; `None` when it is none.
pub(crate) fn read(text: &str) -> Option<BTreeMap<String, Mark>> {
    let mut lines = text.lines();
    if lines.next()? != HEADING {
        return None;
    }
    lines
        .map(|line| {
            let mut parts = line.splitn(3, ' ');
            let figure = u64::from_str_radix(parts.next()?, 16).ok()?;
            let bytes = parts.next()?.parse().ok()?;
            Some((parts.next()?.to_owned(), Mark { bytes, figure }))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_list_reads_back_and_tells_a_changed_file() {
        let files = [OutFile { name: "cut/red sheet.svg".into(), bytes: b"<svg/>".to_vec() }];
        let read = read(std::str::from_utf8(&list(&files).bytes).unwrap()).unwrap();
        assert_eq!(read["cut/red sheet.svg"], Mark::of(b"<svg/>"));
        assert_ne!(read["cut/red sheet.svg"], Mark::of(b"<svg >"));
    }

    #[test]
    fn other_texts_are_no_list() {
        assert_eq!(read(""), None);
        assert_eq!(read("my own notes\n"), None);
        assert_eq!(read(&format!("{HEADING}\nzz 1 a\n")), None);
    }
}
