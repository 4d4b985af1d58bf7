//! What each heat rule says, and the mildest outcome it allows.

use serde::Deserialize;

use super::basis::{Confidence, has_source};
use super::{TableFault, Trait};

/// The mildest outcome a rule allows; the press stage turns it into its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum RuleOutcome {
    /// May be pressed.
    Go,
    /// Only under a press cloth and after a test.
    ClothAndTest,
    /// Fold away first, or sew on later.
    MoveFirst,
    /// Not with this film and these layers.
    Stop,
}

/// A situation that is not a trait of one material.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Condition {
    /// The garment's cloth stands less than the plate's heat.
    OverLimitCloth,
    /// The same, but a test at that heat held.
    OverLimitTested,
    /// The same, but the film is made for that cloth.
    OverLimitRated,
    /// The garment's cloth is not stated and the plate is hotter than 110 C.
    OverLimitUnknownCloth,
    /// Something that can be moved stands less than the plate's heat.
    OverLimitMovable,
    /// Thread of a seam stands less than the plate's heat: it can be neither folded away nor sewn on later.
    OverLimitThread,
    /// Something movable that is never pressed.
    NotPressed,
    /// A garment cloth that is never pressed.
    NotPressedCloth,
    /// Sewn on, folded away.
    FoldedAway,
    /// Folded down below the hem where the plate hangs over it.
    FoldedUnderOverhang,
    /// Sewn on after pressing.
    SewnOnLater,
    /// A film already laid meets a plate above its window.
    FilmOverWindow,
    /// A film already laid must not be pressed again.
    FilmNotAgain,
    /// Film laid on a class that takes none.
    FilmTopOnly,
    /// More layers than the class takes.
    FilmTooMany,
    /// Motifs reached by the plate more than twice after they were pressed.
    PressedOften,
    /// The job's setting lies outside the class's window.
    OutsideWindow,
    /// The plate is cooler than a film's window: it will not bond.
    TooCool,
    /// A film is pressed within its own window, since the job's temperature lies outside it.
    OwnWindow,
    /// The test piece was marked at this setting or a gentler one.
    TestMarked,
    /// Film lifted from the test piece at this setting or a stronger one.
    TestLifted,
    /// The test piece held, but at a gentler setting than the plan's.
    TestGentler,
    /// Something to be sewn on later would be shut in by cloth that is already there.
    OrderShutIn,
    /// Something to be put on later needs heat that the film pressed before it does not take again.
    OrderHeatLater,
    /// Said to be folded away, but it cannot be.
    OrderCannotFold,
}

/// When a rule speaks.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub enum When {
    /// A layer in place has this trait.
    Trait(Trait),
    /// This situation.
    Condition(Condition),
}

/// One rule.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Rule {
    /// Key, as in docs/heat-rules.md.
    pub key: String,
    /// When it speaks.
    pub when: When,
    /// The mildest outcome it allows.
    pub least: RuleOutcome,
    /// What goes wrong, with `{material}`, `{other}`, `{limit}`, `{press}` and `{wrong}` to fill in.
    pub say: String,
    /// What to do, with the same places to fill in.
    pub advice: String,
    /// Numbers in docs/sources.md.
    pub source: Vec<u16>,
    /// How sure.
    pub confidence: Confidence,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Rows {
    rule: Vec<Rule>,
}

pub(super) fn read(text: &str) -> Result<Vec<Rule>, TableFault> {
    let rows: Rows = toml::from_str(text).map_err(|e| TableFault::NotATable { table: "rule", why: e.to_string() })?;
    for rule in &rows.rule {
        has_source(&rule.key, "rule", &rule.source)?;
    }
    Ok(rows.rule)
}
