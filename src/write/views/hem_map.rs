//! The band straightened out in rows: every motif with its number and its distances from CF, seams, zones.

use super::{BORDER, Labels, WIDTH, heading, hem_flat, motif_paint, scale_bar, titled};
use crate::geometry::{Affine, Point, Rect, Vec2};
use crate::hem::{Middle, MotifLine};
use crate::place::Placement;
use crate::plan::Plan;
use crate::press::{Closure, Zone};
use crate::quantity::{Mm, mm};
use crate::write::chalk;
use crate::write::drawing::{Anchor, Drawing, Group, Mark, Pen, Words};
use crate::write::figures::{bare_inches, bare_mm, counted, runs};
use crate::write::lettering::{self, Weight};
use crate::write::style;

/// Least distance between two numbered motifs on paper, mm: the width of a distance to a tenth of a millimetre.
const LEAST_PITCH: f64 = 14.0;
/// Rows tried, fewest first; on a ring quarters begin and end at CF, CB and the sides.
const ROWS: [u32; 5] = [1, 2, 4, 8, 12];

/// Least width of a panel on paper that is named, mm: its own name between those of the seams at its ends.
const LEAST_PANEL: f64 = 40.0;

/// How far above the drawn band a plate's frame is shown, mm on paper.
const PLATE_ABOVE: f64 = 2.0;

/// What is shown beside motifs, seams and zones.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Shows {
    /// Number and distances under each motif.
    Distances,
    /// Where the plate comes down, with the numbers of the closures.
    Plates,
}

/// One row: from where to where along the hem.
struct Row<'a> {
    plan: &'a Plan,
    shows: Shows,
    from: Mm,
    to: Mm,
    /// Paper mm for one mm of hem.
    scale: f64,
    /// Where the row's start lies on the hem line of the paper.
    origin: Point,
    top: Mm,
}

/// The picture.
pub(crate) fn draw(plan: &Plan, shows: Shows) -> Drawing {
    pages(plan, shows, f64::MAX).swap_remove(0)
}

/// The picture in parts no higher than `tallest`, one row at least in each.
pub(crate) fn pages(plan: &Plan, shows: Shows, tallest: f64) -> Vec<Drawing> {
    let (start, end) = chalk::hem_span(plan);
    let length = end - start;
    let room = WIDTH - 2.0 * BORDER;
    let motifs = plan.setting.bands.first().map_or(1, |band| band.placements.len().max(1));
    let pitch = |rows: u32| room * f64::from(rows) / motifs as f64;
    let count = ROWS.into_iter().find(|rows| pitch(*rows) >= LEAST_PITCH).unwrap_or(ROWS[ROWS.len() - 1]);
    let each = length / f64::from(count);
    let scale = room / each.get();
    let top = hem_flat::band_top(plan);
    let below: f64 = if shows == Shows::Distances { 17.0 } else { 12.0 };
    let mut pages = Vec::new();
    let (mut drawing, mut y) = begin(plan, shows, count);
    let mut empty = true;
    for k in 0..count {
        let from = start + each * f64::from(k);
        let row = |y: f64| Row { plan, shows, from, to: from + each, scale, origin: Point::new(BORDER, y), top };
        // Labels that make way for each other reach lower than one line.
        let below = below.max(row(0.0).draw(&mut Drawing::new(WIDTH, 10.0, "")) + style::SMALL * 1.5);
        let row_height = 6.0 + top.get() * scale + below;
        if y + row_height + BORDER > tallest && !empty {
            end_page(&mut drawing, plan, y, scale);
            pages.push(std::mem::replace(&mut drawing, Drawing::new(WIDTH, 10.0, says(plan, count))));
            y = BORDER;
        }
        empty = false;
        y += 6.0 + top.get() * scale;
        row(y).draw(&mut drawing);
        y += below;
    }
    end_page(&mut drawing, plan, y, scale);
    pages.push(drawing);
    pages
}

/// An empty picture with its title; and the y below that.
fn begin(plan: &Plan, shows: Shows, rows: u32) -> (Drawing, f64) {
    let mut drawing = Drawing::new(WIDTH, 10.0, says(plan, rows));
    let middle = chalk::middle_name(plan);
    let (title, sub) = match shows {
        Shows::Distances => (
            format!("The band straightened, with distances from {middle}"),
            format!(
                "Straightened along the hem, so gaps look wider than they are. Figures of the lowest band: first along the hem, \
             then along the motif line, both in mm; third along the motif line in inches.{}",
                over_itself(plan)
            ),
        ),
        Shows::Plates => (
            "Where the plate comes down".to_owned(),
            "Straightened along the hem. Framed: the whole plate, rim included; numbers: the closures made there."
                .to_owned(),
        ),
    };
    let y = heading(&mut drawing, &titled(plan, &title), &sub);
    (drawing, y)
}

/// Why the band is shown straightened only.
fn over_itself(plan: &Plan) -> String {
    if !hem_flat::lies_over_itself(plan) {
        return String::new();
    }
    format!(
        " The hem turns through {:.0}°, more than a full circle: laid flat it would lie over itself, so that there is no such picture.",
        plan.hem.sweep().degrees()
    )
}

fn end_page(drawing: &mut Drawing, plan: &Plan, y: f64, scale: f64) {
    scale_bar(drawing, Point::new(BORDER, y), scale);
    let note = match plan.hem.middle() {
        Middle::CentreFront => "← wearer's right   |   wearer's left →",
        Middle::CentreBack => "← wearer's left   |   wearer's right →",
    };
    let note = Words::new(note, (WIDTH - BORDER, y + style::SMALL * 0.36));
    drawing.words(note.size(style::SMALL).ink(style::SOFT).anchor(Anchor::End));
    drawing.height = y + BORDER;
}

fn says(plan: &Plan, rows: u32) -> String {
    let motifs: usize = plan.setting.bands.iter().map(|band| band.placements.len()).sum();
    format!(
        "The hem band straightened in {rows} rows with {} numbered and measured; the chalk list has the same figures.",
        counted(motifs, "motif", "motifs")
    )
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
    fn draw(&self, drawing: &mut Drawing) -> f64 {
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

/// How far a motif leans from square to the hem, radians clockwise.
pub(crate) fn lean(plan: &Plan, line: &MotifLine, placement: &Placement) -> f64 {
    let s_line = line.from_hem(chalk::drafted(plan, placement.s_hem));
    placement.turn.get() - line.frame_at(s_line).turn().get()
}
