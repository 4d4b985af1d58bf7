//! `[[trim]]`: braid, facing, lace, pleats, ruffle, binding or piping on the hem.
//!
//! Measurements left out are taken from the figures of trims, and each is said. A key that does not belong to the kind is
//! refused, since it would change nothing.

mod belongs;
mod keys;

use super::check::{Check, Table, plain};
use super::fault::FaultKind;
use super::given::{Given, Section};
use crate::data::usual;
use crate::press::ZoneState;
use crate::quantity::{Mm, mm};
use crate::trims::{
    Binding, Braid, DrawThread, Facing, FacingCut, Kind, Lace, Piping, PleatStyle, Pleats, Ruffle, Side, StripCloth,
    TrimWish,
};

use belongs::{by_itself, only_its_own, place};
pub(crate) use keys::TrimKeys;

/// What a trim is, before its measurements are read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum What {
    Braid,
    Facing,
    Lace,
    Pleats(PleatStyle),
    Ruffle,
    Binding,
    Piping,
}

const KINDS: [(&str, What); 8] = [
    ("braid", What::Braid),
    ("facing", What::Facing),
    ("lace", What::Lace),
    ("knife pleats", What::Pleats(PleatStyle::Knife)),
    ("box pleats", What::Pleats(PleatStyle::Box)),
    ("ruffle", What::Ruffle),
    ("binding", What::Binding),
    ("piping", What::Piping),
];

impl TrimKeys {
    /// What it is called, where that can be read.
    pub(super) fn called(&self) -> Option<String> {
        match &self.name {
            Some(name) => name.value.clone().ok(),
            None => Some(plain(self.kind.as_ref()?.value.as_ref().ok()?)),
        }
    }
}

/// The trims as checked; those with faults are left out.
pub(crate) fn check(check: &mut Check, trims: &[Section<TrimKeys>]) -> Vec<TrimWish> {
    (1..).zip(trims).filter_map(|(number, trim)| check_trim(check, number, trim)).collect()
}

fn check_trim(check: &mut Check, number: u32, section: &Section<TrimKeys>) -> Option<TrimWish> {
    let (keys, table) = (&section.keys, Table { name: "[[trim]]", at: &section.at });
    if keys.kind.is_none() {
        check.missing(table, "kind", "kind = \"braid\"");
    }
    let Some(what) = check.one_of(keys.kind.as_ref(), &KINDS) else {
        by_itself(check, keys, number);
        return None;
    };
    only_its_own(check, keys, what);
    let mut reading = Reading { check, keys, table, number, word: word(what) };
    let kind = reading.kind(what);
    let height = check.not_below_zero("height", keys.height.as_ref()).unwrap_or(Mm::ZERO);
    let name = check.take(keys.name.as_ref()).unwrap_or_else(|| word(what).to_owned());
    let (material, state) = zone(check, keys, number);
    let side = side(check, keys, what);
    let price = not_negative(check, "price", keys.price.as_ref());
    let weight = not_negative(check, "weight", keys.weight.as_ref());
    Some(TrimWish { name, kind: kind?, height, side, price, weight, material, state })
}

fn word(what: What) -> &'static str {
    KINDS.iter().find(|(_, kind)| *kind == what).map_or("trim", |(word, _)| word)
}

fn side(check: &mut Check, keys: &TrimKeys, what: What) -> Side {
    let given = check.one_of(keys.side.as_ref(), &[("right", Side::Right), ("wrong", Side::Wrong)]);
    given.unwrap_or(match what {
        What::Braid | What::Facing => Side::Wrong,
        What::Lace | What::Pleats(_) | What::Ruffle | What::Binding | What::Piping => Side::Right,
    })
}

/// What the press meets: nothing unless the material is named.
fn zone(check: &mut Check, keys: &TrimKeys, number: u32) -> (Option<String>, Option<ZoneState>) {
    let material = check.material(keys.material.as_ref());
    let state = check.one_of(
        keys.state.as_ref(),
        &[
            ("in place", ZoneState::InPlace),
            ("folded away", ZoneState::FoldedAway),
            ("sewn on later", ZoneState::SewnOnLater),
        ],
    );
    match (&material, &keys.state) {
        (None, Some(given)) if keys.material.is_none() => {
            check.fault(&given.at, FaultKind::OnlyWith { key: "state", with: "a material" });
        }
        (Some(_), None) => {
            check.assume(
                "state of the trim at the press",
                "in place, under the plate",
                format!("trim {number}: state"),
            );
        }
        _ => {}
    }
    (material, state)
}

fn not_negative(check: &mut Check, key: &'static str, given: Option<&Given<f64>>) -> Option<f64> {
    let number = check.take(given)?;
    if number >= 0.0 {
        return Some(number);
    }
    check.fault(&given?.at, FaultKind::BelowZero { key, found: number.to_string() });
    None
}

/// One trim being read.
struct Reading<'a, 'c> {
    check: &'c mut Check,
    keys: &'a TrimKeys,
    table: Table<'a>,
    number: u32,
    word: &'static str,
}

impl Reading<'_, '_> {
    fn kind(&mut self, what: What) -> Option<Kind> {
        let depth = self.check.need_above_zero(self.table, "depth", "depth = \"150 mm\"", self.keys.depth.as_ref());
        Some(match what {
            What::Braid => Kind::Braid(Braid {
                ease: self.number("ease_percent", self.keys.ease_percent.as_ref(), usual("braid-ease") * 100.0) / 100.0,
                overlap: self.overlap(),
                draw_thread: match self.check.take(self.keys.draw_thread.as_ref()) {
                    Some(true) => DrawThread::Yes,
                    Some(false) => DrawThread::No,
                    None => DrawThread::Unknown,
                },
                depth: depth?,
            }),
            What::Facing => Kind::Facing(Facing {
                allowance: self.length("allowance", self.keys.allowance.as_ref(), "facing-allowance"),
                cut: self.facing_cut(),
                cloth: self.cloth("facing-allowance"),
                depth: depth?,
            }),
            What::Lace => Kind::Lace(Lace {
                fullness: self.number("fullness", self.keys.fullness.as_ref(), 1.0),
                overlap: self.overlap(),
                depth: depth?,
            }),
            What::Pleats(style) => Kind::Pleats(self.pleats(style, depth)?),
            What::Ruffle => Kind::Ruffle(self.ruffle(depth)?),
            What::Binding => Kind::Binding(self.binding(depth)?),
            What::Piping => Kind::Piping(Piping {
                allowance: self.length("allowance", self.keys.allowance.as_ref(), "piping-allowance"),
                overlap: self.overlap(),
                cloth: self.cloth("strip-join"),
                cord: depth?,
            }),
        })
    }

    fn ruffle(&mut self, depth: Option<Mm>) -> Option<Ruffle> {
        let fullness = self.number("fullness", self.keys.fullness.as_ref(), usual("ruffle-fullness"));
        let (cut_depth, cloth) = (self.cut_depth(depth), self.cloth("strip-join"));
        Some(Ruffle { fullness, cut_depth: cut_depth?, cloth, depth: depth? })
    }

    fn pleats(&mut self, style: PleatStyle, depth: Option<Mm>) -> Option<Pleats> {
        let visible =
            self.check.need_above_zero(self.table, "visible", "visible = \"15 mm\"", self.keys.visible.as_ref());
        let underfold = self.underfold(style, visible);
        let rows = self.check.take(self.keys.rows.as_ref()).unwrap_or(1);
        let row_step = self.check.not_below_zero("row_step", self.keys.row_step.as_ref()).unwrap_or(Mm::ZERO);
        let (cut_depth, cloth) = (self.cut_depth(depth), self.cloth("strip-join"));
        Some(Pleats {
            style,
            depth: depth?,
            cut_depth: cut_depth?,
            visible: visible?,
            underfold,
            rows,
            row_step,
            cloth,
        })
    }

    /// The underfold as a share of the visible width, from a length, a fullness, or what just meets.
    fn underfold(&mut self, style: PleatStyle, visible: Option<Mm>) -> f64 {
        let (keys, folds, fact) = match style {
            PleatStyle::Knife => (self.keys, 1.0, "knife-underfold"),
            PleatStyle::Box => (self.keys, 2.0, "box-underfold"),
        };
        self.check.only_one(
            &[("underfold", place(&keys.underfold)), ("fullness", place(&keys.fullness))],
            "fullness follows from the underfold: (visible + 2 x underfold) / visible for knife pleats",
        );
        if let Some(under) = self.check.above_zero("underfold", keys.underfold.as_ref()) {
            return visible.map_or(usual(fact), |visible| under / visible);
        }
        if keys.fullness.is_some() {
            let fullness = self.number("fullness", keys.fullness.as_ref(), 3.0);
            return (fullness - 1.0) / (2.0 * folds);
        }
        self.assume("underfold", "pleats just meet, strip three times the finished length".to_owned(), "underfold");
        usual(fact)
    }

    fn binding(&mut self, depth: Option<Mm>) -> Option<Binding> {
        let ready_made = self.check.take(self.keys.ready_made.as_ref()).unwrap_or(false);
        let folds = self.number("folds", self.keys.folds.as_ref(), usual("binding-folds"));
        let cloth = (!ready_made).then(|| self.cloth("strip-join"));
        Some(Binding { folds, overlap: self.overlap(), cloth, finished: depth? })
    }

    fn facing_cut(&mut self) -> FacingCut {
        let choices = [("straight", FacingCut::Straight), ("bias", FacingCut::Bias), ("shaped", FacingCut::Shaped)];
        if self.keys.cut.is_none() {
            self.assume("cut", "straight strips".to_owned(), "cut");
        }
        self.check.one_of(self.keys.cut.as_ref(), &choices).unwrap_or(FacingCut::Straight)
    }

    fn overlap(&mut self) -> Mm {
        self.length("overlap", self.keys.overlap.as_ref(), "trim-overlap")
    }

    /// The cut depth of a strip; without it the finished depth and two usual allowances.
    fn cut_depth(&mut self, depth: Option<Mm>) -> Option<Mm> {
        if self.keys.cut_depth.is_some() {
            return self.check.above_zero("cut_depth", self.keys.cut_depth.as_ref());
        }
        let taken = depth? + mm(2.0 * usual("strip-edge"));
        self.assume(
            "cut depth of strips",
            format!("{taken}, {} allowance on each edge", mm(usual("strip-edge"))),
            "cut_depth",
        );
        Some(taken)
    }

    fn cloth(&mut self, join: &str) -> StripCloth {
        if self.keys.cloth_width.is_none() {
            let taken = mm(usual("cloth-usable"));
            self.assume("width of its cloth between selvedges", taken.to_string(), "cloth_width");
        }
        let usable = self.check.above_zero("cloth_width", self.keys.cloth_width.as_ref());
        StripCloth {
            usable: usable.unwrap_or(mm(usual("cloth-usable"))),
            join: self.length("join", self.keys.join.as_ref(), join),
        }
    }

    /// A length not below zero, or the usual one, said.
    fn length(&mut self, key: &'static str, given: Option<&Given<Mm>>, fact: &str) -> Mm {
        let taken = mm(usual(fact));
        if given.is_none() {
            self.assume(key, taken.to_string(), key);
        }
        self.check.not_below_zero(key, given).unwrap_or(taken)
    }

    /// A number not below zero, or the usual one, said.
    fn number(&mut self, key: &'static str, given: Option<&Given<f64>>, taken: f64) -> f64 {
        if given.is_none() {
            self.assume(&key.replace('_', " "), taken.to_string(), key);
        }
        not_negative(self.check, key, given).unwrap_or(taken)
    }

    fn assume(&mut self, about: &str, taken: String, key: &str) {
        let about = format!("{about} of the {}", self.word);
        self.check.assume(&about, taken, format!("trim {}: {key}", self.number));
    }
}

#[cfg(test)]
mod tests;
