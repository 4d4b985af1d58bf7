//! The press, how it is worked, and what a test piece showed.

use crate::data::{Tool, UNKNOWN, tables, usual};
use crate::press::PressError;
use crate::quantity::{Celsius, Mm, Seconds};

/// The press and how it is worked.
#[derive(Clone, Debug, PartialEq)]
pub struct Setup {
    /// Plate along the hem and up the garment.
    pub plate: (Mm, Mm),
    /// Border of the plate that is not trusted to be hot enough.
    pub rim: Mm,
    /// Temperature and time from the film's sheet, where the maker gives them; otherwise the class's window.
    pub temperature: Option<Celsius>,
    /// Full press; the class's usual time where not given.
    pub dwell: Option<Seconds>,
    /// Lower layers are pressed this short; the usual tack of the tables where not given.
    pub tack: Option<Seconds>,
    /// Once for each place, before the first layer.
    pub pre_press: Seconds,
    /// Positioning, covering, peeling: for each closure.
    pub handling: Seconds,
    /// Garment cloth: key in `data/materials.toml`.
    pub cloth: String,
    /// Whether care labels are of the 2023 edition; 2012 unless said.
    pub label_2023: bool,
    /// Motifs pressed one at a time even where the plate would take more.
    pub one_at_a_time: bool,
    /// Press or domestic iron.
    pub tool: Tool,
    /// What a test piece on this stack showed, once it was made.
    pub tested: Option<Tested>,
}

impl Setup {
    /// The part of the plate that is trusted to be hot, along the hem and up the garment.
    ///
    /// # Errors
    /// [`PressError::NoTrustedPlate`] where the rim leaves none.
    pub fn trusted(&self) -> Result<(Mm, Mm), PressError> {
        let (along, up) = (self.plate.0 - self.rim * 2.0, self.plate.1 - self.rim * 2.0);
        if self.rim < Mm::ZERO || along <= Mm::ZERO || up <= Mm::ZERO {
            return Err(PressError::NoTrustedPlate { plate: self.plate, rim: self.rim });
        }
        Ok((along, up))
    }
}

/// The usual plate and times of the tables, nothing known of film or cloth.
impl Default for Setup {
    fn default() -> Self {
        let plate = tables().usual_plate();
        Self {
            plate: plate.size(),
            rim: plate.rim(),
            temperature: None,
            dwell: None,
            tack: None,
            pre_press: Seconds::new(usual("press-pre-press")),
            handling: Seconds::new(usual("press-handling")),
            cloth: UNKNOWN.to_owned(),
            label_2023: false,
            one_at_a_time: false,
            tool: plate.tool,
            tested: None,
        }
    }
}

/// What a test piece showed: pressed, cooled, peeled, and best washed once.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tested {
    /// Plate temperature of the test.
    pub temperature: Celsius,
    /// Full press of the test.
    pub dwell: Seconds,
    /// What was seen.
    pub verdict: Verdict,
}

/// What was seen on the test piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// Film holds, cloth is unmarked.
    Held,
    /// An edge lifts: too cool, too short or too little pressure.
    Lifted,
    /// Cloth or trim is marked, shiny, shrunk or coloured: too hot or too long.
    Marked,
}
