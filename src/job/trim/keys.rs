//! The keys of `[[trim]]`.

use schemars::JsonSchema;
use serde::Deserialize;

use crate::job::given::Given;
use crate::quantity::Mm;

/// `[[trim]]` as written.
#[derive(Clone, Debug, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, expecting = "a table [[trim]]")]
pub(crate) struct TrimKeys {
    /// "braid", "facing", "lace", "knife pleats", "box pleats", "ruffle", "binding" or "piping".
    pub(super) kind: Option<Given<String>>,
    /// What it is called on the papers.
    pub(super) name: Option<Given<String>>,
    /// Finished depth: width of braid, lace or binding, thickness of a piping's cord.
    pub(super) depth: Option<Given<Mm>>,
    /// Height of its lower edge above the hem; without it the hem itself.
    pub(super) height: Option<Given<Mm>>,
    /// "right" where it is seen, "wrong" behind the cloth.
    pub(super) side: Option<Given<String>>,
    /// Price of a metre of what is bought.
    pub(super) price: Option<Given<f64>>,
    /// Grams a metre of what is bought ready made, grams a square metre of cloth.
    pub(super) weight: Option<Given<f64>>,
    /// Key in the table of materials; makes the trim a zone of the press.
    pub(super) material: Option<Given<String>>,
    /// "in place", "folded away" or "sewn on later", for the press.
    pub(super) state: Option<Given<String>>,
    /// Extra length of braid in hundredths: 2 for 2 %.
    pub(super) ease_percent: Option<Given<f64>>,
    /// Whether braid has a thread that draws its edge up.
    pub(super) draw_thread: Option<Given<bool>>,
    /// Where the ends meet.
    pub(super) overlap: Option<Given<Mm>>,
    /// Allowance on each edge of a facing, or of a piping's cover.
    pub(super) allowance: Option<Given<Mm>>,
    /// "straight", "bias" or "shaped", for a facing.
    pub(super) cut: Option<Given<String>>,
    /// Width of a pleat that is seen.
    pub(super) visible: Option<Given<Mm>>,
    /// How far a pleat reaches under.
    pub(super) underfold: Option<Given<Mm>>,
    /// Length of strip or lace for a length of line: 3 for pleats that just meet.
    pub(super) fullness: Option<Given<f64>>,
    /// Rows of pleats.
    pub(super) rows: Option<Given<u32>>,
    /// Height of each row above the one below.
    pub(super) row_step: Option<Given<Mm>>,
    /// Cut depth of a strip, allowances included.
    pub(super) cut_depth: Option<Given<Mm>>,
    /// Width of the cloth between selvedges.
    pub(super) cloth_width: Option<Given<Mm>>,
    /// Allowance of a strip at a join.
    pub(super) join: Option<Given<Mm>>,
    /// Cut width of binding as a multiple of its finished width.
    pub(super) folds: Option<Given<f64>>,
    /// Binding bought ready made.
    pub(super) ready_made: Option<Given<bool>>,
}
