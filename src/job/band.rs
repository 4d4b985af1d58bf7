//! `[[band]]`: a line of motifs at a height, how close they are, what lies on centre front.

use schemars::JsonSchema;
use serde::Deserialize;

use super::check::{Check, Table};
use super::fault::FaultKind;
use super::given::{Given, OneOrMore, Section, Times};
use super::rhythm;
use crate::place::{Anchor, BandWish, Hands, KeepOut, Level, Spacing, Stance};
use crate::quantity::{Mm, mm};
use crate::trims::{self, TrimWish, Window};

/// Lower edge of the motifs above the hem unless told otherwise: clear of a narrow hem's stitching; common practice, no
/// source.
const LOWER_EDGE: Mm = mm(20.0);

/// `[[band]]` as written.
#[derive(Clone, Debug, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, expecting = "a table [[band]]")]
pub(crate) struct BandKeys {
    /// What it is called on the papers.
    pub(super) name: Option<Given<String>>,
    /// Height of the motifs' middles above the hem.
    pub(super) height: Option<Given<Mm>>,
    /// Or the height of the lower edge of the tallest motif.
    pub(super) lower_edge: Option<Given<Mm>>,
    /// Or which window between two trims, counted from the hem up, in whose middle the motifs sit.
    pub(super) window: Option<Given<u32>>,
    /// Motifs in the order they repeat along the line.
    pub(super) motifs: Option<OneOrMore>,
    /// As many as leave at least this gap along the motif line.
    pub(super) gap: Option<Given<Mm>>,
    /// Or exactly so many; with a gap as well, motifs are made smaller where so many would not fit.
    pub(super) count: Option<Given<u32>>,
    /// Or so many for those of another band: the name of that band.
    pub(super) tied_to: Option<Given<String>>,
    /// How many for one of the other: "same", "twice", "half", "3/2".
    pub(super) times: Option<Given<Times>>,
    /// What lies on centre front: "motif", "gap" or "best".
    pub(super) cf: Option<Given<String>>,
    /// Which way up: "square to hem", "bent" to follow the line, or "upright".
    pub(super) stance: Option<Given<String>>,
    /// Which hands: "as drawn", "mirrored right" or "alternating".
    pub(super) hands: Option<Given<String>>,
    /// How several motifs take turns: "repeating" or "mirrored" (the same both ways from the middle).
    pub(super) order: Option<Given<String>>,
    /// Factors on the motifs' sizes from the middle outward, the last for all the rest.
    pub(super) sizes: Option<Vec<Given<f64>>>,
    /// What is kept equal between neighbours: "gap", "clear gap" or "between seams".
    pub(super) even: Option<Given<String>>,
    /// How many rows, one above the other with the same count.
    pub(super) rows: Option<Given<u32>>,
    /// From each row's line to the next.
    pub(super) rise: Option<Given<Mm>>,
    /// How each row stands against the one below: "none" or "half" a repeat along.
    pub(super) offset: Option<Given<String>>,
    /// Every motif of an even row round a ring so far to the wearer's left; negative to her right.
    pub(super) shift: Option<Given<Mm>>,
    /// Every second motif so much higher.
    pub(super) wave: Option<Given<Mm>>,
    /// Motif that stands in every corner of a square or other straight-sided cloth.
    pub(super) corner: Option<Given<String>>,
    /// How much of the line it takes up on each side of the corner.
    pub(super) corner_takes: Option<Given<Mm>>,
}

/// What bands share the garment with.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Around<'a> {
    /// Trims, which leave windows.
    pub(crate) trims: &'a [TrimWish],
    /// Places that no motif may reach into.
    pub(crate) keep_out: &'a [KeepOut],
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
    let wishes: Vec<BandWish> =
        (1..).zip(bands).filter_map(|(number, band)| check_band(check, number, band, (motifs, around))).collect();
    let wishes = tied(check, bands, wishes);
    for (index, wish) in wishes.iter().enumerate() {
        if wishes[..index].iter().any(|earlier| earlier.name == wish.name) {
            let kind = FaultKind::Twice { what: format!("the band name \"{}\"", wish.name) };
            let own = |given: &&Given<String>| given.value.as_ref() == Ok(&wish.name);
            match bands.iter().rev().filter_map(|band| band.keys.name.as_ref()).find(own) {
                Some(given) => check.fault(&given.at, kind),
                None => check.whole(kind),
            }
        }
    }
    wishes
}

fn check_band(
    check: &mut Check,
    number: u32,
    band: &Section<BandKeys>,
    (motifs, Around { trims, keep_out }): (&[String], Around<'_>),
) -> Option<BandWish> {
    let (keys, key) = (&band.keys, format!("band {number}"));
    let name = match &keys.name {
        Some(given) => check.take(Some(given)),
        None => Some(key.clone()),
    };
    let heights = height(check, keys, &key, trims);
    let rhythm = rhythm::check(check, keys, &key, motifs);
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
        keep_out: keep_out.to_vec(),
    })
}

fn height(check: &mut Check, keys: &BandKeys, key: &str, trims: &[TrimWish]) -> Option<(Mm, Level)> {
    check.only_one(
        &[
            ("height", keys.height.as_ref().map(|g| &g.at)),
            ("lower_edge", keys.lower_edge.as_ref().map(|g| &g.at)),
            ("window", keys.window.as_ref().map(|g| &g.at)),
        ],
        "height is to the motifs' middles, lower_edge to the lowest point, window the middle between two trims: one of them \
         fixes the line",
    );
    if let Some(given) = &keys.window {
        return in_window(check, given, key, trims).map(|height| (height, Level::Middle));
    }
    if let Some(given) = &keys.height {
        return Some((check.not_below_zero("height", Some(given))?, Level::Middle));
    }
    if let Some(given) = &keys.lower_edge {
        return Some((check.not_below_zero("lower_edge", Some(given))?, Level::LowerEdge));
    }
    let taken = format!("lower edge of the tallest {LOWER_EDGE} above the hem");
    check.assume("height of the motif line", taken, format!("{key}: height or lower_edge"));
    Some((LOWER_EDGE, Level::LowerEdge))
}

/// The middle of a window between two trims of the right side, counted from the hem up.
fn in_window(check: &mut Check, given: &Given<u32>, key: &str, trims: &[TrimWish]) -> Option<Mm> {
    let number = check.take(Some(given))?;
    // Between two trims: what lies between the hem and the lowest trim is no window, only the room below it.
    let between = |window: Window| window.above.is_some().then_some((window.to?, window));
    let bounded: Vec<(Mm, Window)> = trims::windows(trims).into_iter().filter_map(between).collect();
    let Some((to, window)) = (number as usize).checked_sub(1).and_then(|index| bounded.get(index)) else {
        check.fault(&given.at, FaultKind::NoWindow { number, found: bounded.len() });
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

/// Bands tied to others: each must lead to one that is not tied, whose gap it takes where it gives none.
fn tied(check: &mut Check, bands: &[Section<BandKeys>], mut wishes: Vec<BandWish>) -> Vec<BandWish> {
    let known: Vec<(String, bool, Option<Mm>)> =
        wishes.iter().map(|wish| (wish.name.clone(), wish.rhythm.tie.is_some(), wish.spacing.gap())).collect();
    let name = |(number, band): (usize, &Section<BandKeys>)| match &band.keys.name {
        Some(given) => given.value.clone().unwrap_or_default(),
        None => format!("band {}", number + 1),
    };
    // Those with faults of their own are no wishes, and still bands of the job.
    let all: Vec<String> = bands.iter().enumerate().map(name).collect();
    for wish in wishes.iter_mut().filter(|wish| wish.rhythm.tie.is_some()) {
        let keys = all.iter().position(|name| *name == wish.name).map(|index| &bands[index].keys);
        let Some((at, without_gap)) = keys.and_then(|keys| Some((&keys.tied_to.as_ref()?.at, keys.gap.is_none())))
        else {
            continue;
        };
        let Some(to) = wish.rhythm.tie.as_ref().map(|tie| tie.to.clone()) else { continue };
        let others = || known.iter().filter(|(name, ..)| *name != wish.name);
        match others().find(|(name, ..)| *name == to) {
            None if to == wish.name => check.fault(at, FaultKind::TiedInTurn { to }),
            // What is wrong there is told there.
            None if all.contains(&to) => {}
            None => {
                let known = others().map(|(name, ..)| name.clone()).collect();
                check.fault(at, FaultKind::NoSuch { what: "band", name: to, known });
            }
            Some((_, true, _)) => check.fault(at, FaultKind::TiedInTurn { to }),
            Some((.., gap)) if without_gap => {
                let gap = gap.unwrap_or(Mm::ZERO);
                let taken =
                    if gap > Mm::ZERO { format!("{gap}, as of {to}") } else { "none that is asked for".to_owned() };
                check.assume("least gap of a tied band", taken, format!("{}: gap", wish.name));
                wish.spacing = Spacing::AtLeast(gap);
            }
            Some(_) => {}
        }
    }
    wishes
}

fn spacing(check: &mut Check, band: &Section<BandKeys>) -> Option<Spacing> {
    let keys = &band.keys;
    if keys.tied_to.is_some() {
        check.only_one(
            &[
                ("count", keys.count.as_ref().map(|given| &given.at)),
                ("tied_to", keys.tied_to.as_ref().map(|given| &given.at)),
            ],
            "the count of a tied band follows from that of the other",
        );
        let gap = match &keys.gap {
            Some(given) => check.not_below_zero("gap", Some(given))?,
            None => Mm::ZERO,
        };
        return keys.count.is_none().then_some(Spacing::AtLeast(gap));
    }
    if let (Some(given), None) = (&keys.gap, &keys.count) {
        return check.not_below_zero("gap", Some(given)).map(Spacing::AtLeast);
    }
    let Some(given) = &keys.count else {
        check.missing(Table { name: "[[band]]", at: &band.at }, "gap or count", "gap = \"40 mm\"");
        return None;
    };
    let count = check.take(Some(given))?;
    if count == 0 {
        check.fault(&given.at, FaultKind::NotAboveZero { key: "count", found: count.to_string() });
        return None;
    }
    if let Some(given) = &keys.gap {
        return check.not_below_zero("gap", Some(given)).map(|gap| Spacing::Fit { count, gap });
    }
    Some(Spacing::Count(count))
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
