//! A panel's finished hem edge from what is drawn: the right way round, unfolded, allowances taken off.

use kurbo::{ParamCurve as _, ParamCurveNearest as _};

use super::stretch::{self, Stretch};
use super::{Allowances, DrawnError, DrawnPanel, PanelHand, PanelKind, PanelSide};
use crate::geometry::{Affine, Point, Vec2};
use crate::hem::chain::{Chain, Link};
use crate::hem::curve::turn_between;
use crate::quantity::Mm;
use kurbo::BezPath;

/// A seam may start this far from the end of the hem edge, in millimetres: lines drawn by hand that nearly meet.
const MEETS: f64 = 5.0;

/// Places on a seam are found to this, in millimetres.
const NEAR_ERROR: f64 = 1e-9;

/// A panel ready to be joined to others.
#[derive(Clone, Debug)]
pub(super) struct Panel {
    pub(super) name: String,
    pub(super) kind: PanelKind,
    hem: Stretch,
    /// How its seams stand on its hem, on the left and on the right.
    pub(super) seams: [SeamEnd; 2],
    /// Angle of the hem at the fold, where it was drawn to one.
    pub(super) at_fold: Option<f64>,
}

/// How a seam stands on the finished hem.
#[derive(Clone, Copy, Debug)]
pub(super) struct SeamEnd {
    /// Angle from the hem's direction to the seam, toward the upper side.
    pub(super) angle: f64,
    /// Length of the seam as drawn.
    pub(super) length: Option<f64>,
}

impl Panel {
    /// The panel, its lines looked up by id.
    pub(super) fn new<'p>(
        wish: &DrawnPanel,
        allowances: Allowances,
        line: &impl Fn(&str) -> Result<&'p BezPath, DrawnError>,
    ) -> Result<Self, DrawnError> {
        let read = |id: &String| Stretch::open(id, line(id)?);
        let seam = |id: &Option<String>| id.as_ref().map(read).transpose();
        let drawn = Drawn { hem: read(&wish.hem)?, left: seam(&wish.left)?, right: seam(&wish.right)? };
        let (half, at_fold) = drawn.right_way_round(wish)?.unfolded(wish.fold);
        let whole = match wish.hand {
            PanelHand::AsDrawn => half,
            PanelHand::Mirrored => half.mirrored(),
        };
        whole.finished(wish, allowances, at_fold)
    }

    /// Its hem edge; the first link's turn is left at zero.
    pub(super) fn chain(&self) -> Chain {
        Chain::new(self.links())
    }

    fn links(&self) -> Vec<Link> {
        self.hem.links(0.0)
    }
}

/// A panel as drawn.
struct Drawn {
    hem: Stretch,
    left: Option<Stretch>,
    right: Option<Stretch>,
}

impl Drawn {
    /// The hem from left to right and each seam upward, by the seams where they are drawn and by the page otherwise.
    fn right_way_round(self, wish: &DrawnPanel) -> Result<Self, DrawnError> {
        let (start, end) = (self.hem.start(), self.hem.end());
        let nearer_end = |seam: &Stretch| {
            let to = |point: Point| seam.start().distance(point).min(seam.end().distance(point));
            to(end) < to(start)
        };
        let backward = match (&self.left, &self.right) {
            (Some(left), _) => nearer_end(left),
            (None, Some(right)) => !nearer_end(right),
            (None, None) => start.x > end.x,
        };
        let hem = if backward { self.hem.reversed() } else { self.hem };
        let upward = |seam: Option<Stretch>, id: &Option<String>, foot: Point| -> Result<Option<Stretch>, DrawnError> {
            let (Some(seam), Some(id)) = (seam, id) else { return Ok(None) };
            let turned = seam.end().distance(foot) < seam.start().distance(foot);
            let seam = if turned { seam.reversed() } else { seam };
            let by = seam.start().distance(foot);
            if by > MEETS {
                return Err(DrawnError::SeamApart { panel: wish.name.clone(), id: id.clone(), by: Mm::new(by) });
            }
            Ok(Some(seam))
        };
        let left = upward(self.left, &wish.left, hem.start())?;
        let right = upward(self.right, &wish.right, hem.end())?;
        let down = |seam: &Option<Stretch>, along: Vec2| {
            seam.as_ref().is_some_and(|seam| turn_between(along, seam.first_direction()) < 0.0)
        };
        if down(&left, hem.first_direction()) || down(&right, hem.last_direction()) {
            return Err(DrawnError::UpsideDown { panel: wish.name.clone() });
        }
        Ok(Self { hem, left, right })
    }

    /// Unfolded about the line up from the hem's end on that side: along the line drawn there, or straight up the page. Also
    /// the angle that the hem then makes at the fold.
    fn unfolded(self, fold: Option<PanelSide>) -> (Self, Option<f64>) {
        let Some(fold) = fold else { return (self, None) };
        let (at, line) = match fold {
            PanelSide::Left => (self.hem.start(), &self.left),
            PanelSide::Right => (self.hem.end(), &self.right),
        };
        let up = line.as_ref().map_or(Vec2::new(0.0, -1.0), Stretch::first_direction);
        let mirror = reflection(at, up);
        let other = self.hem.carried(mirror).reversed();
        let (hem, left, right) = match fold {
            PanelSide::Left => {
                (other.followed_by(self.hem), self.right.as_ref().map(|seam| seam.carried(mirror)), self.right)
            }
            PanelSide::Right => {
                let right = self.left.as_ref().map(|seam| seam.carried(mirror));
                (self.hem.followed_by(other), self.left, right)
            }
        };
        let middle = hem.pieces().len() / 2;
        let [before, after] = [&hem.pieces()[middle - 1], &hem.pieces()[middle]];
        let kink = turn_between(stretch::direction(before, 1.0), stretch::direction(after, 0.0));
        (Self { hem, left, right }, Some(kink))
    }

    /// The other one of a pair.
    fn mirrored(self) -> Self {
        let mirror = Affine::FLIP_X;
        Self {
            hem: self.hem.carried(mirror).reversed(),
            left: self.right.map(|seam| seam.carried(mirror)),
            right: self.left.map(|seam| seam.carried(mirror)),
        }
    }

    /// The finished panel: its hem as far inside the drawn lines as the allowances.
    fn finished(self, wish: &DrawnPanel, allowances: Allowances, at_fold: Option<f64>) -> Result<Panel, DrawnError> {
        let nothing = || DrawnError::NothingLeft { of: wish.name.clone(), hem: allowances.hem, seam: allowances.seam };
        let left = Side::new(self.left.as_ref(), self.hem.start(), self.hem.first_direction(), PanelSide::Left);
        let right = Side::new(self.right.as_ref(), self.hem.end(), self.hem.last_direction(), PanelSide::Right);
        // A hem turned up beyond the upper ends of its seams is none.
        let seams = [left.length(), right.length()].into_iter().flatten();
        if seams.into_iter().any(|seam| seam <= allowances.hem.get()) {
            return Err(nothing());
        }
        let raised = self.hem.raised(allowances.hem.get(), false).ok_or_else(nothing)?;
        let hem = if allowances == Allowances::default() {
            raised
        } else {
            let seam = allowances.seam.get();
            raised.between(|p| left.inside(p) - seam, |p| right.inside(p) - seam).ok_or_else(nothing)?
        };
        let seams = [
            SeamEnd { angle: turn_between(hem.first_direction(), left.up_at(hem.start())), length: left.length() },
            SeamEnd { angle: turn_between(hem.last_direction(), right.up_at(hem.end())), length: right.length() },
        ];
        Ok(Panel { name: wish.name.clone(), kind: wish.kind, hem, seams, at_fold })
    }
}

/// A side of a panel: its seam line as drawn, going straight on beyond its ends; square to the hem where none is drawn.
struct Side<'a> {
    seam: Option<&'a Stretch>,
    foot: Point,
    up: Vec2,
    side: PanelSide,
}

impl<'a> Side<'a> {
    fn new(seam: Option<&'a Stretch>, foot: Point, along: Vec2, side: PanelSide) -> Self {
        let up = seam.map_or(Vec2::new(along.y, -along.x), Stretch::first_direction);
        Self { seam, foot, up, side }
    }

    fn length(&self) -> Option<f64> {
        self.seam.map(Stretch::length)
    }

    /// Distance of a point from the seam line, positive inside the panel.
    fn inside(&self, point: Point) -> f64 {
        let (foot, up) = self.nearest(point);
        let to_the_right = up.cross(point - foot);
        match self.side {
            PanelSide::Left => to_the_right,
            PanelSide::Right => -to_the_right,
        }
    }

    /// Direction of the seam where it is nearest to a point.
    fn up_at(&self, point: Point) -> Vec2 {
        self.nearest(point).1
    }

    fn nearest(&self, point: Point) -> (Point, Vec2) {
        let Some(seam) = self.seam else { return (self.foot, self.up) };
        let near = seam.pieces().iter().map(|seg| (seg, seg.nearest(point, NEAR_ERROR)));
        let best = near.min_by(|a, b| a.1.distance_sq.total_cmp(&b.1.distance_sq));
        best.map_or((self.foot, self.up), |(seg, near)| (seg.eval(near.t), stretch::direction(seg, near.t)))
    }
}

/// Reflection about a line through `at`.
fn reflection(at: Point, along: Vec2) -> Affine {
    let turn = Affine::rotate(along.atan2());
    let about = Affine::translate(at.to_vec2());
    about * turn * Affine::FLIP_Y * turn.inverse() * about.inverse()
}
