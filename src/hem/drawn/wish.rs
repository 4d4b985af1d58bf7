//! What is asked of a hem that is drawn: which lines of the drawing are its edge and its seams.

use crate::hem::PanelPart;
use crate::quantity::Mm;

/// A hem drawn in a file, its lines named by the ids of elements.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawn {
    /// The drawing's file name.
    pub file: String,
    /// What is drawn.
    pub way: DrawnWay,
    /// How far the drawn lines lie outside the finished ones.
    pub allowances: Allowances,
    /// A line whose length is known, by which the drawing's size is checked.
    pub check: Option<CheckLine>,
}

/// What is drawn of a hem.
#[derive(Clone, Debug, PartialEq)]
pub enum DrawnWay {
    /// Panels seam to seam.
    Panels(DrawnPanels),
    /// The whole edge of a flat cloth as one closed line, by its id; CF is where the upright line through the middle of the
    /// drawing meets it lowest.
    Outline(String),
}

/// Panels in the order in which they are sewn.
#[derive(Clone, Debug, PartialEq)]
pub struct DrawnPanels {
    /// From CF toward the wearer's left, as seen from outside; on an open band from its right-hand end.
    pub panels: Vec<DrawnPanel>,
    /// What of the first panel lies on CF of a ring: its middle, or the seam before it.
    pub on_middle: PanelPart,
    /// After how many panels the left and the right side seam come; `None` where the sides are the quarters of the hem.
    pub side_seams: Option<(usize, usize)>,
    /// How far motifs keep from every seam between panels.
    pub keep_clear: Option<Mm>,
}

/// A panel in a drawing, right side up.
#[derive(Clone, Debug, PartialEq)]
pub struct DrawnPanel {
    /// What it is called: `front`.
    pub name: String,
    /// Id of its hem edge, an open line from one seam to the other.
    pub hem: String,
    /// Id of its seam on the left, seen with the hem below; the hem is taken as square to it where absent.
    pub left: Option<String>,
    /// Id of its seam on the right.
    pub right: Option<String>,
    /// The side on which only half of it is drawn, up to a fold of the cloth.
    pub fold: Option<PanelSide>,
    /// Whether what is drawn is the other of a pair, and this is its mirror image.
    pub hand: PanelHand,
    /// Whether it is a whole panel or a wedge between two.
    pub kind: PanelKind,
}

/// A side of a drawn panel, seen with its hem below.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PanelSide {
    /// The left.
    Left,
    /// The right.
    Right,
}

/// Whether a panel is as drawn.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum PanelHand {
    /// As drawn.
    #[default]
    AsDrawn,
    /// The mirror image of what is drawn.
    Mirrored,
}

/// What a panel is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum PanelKind {
    /// A panel from waist to hem.
    #[default]
    Whole,
    /// A godet: a wedge let into a seam or slash, shorter than the panels beside it.
    Godet,
}

/// How far drawn cut lines lie outside the finished lines; zero where the finished lines are drawn.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Allowances {
    /// Beyond the finished hem.
    pub hem: Mm,
    /// Beyond the finished seams.
    pub seam: Mm,
}

/// A line whose length is known.
#[derive(Clone, Debug, PartialEq)]
pub struct CheckLine {
    /// Id of the element.
    pub id: String,
    /// Its true length.
    pub length: Mm,
}

impl Drawn {
    /// Ids of every line that is needed.
    pub fn ids(&self) -> impl Iterator<Item = &str> {
        let (outline, panels) = match &self.way {
            DrawnWay::Outline(id) => (Some(id.as_str()), [].as_slice()),
            DrawnWay::Panels(panels) => (None, panels.panels.as_slice()),
        };
        let of_panels = panels.iter().flat_map(|panel| {
            [Some(&panel.hem), panel.left.as_ref(), panel.right.as_ref()].into_iter().flatten().map(String::as_str)
        });
        outline.into_iter().chain(of_panels).chain(self.check.iter().map(|check| check.id.as_str()))
    }
}
