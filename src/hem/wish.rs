//! What is asked of a hem: measurements as a maker takes them, its ends, its seams.

use super::Drawn;
use crate::quantity::Mm;

/// What a maker measures, by shape of garment. Each variant states what its numbers mean.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum Measurements {
    /// A fraction of a circle: hem = waist + 2 pi x fraction x length.
    Circle {
        /// Part of a full circle, above 0; 1 is a full circle, 0.5 a half. More than 1 for several circles joined.
        fraction: f64,
        /// Finished waist (or neck) line.
        waist: Mm,
        /// From waist to hem.
        length: Mm,
    },
    /// Longer at the back, over a round waist: r(t) = r + a0 + a1 cos t + a2 cos 2t round the middle of the waist, through
    /// the three lengths.
    Oval {
        /// Finished waist line.
        waist: Mm,
        /// From waist to hem at centre front.
        front: Mm,
        /// From waist to hem at the side seam.
        side: Mm,
        /// From waist to hem at centre back.
        back: Mm,
        /// Hem length by tape, where measured. The tape wins over the draft.
        tape: Option<Mm>,
    },
    /// A train: level or rising evenly from front to side, swept from there to the back, over a round waist.
    Train {
        /// Finished waist line.
        waist: Mm,
        /// From waist to hem at centre front.
        front: Mm,
        /// From waist to hem at the side seam.
        side: Mm,
        /// From waist to the end of the train at centre back.
        back: Mm,
    },
    /// A flat cloth without a waist, round or oval: a table cloth, a round shawl. CF is where its depth meets the edge.
    Cloth {
        /// Its whole extent from side to side.
        width: Mm,
        /// Its whole extent from front to back.
        depth: Mm,
    },
    /// An ellipse known by its half axes at the hem.
    Ellipse {
        /// Half the hem's extent from front to back.
        front_back: Mm,
        /// Half the hem's extent from side to side.
        side_side: Mm,
    },
    /// Equal panels with straight sides.
    Gores {
        /// How many.
        panels: u32,
        /// Finished width of one panel at the top.
        top: Mm,
        /// Finished width of one panel at the hem.
        hem: Mm,
        /// Finished length of the side seam.
        side: Mm,
        /// What lies on the middle of the hem (CF).
        on_middle: PanelPart,
        /// How far motifs keep from every panel seam; `None` where they may cross.
        keep_clear: Option<Mm>,
    },
    /// A straight-sided cloth with four square corners: a shawl, a table cloth. CF is the middle of one side.
    Rectangle {
        /// Length of the side with CF on it, and of the one opposite.
        width: Mm,
        /// Length of the two other sides.
        depth: Mm,
    },
    /// A cloth of equal sides and equal corners. CF is the middle of one side.
    Polygon {
        /// How many sides, at least three.
        sides: u32,
        /// Length of each.
        side: Mm,
    },
    /// Hem length by tape with how much it flares.
    Measured {
        /// Finished hem length.
        hem: Mm,
        /// How the lines above the hem shorten.
        flare: Flare,
    },
    /// A straight band: every line is as long as the hem.
    Straight {
        /// Finished length.
        length: Mm,
    },
    /// Pattern pieces drawn full size.
    Drawn(Drawn),
    /// Another hem with godets let in.
    Godets {
        /// The hem without them.
        hem: Box<Measurements>,
        /// The godets.
        godets: Vec<Godet>,
    },
}

/// Godets of one size: wedges with a round edge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Godet {
    /// Where they are let in; places on the hem without godets.
    pub at: GodetPlace,
    /// Finished width along the hem.
    pub width: Mm,
    /// Finished length of their seams.
    pub height: Mm,
    /// How far motifs keep from their seams.
    pub keep_clear: Mm,
}

/// Where godets are let in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum GodetPlace {
    /// At one place: a seam, or a slash in a panel.
    Mark(Mark),
    /// Into every seam between panels.
    PanelSeams,
}

/// A part of a panel.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum PanelPart {
    /// The middle of a panel.
    #[default]
    Middle,
    /// A seam between two panels.
    Seam,
}

/// How much a measured hem flares.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Flare {
    /// A second line measured higher up: sweep = (hem - upper) / height.
    UpperLine {
        /// Length of the upper line.
        length: Mm,
        /// Its height above the hem.
        height: Mm,
    },
    /// Sweep in radians; a full circle has 2 pi.
    Sweep(f64),
    /// Not known: taken as a full circle, the flare at which motifs come closest, and said so.
    Unknown,
}

/// What is asked of the hem beside its measurements.
#[derive(Clone, Debug, PartialEq)]
pub struct HemWish {
    /// The measurements.
    pub measurements: Measurements,
    /// Closed ring, or a band with two ends.
    pub ends: Ends,
    /// Seams that motifs should keep clear of.
    pub seams: Vec<Seam>,
    /// Lengths of its parts as measured again after hanging; empty where it was not. Four on a ring are the quarters from CF to
    /// the wearer's left side, CB, her right side and CF; any other number are equal parts.
    pub hung: Vec<Mm>,
}

impl HemWish {
    /// A closed ring without seams, not measured again.
    #[must_use]
    pub const fn ring(measurements: Measurements) -> Self {
        Self { measurements, ends: Ends::Closed, seams: Vec::new(), hung: Vec::new() }
    }

    /// The drawn pieces it is made of, if it is.
    #[must_use]
    pub fn drawn(&self) -> Option<&Drawn> {
        let mut measurements = &self.measurements;
        while let Measurements::Godets { hem, .. } = measurements {
            measurements = hem;
        }
        match measurements {
            Measurements::Drawn(drawn) => Some(drawn),
            _ => None,
        }
    }
}

/// Whether the hem closes on itself.
#[derive(Clone, Debug, PartialEq)]
pub enum Ends {
    /// A ring without an opening.
    Closed,
    /// A ring with an opening whose two edges meet or overlap when worn: the visible length is set out, `underlap`
    /// beyond it stays bare.
    Opening {
        /// Where the closing edge lies.
        at: Mark,
        /// How far one edge reaches under the other.
        underlap: Mm,
        /// How far motifs keep from the closing edge.
        keep_clear: Mm,
    },
    /// Two ends that do not meet: a cape, a stole, a sleeve cut open.
    Open {
        /// How far motifs keep from each end.
        keep_clear: Mm,
        /// What the middle of the band is called.
        middle: Middle,
    },
}

/// What lies at the middle of a band, where s is zero.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Middle {
    /// Centre front: s grows toward the wearer's left.
    #[default]
    CentreFront,
    /// Centre back, as on a cape open in front: s grows toward the wearer's right, which lies to the right of a viewer who
    /// looks at her back.
    CentreBack,
}

/// A named place on the hem.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Mark {
    /// Centre front.
    CentreFront,
    /// Centre back.
    CentreBack,
    /// The quarter to the wearer's left.
    SideLeft,
    /// The quarter to the wearer's right.
    SideRight,
    /// Any distance along the hem from CF, positive to the wearer's left (from the middle of an open band).
    At(Mm),
}

/// A seam that crosses the band.
#[derive(Clone, Debug, PartialEq)]
pub struct Seam {
    /// `left side seam`, `panel seam 2`.
    pub name: String,
    /// Where it meets the hem.
    pub at: Mark,
    /// How far motifs keep from it.
    pub keep_clear: Mm,
}
