//! Stage 7, write: the whole plan to files as bytes. Nothing here touches the disk.

use crate::plan::Plan;

/// A file of the folder: name with forward slashes relative to it, and its bytes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OutFile {
    /// `cut/red-sheet-1.svg`
    pub name: String,
    /// Contents.
    pub bytes: Vec<u8>,
}

/// Every file of the folder that `plan` writes, in a fixed order.
#[must_use]
pub fn folder(plan: &Plan) -> Vec<OutFile> {
    unimplemented!("{plan:?}")
}
