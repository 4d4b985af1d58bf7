//! The keys of `[[band]]`.

use schemars::JsonSchema;
use serde::Deserialize;

use crate::job::given::{Given, OneOrMore, Times};
use crate::quantity::Mm;

/// `[[band]]` as written.
#[derive(Clone, Debug, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, expecting = "a table [[band]]")]
pub(crate) struct BandKeys {
    /// What it is called on the papers.
    pub(in crate::job) name: Option<Given<String>>,
    /// Height of the motifs' middles above the hem.
    pub(in crate::job) height: Option<Given<Mm>>,
    /// Or the height of the lower edge of the tallest motif.
    pub(in crate::job) lower_edge: Option<Given<Mm>>,
    /// Or which window between two trims, counted from the hem up, in whose middle the motifs sit.
    pub(in crate::job) window: Option<Given<u32>>,
    /// Motifs in the order they repeat along the line.
    pub(in crate::job) motifs: Option<OneOrMore>,
    /// As many as leave at least this gap along the motif line.
    pub(in crate::job) gap: Option<Given<Mm>>,
    /// Or exactly so many; with a gap as well, motifs are made smaller where so many would not fit.
    pub(in crate::job) count: Option<Given<u32>>,
    /// Or so many for those of another band: the name of that band.
    pub(in crate::job) tied_to: Option<Given<String>>,
    /// How many for one of the other: "same", "twice", "half", "third", "quarter", "3/2".
    pub(in crate::job) times: Option<Given<Times>>,
    /// What lies on centre front: "motif", "gap" or "best".
    pub(in crate::job) cf: Option<Given<String>>,
    /// Which way up: "square to hem", "bent" to follow the line, or "upright".
    pub(in crate::job) stance: Option<Given<String>>,
    /// Which hands: "as drawn", "mirrored right" or "alternating".
    pub(in crate::job) hands: Option<Given<String>>,
    /// How several motifs take turns: "repeating" or "mirrored" (the same both ways from the middle).
    pub(in crate::job) order: Option<Given<String>>,
    /// Factors on the motifs' sizes from the middle outward, the last for all the rest.
    pub(in crate::job) sizes: Option<Vec<Given<f64>>>,
    /// What is kept equal between neighbours: "gap", "clear gap" or "between seams".
    pub(in crate::job) even: Option<Given<String>>,
    /// How many rows, one above the other with the same count.
    pub(in crate::job) rows: Option<Given<u32>>,
    /// From each row's line to the next.
    pub(in crate::job) rise: Option<Given<Mm>>,
    /// How each row stands against the one below: "none" or "half" a repeat along.
    pub(in crate::job) offset: Option<Given<String>>,
    /// Every motif of an even row round a ring so far to the wearer's left; negative to her right.
    pub(in crate::job) shift: Option<Given<Mm>>,
    /// Every second motif so much higher.
    pub(in crate::job) wave: Option<Given<Mm>>,
    /// Motif that stands in every corner of a square or other straight-sided cloth.
    pub(in crate::job) corner: Option<Given<String>>,
    /// How much of the line it takes up on each side of the corner.
    pub(in crate::job) corner_takes: Option<Given<Mm>>,
}
