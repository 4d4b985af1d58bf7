//! The hem as worn, seen from the front and from the back: as if held out round, folds not drawn.
//!
//! The garment is drawn as a cone whose hem is as long as the real one and whose flare is the real one as far as a skirt
//! can stand out; distances along the hem and heights are kept, so every motif sits where it will sit. A flared band with
//! two ends, such as a cape, is drawn closed but for a slit; one with hardly any flare is drawn as it hangs before one.

use std::f64::consts::{PI, TAU};

use super::{BORDER, Labels, WIDTH, heading, hem_flat, hem_map, motif_paint, titled};
use crate::geometry::{Affine, Point, Vec2};
use crate::hem::{Ends, Middle};
use crate::plan::Plan;
use crate::quantity::Mm;
use crate::write::chalk;
use crate::write::drawing::{Drawing, Pen, Words};
use crate::write::style;

/// Steepest flare drawn, as the sine of the slope: about 37 degrees, where a full skirt over a hoop begins to look flat.
const GREATEST_FLARE: f64 = 0.6;
/// How far the eye looks down on the hem, radians (15 degrees).
const LOOK_DOWN: f64 = 0.262;
/// Slant height of the drawn skirt as a part of its hem radius; above it nothing is decorated.
const DRAWN_HEIGHT: f64 = 0.55;
/// Flare from which on a band with two ends is drawn round a body, radians: less is a stole, a curtain or a sleeve.
const GOES_ROUND: f64 = 0.5;
/// How much of the round a flared band with two ends fills, so that its slit is seen.
const SLIT: f64 = 0.97;
/// How much of the round a band fills that is hung out before the eye, and its drawn height as a part of the radius.
const HUNG_OUT: (f64, f64) = (0.36, 0.22);

/// The picture; that of the band laid flat for a cloth with corners, which lies flat when it is used.
pub(crate) fn draw(plan: &Plan) -> Drawing {
    lying_flat(plan).unwrap_or_else(|| as_worn(plan))
}

/// The picture beside that of the band laid flat; `None` where it would be the same one again.
pub(crate) fn beside_flat(plan: &Plan) -> Option<Drawing> {
    lying_flat(plan).is_none().then(|| as_worn(plan))
}

/// The picture laid flat of a cloth with corners.
fn lying_flat(plan: &Plan) -> Option<Drawing> {
    let cornered = plan.hem.line_at(Mm::ZERO).is_ok_and(|line| !line.corners().is_empty());
    hem_flat::draw(plan).filter(|_| cornered)
}

fn as_worn(plan: &Plan) -> Drawing {
    let ring = plan.hem.is_closed() || matches!(plan.job.hem.ends, Ends::Opening { .. });
    if ring || plan.hem.sweep().get() >= GOES_ROUND { round(plan, ring) } else { hung_out(plan) }
}

/// What the picture shows, for those who cannot see it and for captions.
pub(crate) const SAYS: &str = "The garment as worn, with every motif where it will sit.";

/// Seen from the front and from the back.
fn round(plan: &Plan, ring: bool) -> Drawing {
    let mut drawing = Drawing::new(WIDTH, 10.0, SAYS);
    let sub = match ring {
        true => "Drawn as if the hem were held out round; real folds will hide part of it.",
        false => {
            "Drawn as if the hem were held out round with its two ends nearly meeting; real folds will hide part of it."
        }
    };
    let head = heading(&mut drawing, &titled(plan, "As worn, from the front and from the back"), sub);
    let radius = WIDTH / 2.0 - BORDER - 2.0;
    let mut y = head + 6.0;
    let part = if ring { 1.0 } else { SLIT };
    // The middle of the band faces the eye first, whichever side of the body it lies on.
    let names = match plan.hem.middle() {
        Middle::CentreFront => ["Front", "Back"],
        Middle::CentreBack => ["Back", "Front"],
    };
    for (name, turn) in names.into_iter().zip([0.0, PI]) {
        let cone = Cone::new(plan, radius, part, turn);
        let above = cone.seen(PI, cone.top).y.min(cone.seen(0.0, cone.top).y);
        let origin = Point::new(WIDTH / 2.0, y - above);
        cone.draw(&mut drawing, plan, origin);
        drawing.words(Words::new(name, (BORDER, y + style::BODY)).bold());
        y = origin.y + radius * LOOK_DOWN.sin() + 11.0;
    }
    drawing.height = y;
    drawing
}

/// A band with two ends and hardly any flare, as it hangs before one.
fn hung_out(plan: &Plan) -> Drawing {
    let mut drawing = Drawing::new(WIDTH, 10.0, SAYS);
    let sub = "Drawn hung out before you in an easy curve, its two ends to the sides.";
    let y = heading(&mut drawing, &titled(plan, "As it hangs"), sub) + 6.0;
    let radius = (WIDTH / 2.0 - BORDER - 2.0) / (HUNG_OUT.0 * PI).sin();
    let cone = Cone::new(plan, radius, HUNG_OUT.0, 0.0);
    let band = hem_flat::band_top(plan).get() * cone.scale;
    let cone = Cone { top: (radius * HUNG_OUT.1).max(band * 1.3), ..cone };
    let origin = Point::new(WIDTH / 2.0, y - cone.seen(cone.side(), cone.top).y);
    cone.draw(&mut drawing, plan, origin);
    drawing.height = origin.y + radius * LOOK_DOWN.sin() + 11.0;
    drawing
}

/// A round garment of hem radius 1 seen from one side.
struct Cone {
    /// Paper mm for one mm along the hem.
    scale: f64,
    radius: f64,
    length: f64,
    /// Angle that the whole hem goes round.
    round: f64,
    /// Slant height drawn, paper mm.
    top: f64,
    /// Sine and cosine of the slope.
    slope: (f64, f64),
    /// Which side faces the eye.
    turn: f64,
}

impl Cone {
    /// `part` of the round is filled.
    fn new(plan: &Plan, radius: f64, part: f64, turn: f64) -> Self {
        let (length, round) = (chalk::hem_length(plan).get(), TAU * part);
        let sine = (plan.hem.sweep().get() / TAU).clamp(0.0, GREATEST_FLARE);
        let slope = (sine, (1.0 - sine * sine).sqrt());
        Self { scale: radius * round / length, radius, length, round, top: radius * DRAWN_HEIGHT, slope, turn }
    }

    fn angle(&self, s_hem: f64) -> f64 {
        s_hem / self.length * self.round - self.turn
    }

    /// Angle from the middle of what is seen to either end of it.
    fn side(&self) -> f64 {
        (self.round / 2.0).min(PI / 2.0)
    }

    /// Angle round the garment from the side that faces the eye, and slant height in mm on paper, to paper.
    fn seen(&self, angle: f64, slant: f64) -> Point {
        let radius = (self.radius - slant * self.slope.0).max(self.radius * 0.12);
        let up = slant * self.slope.1 * LOOK_DOWN.cos();
        Point::new(radius * angle.sin(), radius * angle.cos() * LOOK_DOWN.sin() - up)
    }

    fn draw(&self, drawing: &mut Drawing, plan: &Plan, origin: Point) {
        let arc = |slant: f64, from: f64, to: f64| {
            (0..=60).map(move |k| (from + (to - from) * f64::from(k) / 60.0, slant)).collect::<Vec<_>>()
        };
        let place = |points: Vec<(f64, f64)>| {
            points.into_iter().map(|(angle, slant)| origin + self.seen(angle, slant).to_vec2()).collect::<Vec<_>>()
        };
        let side = self.side();
        let hem = place(arc(0.0, -side, side));
        let upper_front = place(arc(self.top, side, -side));
        let mut body = kurbo::BezPath::new();
        for (k, point) in hem.iter().chain(&upper_front).enumerate() {
            if k == 0 { body.move_to(*point) } else { body.line_to(*point) }
        }
        body.close_path();
        let edge = Pen::new(style::TEXT, style::THIN);
        if self.round > PI {
            let inside = place(arc(self.top, -PI / 2.0, -PI * 1.5));
            drawing.polyline(inside, Pen::new(style::RULE, style::THIN));
        }
        drawing.shape(body, Some(style::CLOTH), Some(edge));
        drawing.polyline(hem, Pen::new(style::TEXT, style::FIRM));
        let band_top = hem_flat::band_top(plan).get() * self.scale;
        let help = Pen::new(style::RULE, style::THIN).dashed(style::HELP_DASH);
        drawing.polyline(place(arc(band_top, -side, side)), help);
        if self.turn > 0.0 {
            self.slit(drawing, origin);
        }
        self.garment_lines(drawing, plan, origin, band_top);
        self.motifs(drawing, plan, origin);
    }

    /// The slit between two ends that do not quite meet, on the side where they are.
    fn slit(&self, drawing: &mut Drawing, origin: Point) {
        let half = (TAU - self.round) / 2.0;
        if half < 1e-9 {
            return;
        }
        let corners = [(-half, -0.6), (-half, self.top + 0.2), (half, self.top + 0.2), (half, -0.6)];
        let mut slit = kurbo::BezPath::new();
        for (k, (angle, slant)) in corners.into_iter().enumerate() {
            let at = origin + self.seen(angle, slant).to_vec2();
            if k == 0 { slit.move_to(at) } else { slit.line_to(at) }
        }
        slit.close_path();
        drawing.shape(slit, Some(style::PAPER), None);
        for angle in [-half, half] {
            let (foot, head) = (self.seen(angle, 0.0), self.seen(angle, self.top));
            drawing.line(origin + foot.to_vec2(), origin + head.to_vec2(), Pen::new(style::TEXT, style::THIN));
        }
    }

    fn garment_lines(&self, drawing: &mut Drawing, plan: &Plan, origin: Point, band_top: f64) {
        let mut labels = Labels::default();
        for mark in chalk::marks(plan) {
            let angle = self.angle(mark.s_hem.get());
            if angle.cos() < 0.02 {
                continue;
            }
            let centre = matches!(mark.name.as_str(), "CF" | "CB");
            let ink = if centre { style::ACCENT } else { style::SOFT };
            let pen = Pen::new(ink, style::THIN).dashed(style::SEAM_DASH);
            let (foot, head) = (self.seen(angle, 0.0), self.seen(angle, band_top * 1.25));
            drawing.line(origin + foot.to_vec2(), origin + head.to_vec2(), pen);
            let at = origin + foot.to_vec2() + Vec2::new(0.0, 3.2);
            let mut words = Words::new(mark.name.clone(), at).size(style::SMALL).ink(ink).centred();
            // The hem falls away toward the middle: the inner end of the words must lie below it too.
            words.at.y += angle.tan().abs().min(2.0) * LOOK_DOWN.sin() * words.width() / 2.0;
            labels.set(drawing, words, (0.0, 1.0));
        }
    }

    fn motifs(&self, drawing: &mut Drawing, plan: &Plan, origin: Point) {
        for band in &plan.setting.bands {
            let Ok(line) = plan.hem.line_at(band.height) else { continue };
            let stretch = plan.hem.length() / line.length();
            for placement in &band.placements {
                let Some(motif) = motif_paint::motif_of(&plan.motifs, placement) else { continue };
                if self.angle(placement.s_hem.get()).cos() < 0.05 {
                    continue;
                }
                let own = Affine::rotate(hem_map::lean(plan, &line, placement)) * motif_paint::own_form(placement);
                motif_paint::paint_bent(drawing, motif, |point| {
                    let local = own * point;
                    let angle = self.angle(placement.s_hem.get() + local.x * stretch);
                    let slant = (placement.height - Mm::new(local.y)).get() * self.scale;
                    origin + self.seen(angle, slant).to_vec2()
                });
            }
        }
    }
}
