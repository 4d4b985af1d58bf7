//! How a layer is cut and fixed, and what follows from that.

use super::CutFrom;

/// How a layer is cut and fixed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Method {
    /// Heat-transfer film, cut from the adhesive side on its carrier.
    Film,
    /// Fabric with fusible web, traced reversed on the paper of the web; raw edge.
    FusedTraced,
    /// Fabric already backed with fusible web, cut right side up; raw edge.
    FusedBacked,
    /// Turned-edge fabric, template laid on the right side; turn-under outside the finished line.
    TurnedTemplateOnRight,
    /// Turned-edge fabric over a stiff template on the wrong side.
    TurnedTemplateOnWrong,
}

/// What holds the outlines of one layer together until they are on the garment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Travels {
    /// A carrier: all outlines of one colour in one motif stay in place on it and travel as one piece.
    OnCarrier,
    /// Nothing: each outline is cut, carried and placed by itself.
    Singly,
}

impl Method {
    /// Table of docs/sources.md "mirror or not": decided by the side that is drawn or cut.
    #[must_use]
    pub const fn cut_from(self) -> CutFrom {
        match self {
            Self::Film | Self::FusedTraced | Self::TurnedTemplateOnWrong => CutFrom::Back,
            Self::FusedBacked | Self::TurnedTemplateOnRight => CutFrom::RightSide,
        }
    }

    /// Film keeps its outlines on the carrier; fabric pieces are cut singly.
    #[must_use]
    pub const fn travels(self) -> Travels {
        match self {
            Self::Film => Travels::OnCarrier,
            Self::FusedTraced | Self::FusedBacked | Self::TurnedTemplateOnRight | Self::TurnedTemplateOnWrong => {
                Travels::Singly
            }
        }
    }
}
