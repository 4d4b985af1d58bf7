//! The best draft so far.

use super::bound;
use super::draft::{Draft, Score};
use crate::nest::Task;
use crate::nest::search::watch::Watch;
use crate::nest::shape::kind::Kind;

/// The best verified draft; until there is one, the best of those that are not.
pub(super) struct Best<'a> {
    task: &'a Task,
    kinds: &'a [Kind],
    watch: &'a Watch<'a>,
    /// No draft's score is better.
    least: Score,
    pub(super) draft: Option<Draft>,
    sound: bool,
}

impl<'a> Best<'a> {
    /// Nothing found yet.
    pub(super) fn new(task: &'a Task, kinds: &'a [Kind], watch: &'a Watch<'a>) -> Self {
        Self { task, kinds, watch, least: bound::least(kinds, task), draft: None, sound: false }
    }

    /// Whether there is nothing left to gain.
    pub(super) fn reached(&self) -> bool {
        let score = self.draft.as_ref().map(|draft| draft.score(self.kinds, self.task));
        self.sound && score.is_some_and(|score| bound::reached(&score, &self.least))
    }

    /// Takes a draft when it is better than all before and sound.
    pub(super) fn offer(&mut self, draft: &Draft) {
        let score = draft.score(self.kinds, self.task);
        let better = self.draft.as_ref().is_none_or(|best| score.beats(&best.score(self.kinds, self.task)));
        if self.sound && !better {
            return;
        }
        let sound = draft.is_sound(self.kinds, self.task);
        if sound || self.draft.is_none() {
            let sheets = draft.sheets.len();
            let plural = if sheets == 1 { "sheet" } else { "sheets" };
            self.watch.tell(format!("{sheets} {plural}, the last used to {:.0} mm", score.last_used));
            (self.draft, self.sound) = (Some(draft.clone()), sound);
        }
    }
}
