//! Sheets filled by boxes, remembered for one plan.
//!
//! A plan fills the same sheet with the same pieces again and again: by each rule alone and by the best of all, for each size
//! alone and for all of them. What a rule makes of a sheet hangs on nothing but the sheet, the pieces and the rule, so it is
//! made once.

use std::collections::BTreeMap;
use std::sync::Mutex;

use super::boxes::{self, Rule};
use super::load::Load;
use crate::nest::Task;
use crate::nest::buying::draft::{Pose, room};
use crate::nest::shape::kind::Kind;

/// Pieces remembered in all, at 40 bytes each; what comes after them is made anew each time.
const MOST_REMEMBERED: usize = 250_000;

/// What a sheet filled by boxes hangs on: the rule, width and length of the room, what is wanted, and what must come first.
type Asked = (Rule, [u64; 2], Vec<u32>, Vec<u32>);

/// The sheets filled so far with pieces of some kinds, at the gap and margin of one task.
#[derive(Debug)]
pub(in crate::nest) struct Fills<'a> {
    pub(in crate::nest) kinds: &'a [Kind],
    made: Mutex<Made>,
}

#[derive(Debug, Default)]
struct Made {
    sheets: BTreeMap<Asked, Vec<Pose>>,
    pieces: usize,
}

impl<'a> Fills<'a> {
    pub(in crate::nest) fn new(kinds: &'a [Kind]) -> Self {
        Self { kinds, made: Mutex::default() }
    }

    /// One sheet of a stock by one rule.
    pub(super) fn fill(&self, rule: Rule, stock: usize, wanted: &[u32], first: &[u32], task: &Task) -> Vec<Pose> {
        let room = room(stock, task);
        let asked = (rule, [room.width.to_bits(), room.length.to_bits()], wanted.to_vec(), first.to_vec());
        let known = self.made.lock().ok().and_then(|made| made.sheets.get(&asked).cloned());
        if let Some(known) = known {
            return known;
        }
        let load = Load { room: &room, gap: task.gap.get(), kinds: self.kinds, wanted, first };
        let poses = boxes::fill(rule, &load);
        if let Ok(mut made) = self.made.lock()
            && made.pieces + poses.len() <= MOST_REMEMBERED
        {
            // A sheet that takes nothing is remembered too, and counts.
            made.pieces += poses.len().max(1);
            made.sheets.insert(asked, poses.clone());
        }
        poses
    }
}
