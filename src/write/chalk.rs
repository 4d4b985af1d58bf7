//! The chalk list: every motif and named line with its distance from the middle of the hem (CF, or CB on a garment open in
//! front), along the hem and along the motif line, walked either way round.

use std::fmt::Write as _;

use super::figures::{bare_inches, bare_mm};
use crate::hem::{AsHung, HemMark, Middle, MotifLine};
use crate::place::{BandSetting, Hand};
use crate::plan::Plan;
use crate::quantity::{Mm, mm};

/// One line of the list.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Row {
    /// Placement id, or the name of a line such as `side seam left`.
    pub(crate) mark: String,
    /// Motif key; `None` for a line of the garment.
    pub(crate) motif: Option<String>,
    /// Its finished width.
    pub(crate) width: Option<Mm>,
    /// Hand of the motif.
    pub(crate) hand: Option<Hand>,
    /// Along the motif line.
    pub(crate) line: Walk,
    /// Along the hem.
    pub(crate) hem: Walk,
    /// Height of the motif's middle, or of the motif line.
    pub(crate) height: Mm,
}

/// Distance from the middle along one line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Walk {
    /// s itself.
    pub(crate) signed: Mm,
    /// Walking the way s grows; `None` where the band ends first.
    pub(crate) forward: Option<Mm>,
    /// Walking the other way.
    pub(crate) backward: Option<Mm>,
}

impl Walk {
    fn new(signed: Mm, round: Option<Mm>) -> Self {
        let ahead = signed.get() >= 0.0;
        let far = round.map(|round| round - signed.abs());
        let (forward, backward) = if ahead { (Some(signed), far) } else { (far, Some(-signed)) };
        // The middle itself is zero either way.
        if signed.abs().get() < 1e-9 {
            return Self { signed, forward: Some(Mm::ZERO), backward: Some(Mm::ZERO) };
        }
        Self { signed, forward, backward }
    }

    /// Walking to the wearer's left, then to her right.
    pub(crate) const fn left_right(self, middle: Middle) -> [Option<Mm>; 2] {
        match middle {
            Middle::CentreFront => [self.forward, self.backward],
            Middle::CentreBack => [self.backward, self.forward],
        }
    }
}

/// Lines of one band in order of s, garment lines among the motifs.
pub(crate) fn rows(plan: &Plan, band: &BandSetting) -> Vec<Row> {
    let hem_round = plan.hem.is_closed().then(|| hem_length(plan));
    let line_round = plan.hem.is_closed().then_some(band.line);
    let mut rows: Vec<Row> = band
        .placements
        .iter()
        .map(|placement| Row {
            mark: placement.id.clone(),
            motif: Some(placement.motif.clone()),
            width: plan.motifs.get(&placement.motif).map(|motif| motif.width * placement.scale),
            hand: Some(placement.hand),
            line: Walk::new(placement.s_line, line_round),
            hem: Walk::new(placement.s_hem, hem_round),
            height: placement.height,
        })
        .collect();
    if let Ok(line) = plan.hem.line_at(band.height) {
        rows.extend(garment_lines(plan, &line, hem_round));
    }
    rows.sort_by(|a, b| a.hem.signed.total_cmp(&b.hem.signed).then(a.motif.is_some().cmp(&b.motif.is_some())));
    rows
}

fn garment_lines(plan: &Plan, line: &MotifLine, hem_round: Option<Mm>) -> Vec<Row> {
    let (on_hem, on_line) = (plan.hem.as_hung(), plan.hem.line_as_hung(line));
    let line_round = hem_round.map(|_| on_line.as_ref().map_or(line.length(), AsHung::length));
    let now = |hung: &Option<AsHung>, s: Mm| hung.as_ref().map_or(s, |hung| hung.at(s));
    plan.hem
        .marks()
        .iter()
        .map(|mark| Row {
            mark: mark.name.clone(),
            motif: None,
            width: None,
            hand: None,
            line: Walk::new(now(&on_line, line.from_hem(mark.s_hem)), line_round),
            hem: Walk::new(now(&on_hem, mark.s_hem), hem_round),
            height: line.height(),
        })
        .collect()
}

/// The list as comma-separated values: every length in mm and, in the next column, in inches to the sixteenth.
pub(crate) fn csv(plan: &Plan) -> String {
    let mut csv = String::from("band,mark,motif,hand,measured_from,side");
    for column in ["hem_to_left", "hem_to_right", "line_to_left", "line_to_right", "height", "motif_width"] {
        write!(csv, ",{column}_mm,{column}_in").expect("writing to a string cannot fail");
    }
    csv.push_str("\r\n");
    for band in &plan.setting.bands {
        for row in rows(plan, band) {
            let (motif, hand) = (row.motif.as_deref().unwrap_or(""), row.hand.map_or("", hand));
            let side = side(plan, row.line.signed);
            let words = [band.name.as_str(), row.mark.as_str(), motif, hand, middle_name(plan), side];
            let middle = plan.hem.middle();
            let ([hem_left, hem_right], [line_left, line_right]) =
                (row.hem.left_right(middle), row.line.left_right(middle));
            let lengths = [hem_left, hem_right, line_left, line_right, Some(row.height), row.width];
            let mut cells: Vec<String> = words.map(quoted).to_vec();
            for length in lengths {
                cells.push(length.map(bare_mm).unwrap_or_default());
                cells.push(length.map(bare_inches).unwrap_or_default());
            }
            csv.push_str(&cells.join(","));
            csv.push_str("\r\n");
        }
    }
    csv
}

/// Length of the hem as it is now: as measured after hanging, where it was.
pub(crate) fn hem_length(plan: &Plan) -> Mm {
    plan.hem.as_hung().map_or_else(|| plan.hem.length(), |hung| hung.length())
}

/// Where a place of the hem as it is now lies on the drafted hem, whose flat development is drawn.
pub(crate) fn drafted(plan: &Plan, s_hem: Mm) -> Mm {
    plan.hem.as_hung().map_or(s_hem, |hung| hung.drafted(s_hem))
}

/// Least and greatest distance from the middle along the hem as it is now.
pub(crate) fn hem_span(plan: &Plan) -> (Mm, Mm) {
    let (from, to) = plan.hem.span();
    plan.hem.as_hung().map_or((from, to), |hung| (hung.at(from), hung.at(to)))
}

/// Named places of the hem as it is now.
pub(crate) fn marks(plan: &Plan) -> Vec<HemMark> {
    let hung = plan.hem.as_hung();
    let moved = |mark: &HemMark| {
        let s_hem = hung.as_ref().map_or(mark.s_hem, |hung| hung.at(mark.s_hem));
        HemMark { s_hem, ..mark.clone() }
    };
    plan.hem.marks().iter().map(moved).collect()
}

/// Garment lines that lie on one place of the hem.
pub(crate) struct MarkedPlace {
    /// Their names: `CB, opening`.
    pub(crate) names: String,
    /// Whether CF or CB is among them.
    pub(crate) centre: bool,
    pub(crate) s_hem: Mm,
}

/// Garment lines, those that lie on the same place together so that their names do not overprint each other.
pub(crate) fn marks_by_place(plan: &Plan) -> Vec<MarkedPlace> {
    let mut places: Vec<MarkedPlace> = Vec::new();
    for mark in marks(plan) {
        let centre = matches!(mark.name.as_str(), "CF" | "CB");
        match places.iter_mut().find(|place| (place.s_hem - mark.s_hem).abs() < mm(0.5)) {
            Some(place) => {
                place.names += ", ";
                place.names += &mark.name;
                place.centre |= centre;
            }
            None => places.push(MarkedPlace { names: mark.name.clone(), centre, s_hem: mark.s_hem }),
        }
    }
    places
}

/// What distances are measured from.
pub(crate) const fn middle_name(plan: &Plan) -> &'static str {
    match plan.hem.middle() {
        Middle::CentreFront => "CF",
        Middle::CentreBack => "CB",
    }
}

/// Which side of the wearer a place lies on.
pub(crate) fn side(plan: &Plan, signed: Mm) -> &'static str {
    let (forward, backward) = match plan.hem.middle() {
        Middle::CentreFront => ("left", "right"),
        Middle::CentreBack => ("right", "left"),
    };
    match signed.rounded() {
        s if s > 0.0 => forward,
        s if s < 0.0 => backward,
        _ => middle_name(plan),
    }
}

/// The word for a hand.
pub(crate) const fn hand(hand: Hand) -> &'static str {
    match hand {
        Hand::AsDrawn => "as drawn",
        Hand::Mirrored => "mirrored",
    }
}

/// A cell with quotes where RFC 4180 asks for them; a start that a spreadsheet would take for a sum is defused.
fn quoted(cell: &str) -> String {
    let safe = if cell.starts_with(['=', '+', '-', '@', '\t', '\r']) { format!("'{cell}") } else { cell.to_owned() };
    if safe.contains([',', '"', '\n', '\r']) { format!("\"{}\"", safe.replace('"', "\"\"")) } else { safe }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::mm;

    #[test]
    fn both_ways_round_add_up_to_the_whole_ring() {
        let walk = Walk::new(mm(-1200.0), Some(mm(5000.0)));
        assert_eq!((walk.forward, walk.backward), (Some(mm(3800.0)), Some(mm(1200.0))));
        let open = Walk::new(mm(300.0), None);
        assert_eq!((open.forward, open.backward), (Some(mm(300.0)), None));
        let front = Walk::new(mm(0.0), Some(mm(5000.0)));
        assert_eq!((front.forward, front.backward), (Some(Mm::ZERO), Some(Mm::ZERO)));
    }

    #[test]
    fn a_cell_cannot_break_its_row_or_become_a_sum() {
        assert_eq!(quoted("a,b"), "\"a,b\"");
        assert_eq!(quoted("say \"x\""), "\"say \"\"x\"\"\"");
        assert_eq!(quoted("=1+1"), "'=1+1");
    }
}
