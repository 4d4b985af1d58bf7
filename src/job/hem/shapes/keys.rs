//! The keys of the shapes of hem that are measured, a table each.

use schemars::JsonSchema;
use serde::Deserialize;

use crate::job::given::{Degrees, Given, Part};
use crate::quantity::Mm;

/// Part of a circle: hem = waist + 2 pi x fraction x length.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, expecting = "a table [hem.circle]")]
pub(in crate::job::hem) struct CircleKeys {
    /// "full", "3/4", "half", "third", "quarter", "double", or a number.
    pub(super) fraction: Option<Given<Part>>,
    /// Finished waist or neck line.
    pub(super) waist: Option<Given<Mm>>,
    /// From waist to hem.
    pub(super) length: Option<Given<Mm>>,
}

/// Longer at the back, over an oval or round waist.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, expecting = "a table [hem.oval]")]
pub(in crate::job::hem) struct OvalKeys {
    /// Finished waist line.
    pub(super) waist: Option<Given<Mm>>,
    /// From waist to hem at centre front.
    pub(super) front: Option<Given<Mm>>,
    /// From waist to hem at the side.
    pub(super) side: Option<Given<Mm>>,
    /// From waist to hem at centre back.
    pub(super) back: Option<Given<Mm>>,
    /// Hem length by tape, where measured.
    pub(super) tape: Option<Given<Mm>>,
}

/// Level in front, swept behind.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, expecting = "a table [hem.train]")]
pub(in crate::job::hem) struct TrainKeys {
    /// Finished waist line.
    pub(super) waist: Option<Given<Mm>>,
    /// From waist to hem at centre front.
    pub(super) front: Option<Given<Mm>>,
    /// From waist to hem at the side; as in front unless told otherwise.
    pub(super) side: Option<Given<Mm>>,
    /// From waist to the end of the train.
    pub(super) back: Option<Given<Mm>>,
}

/// A round or oval cloth without a waist.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, expecting = "a table [hem.cloth]")]
pub(in crate::job::hem) struct ClothKeys {
    /// Its whole extent from side to side: the diameter of a round one.
    pub(super) width: Option<Given<Mm>>,
    /// Its whole extent from front to back; as the width unless told otherwise.
    pub(super) depth: Option<Given<Mm>>,
}

/// An ellipse known by its half axes at the hem.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, expecting = "a table [hem.ellipse]")]
pub(in crate::job::hem) struct EllipseKeys {
    /// Half the extent from front to back.
    pub(super) front_back: Option<Given<Mm>>,
    /// Half the extent from side to side.
    pub(super) side_side: Option<Given<Mm>>,
}

/// Equal panels with straight sides.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, expecting = "a table [hem.gores]")]
pub(in crate::job::hem) struct GoresKeys {
    /// How many.
    pub(super) panels: Option<Given<u32>>,
    /// Finished width of one panel at the top.
    pub(super) top: Option<Given<Mm>>,
    /// Finished width of one panel at the hem.
    pub(super) hem: Option<Given<Mm>>,
    /// Finished length of the side seam.
    pub(super) side: Option<Given<Mm>>,
    /// What lies on centre front: "panel" (its middle) or "seam".
    pub(super) cf: Option<Given<String>>,
}

/// A straight-sided cloth with four square corners.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, expecting = "a table [hem.rectangle]")]
pub(in crate::job::hem) struct RectangleKeys {
    /// Length of the side with centre front on it, and of the one opposite.
    pub(super) width: Option<Given<Mm>>,
    /// Length of the two other sides; as long as the width unless told otherwise.
    pub(super) depth: Option<Given<Mm>>,
}

/// A cloth of equal sides and corners.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, expecting = "a table [hem.polygon]")]
pub(in crate::job::hem) struct PolygonKeys {
    /// How many sides.
    pub(super) sides: Option<Given<u32>>,
    /// Length of each.
    pub(super) side: Option<Given<Mm>>,
}

/// Hem length by tape.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, expecting = "a table [hem.measured]")]
pub(in crate::job::hem) struct MeasuredKeys {
    /// Finished hem length.
    pub(super) hem: Option<Given<Mm>>,
    /// Length of a second line measured higher up.
    pub(super) upper: Option<Given<Mm>>,
    /// Its height above the hem.
    pub(super) upper_height: Option<Given<Mm>>,
    /// Or the angle through which the hem turns: "360 deg" for a full circle.
    pub(super) sweep: Option<Given<Degrees>>,
}

/// A straight band: every line is as long as the hem.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, expecting = "a table [hem.straight]")]
pub(in crate::job::hem) struct StraightKeys {
    /// Finished length.
    pub(super) length: Option<Given<Mm>>,
}
