//! One motif line of a band: what there is to set out on it, and its corners.

use crate::art::Motif;
use crate::hem::{Corner, Ends, Hem, MotifLine};
use crate::place::along::bounds::Nook;
use crate::place::along::course::Course;
use crate::place::along::mitre::mitre;
use crate::place::along::row::{Row, SAME, Seat};
use crate::place::along::sequence::{Member, Sequence, Start};
use crate::place::clash::seams::{self, Keep};
use crate::place::ground::Tier;
use crate::place::ground::wished::Named;
use crate::place::{BandWish, PlaceError, Stance};
use crate::quantity::Mm;

impl Tier {
    pub(super) fn new(
        hem: &Hem,
        wish: &BandWish,
        height: Mm,
        sequence: &Sequence,
        shifted: bool,
    ) -> Result<Self, PlaceError> {
        let fault = |error| PlaceError::Line { band: wish.name.clone(), error };
        let line = hem.line_at(height).map_err(fault)?;
        let top = height + wish.rhythm.wave.unwrap_or(Mm::ZERO);
        let upper = hem.line_at(top).map_err(fault)?;
        let (least, greatest) = line.span();
        let ends = match hem.ends() {
            Ends::Open { keep_clear, .. } => keep_clear.get(),
            Ends::Closed | Ends::Opening { .. } => 0.0,
        };
        let lifted = lifted(&line, &upper);
        let course = Course {
            span: (least.get(), greatest.get()),
            closed: line.is_closed(),
            ends,
            ends_raised: ends * lifted,
            sequence: Sequence { lifted, ..sequence.clone() },
            hands: wish.hands,
            middle: hem.middle(),
            shift: wish.rhythm.shift.get(),
        };
        if !course.closed && course.shift.abs() > 0.0 {
            return Err(PlaceError::ShiftOfOpen { band: wish.name.clone() });
        }
        let most = Mm::new(course.length() / 2.0);
        if wish.rhythm.shift.abs() > most + Mm::new(SAME) {
            return Err(PlaceError::ShiftTooFar { band: wish.name.clone(), shift: wish.rhythm.shift, most });
        }
        if course.room(1) <= SAME {
            let (line, clear) = (Mm::new(course.length()), Mm::new(course.ends));
            return Err(PlaceError::EndsTakeAll { band: wish.name.clone(), line, clear });
        }
        let keeps = seams::keeps(hem.marks(), &line);
        Ok(Self { line, course, keeps, nooks: Vec::new(), shifted })
    }

    /// The seat of a motif in a corner.
    pub(in crate::place) fn corner_seat(&self, nook: Nook, item: usize) -> Seat {
        let scale = self.course.sequence.fit;
        let member = Member { item, scale, width: 2.0 * nook.occupied };
        Seat { corner: true, ..Seat::new(nook.s, member) }
    }
}

impl Tier {
    /// What lies on the middle of this row where `start` lies there in the first one.
    pub(in crate::place) const fn own(&self, start: Start) -> Start {
        match (self.shifted && self.course.closed, start) {
            (false, start) => start,
            (true, Start::Motif) => Start::Gap,
            (true, Start::Gap) => Start::Motif,
        }
    }

    /// Whether a motif there keeps out of every place that it must keep out of.
    pub(in crate::place) fn is_free(&self, row: &Row, seat: Seat) -> bool {
        let apart = |keep: &Keep| row.offset(keep.s, seat.s).abs() - seat.half - keep.half;
        self.keeps.iter().filter(|keep| keep.is_area()).all(|keep| apart(keep) >= keep.clear - SAME)
    }
}

/// The corners of a line, with the motif that stands in them, so much larger than drawn, or beside motifs along it that are.
pub(super) fn nooks(
    line: &MotifLine,
    wish: &BandWish,
    in_corner: Option<(&Motif, f64)>,
    (along, largest): (&[Named<'_>], f64),
) -> Vec<Nook> {
    let nook = |corner: Corner| {
        let s = corner.s_line.get();
        if let Some((motif, size)) = in_corner {
            return Nook { s, occupied: corner_takes(wish, motif, (line, corner), size), gaps: 1.0 };
        }
        let motifs = along.iter().map(|named| named.motif);
        let mitre = mitre((line, corner), wish, (motifs, largest));
        Nook { s, occupied: mitre.takes, gaps: mitre.gaps }
    };
    line.corners().into_iter().map(nook).collect()
}

/// So far on either side of a corner the line runs along one side of the cloth, in millimetres.
const BESIDE: Mm = Mm::new(1e-3);

/// How much of the lower line of a wave a motif on the upper one covers, as a part of its width: more, by as much as the lower
/// line is longer. Between the corners of a cloth both run straight, and are of different length only because of the corners.
pub(in crate::place) fn lifted(lower: &MotifLine, upper: &MotifLine) -> f64 {
    if lower.corners().is_empty() { lower.length() / upper.length() } else { 1.0 }
}

/// How much of the line a motif that stands in a corner takes up on each side: as asked, or what its box, so much larger than drawn,
/// covers of it, turned onto the bisector or, standing upright, of the side of which it covers more.
pub(in crate::place) fn corner_takes(
    wish: &BandWish,
    motif: &Motif,
    (line, corner): (&MotifLine, Corner),
    size: f64,
) -> f64 {
    if let Some(asked) = wish.rhythm.corner.as_ref().and_then(|corner| corner.occupies) {
        return asked.get();
    }
    let (width, height) = (motif.width.get(), motif.height.get());
    let covers = |turn: f64| (width * turn.cos().abs() + height * turn.sin().abs()) / 2.0 * size;
    match wish.stance {
        Stance::SquareToHem | Stance::Bent => covers(corner.turn / 2.0),
        Stance::Upright => {
            let side = |off: Mm| covers(line.frame_at(corner.s_line + off).turn().get());
            side(-BESIDE).max(side(BESIDE))
        }
    }
}
