//! One row of the straightened band: cloth, zones, lines of the garment, motifs, and what is shown beside them.

use super::{Shows, lean};
use crate::geometry::{Affine, Point, Rect, Vec2};
use crate::plan::Plan;
use crate::press::{Closure, Zone};
use crate::quantity::{Mm, mm};
use crate::write::chalk;
use crate::write::drawing::{Anchor, Drawing, Group, Mark, Pen, Words};
use crate::write::figures::{bare_inches, bare_mm, runs};
use crate::write::lettering::{self, Weight};
use crate::write::style;
use crate::write::views::{BORDER, Labels, WIDTH, hem_flat, motif_paint};

/// Least width of a panel on paper that is named, mm: its own name between those of the seams at its ends.
const LEAST_PANEL: f64 = 40.0;

/// How far above the drawn band a plate's frame is shown, mm on paper.
const PLATE_ABOVE: f64 = 2.0;

/// One row: from where to where along the hem.
pub(super) struct Row<'a> {
    pub(super) plan: &'a Plan,
    pub(super) shows: Shows,
    pub(super) from: Mm,
    pub(super) to: Mm,
    /// Paper mm for one mm of hem.
    pub(super) scale: f64,
    /// Where the row's start lies on the hem line of the paper.
    pub(super) origin: Point,
    pub(super) top: Mm,
}

impl Row<'_> {
    /// Hem coordinates to paper.
    fn at(&self, s_hem: Mm, height: Mm) -> Point {
        self.origin + Vec2::new((s_hem - self.from).get() * self.scale, -height.get() * self.scale)
    }

    /// The last row also holds what lies on its end; half a micrometre is the noise of dividing a hem into rows.
    fn holds(&self, s_hem: Mm) -> bool {
        let noise = mm(0.0005);
        let last = self.to > chalk::hem_span(self.plan).1 - noise;
        let end = if last { self.to + noise } else { self.to - noise };
        s_hem > self.from - noise && s_hem < end
    }

    /// Draws the row; says how far below its hem line the lowest closure's number reaches.
    pub(super) fn draw(&self, drawing: &mut Drawing) -> f64 {
        let (left, right) = (self.at(self.from, Mm::ZERO), self.at(self.to, self.top));
        drawing.rect(Rect::from_points(left, right), Some(style::CLOTH), None);
        for zone in &self.plan.job.zones {
            self.zone(drawing, zone);
        }
        for band in &self.plan.setting.bands {
            let pen = Pen::new(style::SOFT, style::HAIRLINE).dashed(style::HELP_DASH);
            drawing.line(self.at(self.from, band.height), self.at(self.to, band.height), pen);
        }
        self.panels(drawing);
        self.garment_lines(drawing);
        self.motifs(drawing);
        drawing.line(left, self.at(self.to, Mm::ZERO), Pen::new(style::TEXT, style::FIRM));
        match self.shows {
            Shows::Distances => {
                self.figures(drawing);
                0.0
            }
            Shows::Plates => self.plates(drawing),
        }
    }

    fn zone(&self, drawing: &mut Drawing, zone: &Zone) {
        let (from, to) = zone.along.unwrap_or((self.from, self.to));
        let (from, to) = (from.max(self.from), to.min(self.to));
        let (low, high) = (zone.heights.0.max(Mm::ZERO), zone.heights.1.min(self.top));
        if from >= to || low >= high {
            return;
        }
        let rect = Rect::from_points(self.at(from, low), self.at(to, high));
        let pen = Pen::new(style::CARE, style::THIN).dashed(style::SEAM_DASH);
        drawing.rect(rect, Some(style::TINT), Some(pen));
        let room = rect.width() - 2.0;
        if room > 8.0 && rect.height() > style::SMALL {
            let words = Words::new(zone.name.clone(), (rect.x0 + 1.0, rect.y1 - 0.8)).size(style::SMALL);
            drawing.words(words.ink(style::CARE).within(room));
        } else {
            let words = Words::new(zone.name.clone(), (rect.center().x, rect.y0 - 1.2)).size(style::SMALL);
            drawing.words(self.kept_inside(words.ink(style::CARE).anchor(Anchor::Middle)));
        }
    }

    fn garment_lines(&self, drawing: &mut Drawing) {
        let mut names: Vec<Words> = Vec::new();
        for mark in chalk::marks(self.plan) {
            let round = if self.plan.hem.is_closed() { chalk::hem_length(self.plan) } else { Mm::ZERO };
            // CB lies where the ring closes and is drawn at both ends.
            for s in [mark.s_hem, mark.s_hem - round, mark.s_hem + round] {
                if s < self.from - mm(1e-6) || s > self.to + mm(1e-6) || (s != mark.s_hem && round == Mm::ZERO) {
                    continue;
                }
                let centre = matches!(mark.name.as_str(), "CF" | "CB");
                let pen = if centre {
                    Pen::new(style::ACCENT, style::BOLD)
                } else {
                    Pen::new(style::SOFT, style::THIN).dashed(style::SEAM_DASH)
                };
                let (foot, head) = (self.at(s, Mm::ZERO), self.at(s, self.top));
                drawing.line(foot, head, pen);
                // The frames of plates reach a little above the band.
                let above = if self.shows == Shows::Plates { PLATE_ABOVE + 1.0 } else { 1.2 };
                let words = Words::new(mark.name.clone(), (head.x, head.y - above)).size(style::SMALL);
                let words = words.ink(if centre { style::ACCENT } else { style::SOFT }).bold();
                names.push(words.anchor(Anchor::Middle));
                if round == Mm::ZERO {
                    break;
                }
            }
        }
        for words in self.joined(names) {
            drawing.words(words);
        }
    }

    /// Names over a row from left to right; those that would overprint each other stand as one.
    fn joined(&self, mut names: Vec<Words>) -> Vec<Words> {
        names.sort_by(|a, b| a.at.x.total_cmp(&b.at.x));
        let mut joined: Vec<Words> = Vec::new();
        for words in names {
            let words = self.kept_inside(words);
            match joined.last_mut() {
                Some(last) if last.bounds().x1 + 1.0 > words.bounds().x0 => {
                    let mut both = Words { text: format!("{}, {}", last.text, words.text), ..last.clone() };
                    both.at.x = f64::midpoint(last.bounds().x0, words.bounds().x1);
                    *last = self.kept_inside(both);
                }
                _ => joined.push(words),
            }
        }
        joined
    }

    /// Names of drawn panels, each in the middle of what this row shows of it.
    fn panels(&self, drawing: &mut Drawing) {
        let round = if self.plan.hem.is_closed() { chalk::hem_length(self.plan) } else { Mm::ZERO };
        for panel in self.plan.hem.drawn_panels() {
            for shift in [Mm::ZERO, -round, round] {
                let from = if panel.from + shift > self.from { panel.from + shift } else { self.from };
                let to = if panel.to + shift < self.to { panel.to + shift } else { self.to };
                let (start, end) = (self.at(from, self.top), self.at(to, self.top));
                if end.x - start.x > LEAST_PANEL {
                    let words = lettering::fitted(&panel.name, style::SMALL, Weight::Regular, LEAST_PANEL / 2.0);
                    let at = (f64::midpoint(start.x, end.x), start.y - 1.2);
                    drawing.words(Words::new(words, at).size(style::SMALL).ink(style::SOFT).anchor(Anchor::Middle));
                }
                if round == Mm::ZERO {
                    break;
                }
            }
        }
    }

    /// Words at the ends of a row stay on the paper.
    fn kept_inside(&self, mut words: Words) -> Words {
        let bounds = words.bounds();
        words.at.x += (BORDER - bounds.x0).max(0.0) - (bounds.x1 - (WIDTH - BORDER)).max(0.0);
        words
    }

    fn motifs(&self, drawing: &mut Drawing) {
        let mut inner = Drawing::new(0.0, 0.0, "");
        let round = chalk::hem_length(self.plan);
        for band in &self.plan.setting.bands {
            let Ok(line) = self.plan.hem.line_at(band.height) else { continue };
            for placement in &band.placements {
                let Some(motif) = motif_paint::motif_of(&self.plan.motifs, placement) else { continue };
                let lean = lean(self.plan, &line, placement);
                let shifts = if self.plan.hem.is_closed() { vec![Mm::ZERO, round, -round] } else { vec![Mm::ZERO] };
                let reach = motif.width.max(motif.height) * placement.scale;
                for shift in shifts {
                    let s = placement.s_hem + shift;
                    if s + reach < self.from || s - reach > self.to {
                        continue;
                    }
                    let place = Affine::translate(self.at(s, placement.height).to_vec2())
                        * Affine::scale(self.scale)
                        * Affine::rotate(lean)
                        * motif_paint::own_form(placement);
                    motif_paint::paint(&mut inner, motif, place);
                }
            }
        }
        let clip = Rect::from_points(self.at(self.from, mm(-60.0)), self.at(self.to, self.top + mm(60.0)));
        let group = Group { place: Affine::IDENTITY, clip: Some(clip), marks: inner.marks };
        drawing.marks.push(Mark::Group(group));
        for band in self.plan.setting.bands.iter().skip(1) {
            for placement in band.placements.iter().filter(|placement| self.holds(placement.s_hem)) {
                let up = mm(motif_paint::half_height(&self.plan.motifs, placement));
                let at = self.at(placement.s_hem, placement.height + up) - Vec2::new(0.0, 0.8);
                let number = hem_flat::short_number(&placement.id, band);
                let words = Words::new(number, at).size(style::SMALL).anchor(Anchor::Middle);
                drawing.words(self.kept_inside(words));
            }
        }
    }

    /// Frames of the plate, one for each place, with the numbers of its closures; how far below the hem line those reach.
    fn plates(&self, drawing: &mut Drawing) -> f64 {
        let (along, up) = self.plan.job.press.plate;
        let round = if self.plan.hem.is_closed() { chalk::hem_length(self.plan) } else { Mm::ZERO };
        let mut inner = Drawing::new(0.0, 0.0, "");
        let mut labels = Labels::default();
        let mut lowest = 0.0_f64;
        for (closure, numbers) in places_of_plate(&self.plan.press.closures) {
            for s in [closure.s_hem, closure.s_hem - round, closure.s_hem + round] {
                let (from, to) = (s - along / 2.0, s + along / 2.0);
                if to > self.from && from < self.to {
                    // What hangs below the hem or above the drawn band is cut off a little outside it.
                    let low = (closure.height - up / 2.0).max(mm(-4.0 / self.scale));
                    let high = (closure.height + up / 2.0).min(self.top + mm(PLATE_ABOVE / self.scale));
                    let frame = Rect::from_points(self.at(from, low), self.at(to, high));
                    inner.rect(frame, None, Some(Pen::new(style::ACCENT, style::THIN)));
                }
                if self.holds(s) {
                    let at = (self.at(s, Mm::ZERO).x, self.origin.y + 4.0 + style::SMALL);
                    let words = Words::new(runs(&numbers), at).size(style::SMALL).bold().ink(style::ACCENT);
                    let words = self.kept_inside(words.anchor(Anchor::Middle));
                    let set = labels.set(drawing, words, (0.0, style::SMALL));
                    lowest = set.map_or(lowest, |bounds| lowest.max(bounds.y1 - self.origin.y));
                }
                if round == Mm::ZERO {
                    break;
                }
            }
        }
        let clip = Rect::from_points(self.at(self.from, mm(-200.0)), self.at(self.to, self.top + mm(200.0)));
        drawing.marks.push(Mark::Group(Group { place: Affine::IDENTITY, clip: Some(clip), marks: inner.marks }));
        lowest
    }

    /// Number and distances under the hem; where they would crowd, only every second, fifth, tenth motif.
    fn figures(&self, drawing: &mut Drawing) {
        let Some(band) = self.plan.setting.bands.first() else { return };
        let step = (self.to - self.from).get() * self.scale / band.placements.len().max(1) as f64;
        let here = band.placements.iter().filter(|placement| self.holds(placement.s_hem));
        let spaced = step * chalk::hem_length(self.plan).get() / (self.to - self.from).get();
        let every = [1_usize, 2, 5, 10, 20].into_iter().find(|k| spaced * *k as f64 > 13.0).unwrap_or(50);
        for (k, placement) in here.enumerate() {
            let foot = self.at(placement.s_hem, Mm::ZERO);
            let long = k % every == 0;
            let tick = if long { 1.8 } else { 1.0 };
            drawing.line(foot, (foot.x, foot.y + tick), Pen::new(style::TEXT, style::THIN));
            if !long {
                continue;
            }
            let mut y = foot.y + 2.4 + style::SMALL * 0.8;
            let mut put = |words: Words| {
                drawing.words(self.kept_inside(words.anchor(Anchor::Middle)));
            };
            put(Words::new(placement.id.clone(), (foot.x, y)).size(style::SMALL).bold());
            for text in
                [bare_mm(placement.s_hem.abs()), bare_mm(placement.s_line.abs()), bare_inches(placement.s_line.abs())]
            {
                y += style::SMALL * 1.25;
                put(Words::new(text, (foot.x, y)).size(style::SMALL).ink(style::SOFT));
            }
        }
    }
}

/// Each place the plate comes down on, with the numbers of all closures made there.
fn places_of_plate(closures: &[Closure]) -> Vec<(&Closure, Vec<u32>)> {
    let mut places: Vec<(&Closure, Vec<u32>)> = Vec::new();
    for closure in closures {
        let near = |a: Mm, b: Mm| (a - b).abs().get() < 1.0;
        let same = |place: &&mut (&Closure, Vec<u32>)| {
            near(place.0.s_hem, closure.s_hem) && near(place.0.height, closure.height)
        };
        match places.iter_mut().find(same) {
            Some((_, numbers)) => numbers.push(closure.number),
            None => places.push((closure, vec![closure.number])),
        }
    }
    places
}
