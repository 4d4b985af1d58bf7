//! Puts a plan's folder in its place: whole or not at all, and never over anything that is not an older plan.
//!
//! Everything is written into a new folder beside the place and moved there at the end. An older plan is moved aside first
//! and back again should the last step fail.

use std::fs;
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

use hemwright::write::OutFile;

use super::contents::{self, Mark};
use super::progress;
use super::trouble::Trouble;

/// Whether a folder that is `about` something (`plan of ../skirt.toml`) may be put at a place, found out before any long work.
///
/// # Errors
/// [`Trouble`] when the place is taken by anything but an older plan, or there is no folder to put it into.
pub(crate) fn may_write(place: &Path, about: &str) -> Result<(), Trouble> {
    let parent = parent(place)?;
    if !parent.is_dir() {
        return Err(Trouble::NoParent { path: parent });
    }
    let Ok(there) = fs::symlink_metadata(place) else { return Ok(()) };
    if there.is_symlink() {
        return Err(Trouble::OutIsALink { path: place.to_owned() });
    }
    if !there.is_dir() {
        return Err(Trouble::OutIsAFile { path: place.to_owned() });
    }
    only_an_older_one(place, about)
}

/// Whether the system lets a folder be put at a place, found out before any long work.
///
/// # Errors
/// [`Trouble::NotWritable`] with what the system says.
pub(crate) fn can_write(place: &Path) -> Result<(), Trouble> {
    let failed = |fault: io::Error| Trouble::NotWritable { path: place.to_owned(), fault };
    Beside::make(place, "new").map(drop).map_err(failed)
}

/// Writes the folder.
///
/// # Errors
/// [`Trouble`] as [`may_write`], or when the system refuses; then nothing is left behind and an older plan is as it was.
pub(crate) fn write(place: &Path, about: &str, files: &[OutFile]) -> Result<(), Trouble> {
    let about = one_line(about);
    may_write(place, &about)?;
    let failed = |fault: io::Error| Trouble::NotWritable { path: place.to_owned(), fault };
    let new = Beside::make(place, "new").map_err(failed)?;
    let list = contents::list(&about, files);
    for file in files.iter().chain([&list]) {
        if progress::given_up() {
            return Err(Trouble::Stopped);
        }
        write_file(&new.path, file).map_err(failed)?;
    }
    // Once more, since planning may take a while: what came in meanwhile is not ours to replace.
    may_write(place, &about)?;
    if place.exists() {
        let old = Beside::make(place, "old").map_err(failed)?;
        let aside = old.path.join("plan");
        fs::rename(place, &aside).map_err(failed)?;
        if let Err(fault) = fs::rename(&new.path, place) {
            // Back to how it was; should even that fail, the older plan still lies in the folder beside.
            if fs::rename(&aside, place).is_err() {
                old.keep();
            }
            return Err(failed(fault));
        }
    } else {
        fs::rename(&new.path, place).map_err(failed)?;
    }
    new.keep();
    Ok(())
}

/// Writes a file that must not be there yet, whole or not at all.
///
/// # Errors
/// [`Trouble`] when it is there, or the system refuses; then nothing is left behind.
pub(crate) fn write_new(path: &Path, bytes: &[u8]) -> Result<(), Trouble> {
    let failed = |fault: io::Error| match fault.kind() {
        io::ErrorKind::AlreadyExists => Trouble::FileThere { path: path.to_owned() },
        _ => Trouble::NotWritable { path: path.to_owned(), fault },
    };
    let mut file = fs::OpenOptions::new().write(true).create_new(true).open(path).map_err(failed)?;
    file.write_all(bytes).map_err(|fault| {
        // Half a file is worse than none.
        let _ = fs::remove_file(path);
        failed(fault)
    })
}

/// The folder in which a place lies.
fn parent(place: &Path) -> Result<PathBuf, Trouble> {
    match (place.parent(), place.file_name()) {
        (Some(parent), Some(_)) if parent.as_os_str().is_empty() => Ok(PathBuf::from(".")),
        (Some(parent), Some(_)) => Ok(parent.to_owned()),
        // "/", "." or "..": always holds something, or is where she stands.
        _ => Err(Trouble::NotOurs { path: place.to_owned(), holds: "other files".to_owned() }),
    }
}

fn write_file(folder: &Path, file: &OutFile) -> io::Result<()> {
    let path = folder.join(&file.name);
    if let Some(parent) = path.parent() {
        fs::create_dir_all(parent)?;
    }
    fs::write(path, &file.bytes)
}

/// A folder beside the place, taken away again unless kept.
struct Beside {
    path: PathBuf,
}

impl Beside {
    fn make(place: &Path, what: &str) -> io::Result<Self> {
        let name = place.file_name().unwrap_or_default().to_string_lossy();
        let id = std::process::id();
        let mut last = io::Error::from(io::ErrorKind::AlreadyExists);
        for number in 0..100 {
            let path = place.with_file_name(format!(".{name}.{what}-{id}-{number}"));
            match fs::create_dir(&path) {
                Ok(()) => return Ok(Self { path }),
                Err(fault) if fault.kind() == io::ErrorKind::AlreadyExists => last = fault,
                Err(fault) => return Err(fault),
            }
        }
        Err(last)
    }

    fn keep(self) {
        std::mem::forget(self);
    }
}

impl Drop for Beside {
    fn drop(&mut self) {
        // Nothing more can be done where even taking away fails.
        let _ = fs::remove_dir_all(&self.path);
    }
}

/// Names of files may hold line ends; a list's second line may not.
fn one_line(about: &str) -> String {
    about.chars().map(|c| if c.is_control() { ' ' } else { c }).collect()
}

/// Looks through a folder for anything that an older run of the same did not write, or that was changed since.
fn only_an_older_one(place: &Path, about: &str) -> Result<(), Trouble> {
    let failed = |fault: io::Error| Trouble::NotReadable { path: place.to_owned(), fault };
    let mut found = Vec::new();
    walk(place, "", &mut found).map_err(failed)?;
    if found.is_empty() {
        return Ok(());
    }
    let not_ours = |holds: String| Trouble::NotOurs { path: place.to_owned(), holds };
    let listed = fs::read_to_string(place.join(contents::NAME)).ok().and_then(|text| contents::read(&text));
    let listed = listed.ok_or_else(|| not_ours(found[0].clone()))?;
    if listed.about != one_line(about) {
        return Err(Trouble::HoldsAnother { path: place.to_owned(), holds: listed.about });
    }
    for name in found.into_iter().filter(|name| name != contents::NAME) {
        let Some(mark) = listed.files.get(&name) else { return Err(not_ours(name)) };
        if fs::symlink_metadata(place.join(&name)).map_err(failed)?.is_symlink() {
            return Err(not_ours(name));
        }
        let bytes = fs::read(place.join(&name)).map_err(failed)?;
        if Mark::of(&bytes) != *mark {
            return Err(Trouble::Changed { path: place.to_owned(), file: name });
        }
    }
    Ok(())
}

/// Names of everything in a folder that is not itself a folder, in order, and of folders in it that hold nothing: those
/// are hers, since none is ever written.
fn walk(folder: &Path, prefix: &str, found: &mut Vec<String>) -> io::Result<()> {
    let mut entries: Vec<_> = fs::read_dir(folder)?.collect::<io::Result<_>>()?;
    entries.sort_by_key(fs::DirEntry::file_name);
    for entry in entries {
        // Stops early in a folder of thousands of files: the first strange one is enough.
        if found.len() > MOST_FILES {
            return Ok(());
        }
        let name = format!("{prefix}{}", entry.file_name().to_string_lossy());
        if entry.file_type()?.is_dir() {
            let before = found.len();
            let inner = format!("{name}/");
            walk(&entry.path(), &inner, found)?;
            if found.len() == before {
                found.push(inner);
            }
        } else {
            found.push(name);
        }
    }
    Ok(())
}

/// More files than a plan ever has.
const MOST_FILES: usize = 20_000;
