//! `[[band]]`: a line of motifs at a height, how close they are, what lies on centre front.

mod keys;
mod rhythm;
mod tied;

use super::check::{Check, Table};
use super::fault::FaultKind;
use super::given::{Given, Section};
use crate::place::{Anchor, BandWish, Hands, KeepOut, Level, Spacing, Stance};
use crate::quantity::{Mm, mm};
use crate::trims::{self, Side, TrimWish, Window};
pub(crate) use keys::BandKeys;

/// Lower edge of the motifs above the hem unless told otherwise: clear of a narrow hem's stitching; common practice, no
/// source.
const LOWER_EDGE: Mm = mm(20.0);

/// What bands share the garment with.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Around<'a> {
    /// Trims, which leave windows.
    pub(crate) trims: &'a [TrimWish],
    /// Whether trims with faults were left out of them.
    pub(crate) trims_left_out: bool,
    /// Places that no motif may reach into.
    pub(crate) keep_out: &'a [KeepOut],
    /// Whether the hem is of a shape that has no corners, whatever its measurements.
    pub(crate) without_corners: bool,
}

/// The bands as checked; those with faults are left out.
pub(crate) fn check(
    check: &mut Check,
    bands: &[Section<BandKeys>],
    motifs: &[String],
    around: Around<'_>,
) -> Vec<BandWish> {
    if bands.is_empty() {
        check.whole(FaultKind::Missing {
            key: "[[band]]",
            table: "the job".to_owned(),
            example: "[[band]] and under it  gap = \"40 mm\"",
        });
    }
    let mut wishes: Vec<BandWish> =
        (1..).zip(bands).filter_map(|(number, band)| check_band(check, number, band, (motifs, around))).collect();
    let names = names(bands);
    tied::check(check, bands, &names);
    tied::take_gaps(check, bands, &names, &mut wishes);
    for (index, (name, band)) in names.iter().zip(bands).enumerate() {
        let Some(name) = name.as_ref().filter(|name| names[..index].contains(&Some((*name).clone()))) else { continue };
        let at = band.keys.name.as_ref().map_or(&band.at, |given| &given.at);
        check.fault(at, FaultKind::Twice { what: format!("the band name \"{name}\"") });
    }
    wishes
}

/// What each band is called, also where it has faults; `None` where the name itself cannot be read.
pub(super) fn names(bands: &[Section<BandKeys>]) -> Vec<Option<String>> {
    let name = |(number, band): (usize, &Section<BandKeys>)| match &band.keys.name {
        Some(given) => given.value.clone().ok(),
        None => Some(format!("band {}", number + 1)),
    };
    bands.iter().enumerate().map(name).collect()
}

fn check_band(
    check: &mut Check,
    number: u32,
    band: &Section<BandKeys>,
    (motifs, around): (&[String], Around<'_>),
) -> Option<BandWish> {
    let (keys, key) = (&band.keys, format!("band {number}"));
    let name = match &keys.name {
        Some(given) => check.take(Some(given)),
        None => Some(key.clone()),
    };
    let heights = height(check, keys, &key, around);
    let rhythm = rhythm::check(check, keys, &key, (motifs, around.without_corners));
    let motifs = band_motifs(check, band, &key, motifs);
    let spacing = spacing(check, band);
    let on_cf = or_assume(
        check,
        keys.cf.as_ref(),
        &[("motif", Anchor::Motif), ("gap", Anchor::Gap), ("best", Anchor::Best)],
        ("what lies on centre front", "motif or gap, whichever clashes least", "cf"),
        &key,
        Anchor::Best,
    );
    let stance = or_assume(
        check,
        keys.stance.as_ref(),
        &[("square to hem", Stance::SquareToHem), ("bent", Stance::Bent), ("upright", Stance::Upright)],
        ("which way up motifs stand", "square to the hem", "stance"),
        &key,
        Stance::SquareToHem,
    );
    let hands = or_assume(
        check,
        keys.hands.as_ref(),
        &[("as drawn", Hands::AsDrawn), ("mirrored right", Hands::MirroredRight), ("alternating", Hands::Alternating)],
        ("hands of the motifs", "all as drawn", "hands"),
        &key,
        Hands::AsDrawn,
    );
    let (height, level) = heights?;
    Some(BandWish {
        name: name?,
        height,
        level,
        motifs: motifs?,
        spacing: spacing?,
        on_cf: on_cf?,
        stance: stance?,
        hands: hands?,
        rhythm: rhythm?,
        keep_out: around.keep_out.to_vec(),
        covered: covered(around.trims),
    })
}

/// What trims of the right side cover.
fn covered(trims: &[TrimWish]) -> Vec<(Mm, Mm)> {
    trims.iter().filter(|trim| trim.side == Side::Right).map(TrimWish::heights).collect()
}

fn height(check: &mut Check, keys: &BandKeys, key: &str, around: Around<'_>) -> Option<(Mm, Level)> {
    check.only_one(
        &[
            ("height", keys.height.as_ref().map(|g| &g.at)),
            ("lower_edge", keys.lower_edge.as_ref().map(|g| &g.at)),
            ("window", keys.window.as_ref().map(|g| &g.at)),
        ],
        "height is to the motifs' middles, lower_edge to the lowest point, window the middle between two trims: one of them \
         fixes the line",
    );
    let middle = keys.height.as_ref().map(|given| check.not_below_zero("height", Some(given)));
    let lower_edge = keys.lower_edge.as_ref().map(|given| check.not_below_zero("lower_edge", Some(given)));
    if let Some(given) = &keys.window {
        return in_window(check, given, key, around).map(|height| (height, Level::Middle));
    }
    if let Some(height) = middle {
        return height.map(|height| (height, Level::Middle));
    }
    if let Some(height) = lower_edge {
        return height.map(|height| (height, Level::LowerEdge));
    }
    let taken = format!("lower edge of the tallest {LOWER_EDGE} above the hem");
    check.assume("height of the motif line", taken, format!("{key}: height or lower_edge"));
    Some((LOWER_EDGE, Level::LowerEdge))
}

/// The middle of a window between two trims of the right side, counted from the hem up.
fn in_window(check: &mut Check, given: &Given<u32>, key: &str, around: Around<'_>) -> Option<Mm> {
    let number = check.take(Some(given))?;
    // Between two trims: what lies between the hem and the lowest trim is no window, only the room below it.
    let between = |window: Window| window.above.is_some().then_some((window.to?, window));
    let bounded: Vec<(Mm, Window)> = trims::windows(around.trims).into_iter().filter_map(between).collect();
    let Some((to, window)) = (number as usize).checked_sub(1).and_then(|index| bounded.get(index)) else {
        // The window that is meant may be one beside a trim with a fault, which is told there.
        if !around.trims_left_out {
            check.fault(&given.at, FaultKind::NoWindow { number, found: bounded.len() });
        }
        return None;
    };
    let middle = (window.from + *to) / 2.0;
    let named = |name: &Option<String>| name.clone().unwrap_or_else(|| "the hem".to_owned());
    let taken = format!(
        "{middle}, the middle of the window from {} to {to} between {} and {}",
        window.from,
        named(&window.above),
        named(&window.below)
    );
    check.assume("height of the motif line", taken, format!("{key}: window"));
    Some(middle)
}

fn band_motifs(check: &mut Check, band: &Section<BandKeys>, key: &str, known: &[String]) -> Option<Vec<String>> {
    let Some(given) = &band.keys.motifs else {
        // The motif of the corners is not one of the run.
        let corner = band.keys.corner.as_ref().and_then(|given| given.value.as_ref().ok());
        let run: Vec<String> = known.iter().filter(|name| Some(*name) != corner).cloned().collect();
        let run = if run.is_empty() { known.to_vec() } else { run };
        if run.len() > 1 {
            check.assume("motifs of the band", run.join(", then "), format!("{key}: motifs"));
        }
        return Some(run);
    };
    if given.is_empty() {
        let table = Table { name: "[[band]]", at: &band.at };
        check.missing(table, "motif in its list", "motifs = [\"poppy\", \"leaf\"]");
        return None;
    }
    let mut names = Vec::new();
    for motif in given.iter() {
        let Some(name) = check.take(Some(motif)) else { continue };
        if known.contains(&name) {
            names.push(name);
        } else {
            check.fault(&motif.at, FaultKind::NoSuch { what: "motif", name, known: known.to_vec() });
        }
    }
    (names.len() == given.len()).then_some(names)
}

fn spacing(check: &mut Check, band: &Section<BandKeys>) -> Option<Spacing> {
    let keys = &band.keys;
    let gap = keys.gap.as_ref().map(|given| check.not_below_zero("gap", Some(given)));
    let count = keys.count.as_ref().map(|given| {
        let count = check.take(Some(given))?;
        if count == 0 {
            check.fault(&given.at, FaultKind::NotAboveZero { key: "count", found: count.to_string() });
        }
        (count > 0).then_some(count)
    });
    if keys.tied_to.is_some() {
        check.only_one(
            &[
                ("count", keys.count.as_ref().map(|given| &given.at)),
                ("tied_to", keys.tied_to.as_ref().map(|given| &given.at)),
            ],
            "the count of a tied band follows from that of the other",
        );
        let gap = gap.unwrap_or(Some(Mm::ZERO));
        return gap.filter(|_| keys.count.is_none()).map(Spacing::AtLeast);
    }
    match (gap, count) {
        (None, None) => {
            check.missing(Table { name: "[[band]]", at: &band.at }, "gap or count", "gap = \"40 mm\"");
            None
        }
        (Some(gap), None) => gap.map(Spacing::AtLeast),
        (None, Some(count)) => count.map(Spacing::Count),
        (Some(gap), Some(count)) => Some(Spacing::Fit { count: count?, gap: gap? }),
    }
}

/// The meaning of a word, or the usual one with the assumption that says so.
fn or_assume<T: Copy>(
    check: &mut Check,
    given: Option<&Given<String>>,
    choices: &[(&str, T)],
    (about, taken, field): (&str, &str, &str),
    band: &str,
    usual: T,
) -> Option<T> {
    if given.is_some() {
        return check.one_of(given, choices);
    }
    check.assume(about, taken, format!("{band}: {field}"));
    Some(usual)
}
