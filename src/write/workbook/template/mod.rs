//! The placement template at true size: what it shows, its assembly sheet, and its pages.

mod draw;
mod fan;
mod master;
mod stretch;
#[cfg(test)]
mod tests;
mod tiles;

use stretch::{Rhythm, Stretch};
use tiles::Tiling;

use super::compose::{Before, Composer, Section};
use super::leaf::Leaf;
use crate::geometry::Affine;
use crate::place::BandSetting;
use crate::plan::Plan;
use crate::quantity::mm;
use crate::write::chalk;
use crate::write::drawing::{Drawing, Group, Mark};
use crate::write::figures::{both, counted};
use crate::write::style;
use crate::write::views::titled;

pub(crate) use master::section as master;

/// Most pages of a template that is moved along the hem: as many as one cares to glue together.
const EVEN_PAGES: usize = 8;
/// Most pages of a template that shows a whole side or band because no two places are alike.
const UNEVEN_PAGES: usize = 40;

/// What the template of one band shows.
struct Template<'a> {
    stretch: Stretch<'a>,
    marks: Vec<Mark>,
    tiling: Tiling,
    rhythm: Rhythm,
}

pub(crate) fn section(plan: &Plan) -> Section {
    let mut composer = Composer::new(
        &titled(plan, "Placement template"),
        "Motifs, hem and motif line at true size, right side up, to lay on the garment and mark through.",
    );
    if plan.hem.as_hung().is_some() {
        composer.paragraph(
            "The hem was measured again after hanging, and paper drawn to its draft would no longer fit it: mark from the \
             chalk list and the tick strip.",
        );
        return composer.finish();
    }
    let mut pages = Vec::new();
    for (k, band) in plan.setting.bands.iter().enumerate() {
        match template(plan, band) {
            Some(template) => {
                if k > 0 {
                    composer.turn();
                }
                assembly(&mut composer, &template);
                pages.extend(template.leaves());
            }
            None => composer.paragraph(&format!(
                "No two places of {} are alike, and the band is too long to print whole: use the chalk list and the tick \
                 strip.",
                band.name
            )),
        }
    }
    let mut section = composer.finish();
    section.leaves.extend(pages);
    section
}

/// As much as stays within the number of pages; `None` where nothing sensible does.
fn template<'a>(plan: &'a Plan, band: &'a BandSetting) -> Option<Template<'a>> {
    let rhythm = stretch::rhythm(plan, band);
    let all = band.placements.len();
    let made = |count: usize, most: usize| Template::new(Stretch::from_front(plan, band, count)?, rhythm, most);
    match rhythm {
        Rhythm::Even(period) | Rhythm::EachSide(period) => {
            // One more than whole rhythms, so that the last motif is laid on the mark of the next first one.
            let half = Stretch::left_half(band).max(period + 1).min(all);
            let counts = (1..=half.saturating_sub(1) / period).map(|k| k * period + 1);
            let most = counts.map_while(|count| made(count, EVEN_PAGES)).last();
            most.or_else(|| made((period + 1).min(all), UNEVEN_PAGES))
        }
        Rhythm::Halves => made(Stretch::left_half(band), UNEVEN_PAGES),
        Rhythm::Uneven => made(all, UNEVEN_PAGES),
    }
}

impl<'a> Template<'a> {
    fn new(stretch: Stretch<'a>, rhythm: Rhythm, most: usize) -> Option<Self> {
        if stretch.turns_too_far() {
            return None;
        }
        let tiling = fan::tiling(&stretch, most)?;
        Some(Self { marks: draw::draw(&stretch), stretch, tiling, rhythm })
    }

    fn says(&self) -> String {
        let ids: Vec<&str> = self.stretch.placements.iter().map(|placement| placement.id.as_str()).collect();
        format!("Template of {} with motifs {}.", self.stretch.band.name, ids.join(", "))
    }

    fn leaves(&self) -> Vec<Leaf> {
        let (name, says) = (format!("Template of {}", self.stretch.band.name), self.says());
        (0..self.tiling.len()).map(|k| self.tiling.leaf(&self.marks, k, &name, &says)).collect()
    }

    /// Ids of the first and the last motif shown.
    fn ends(&self) -> (&str, &str) {
        let id = |placement: Option<&'a crate::place::Placement>| placement.map_or("", |placement| &placement.id);
        (id(self.stretch.placements.first()), id(self.stretch.placements.last()))
    }

    fn shows(&self) -> String {
        let (first, last) = self.ends();
        let count = self.stretch.placements.len();
        // Which side is drawn depends on whether CF or CB lies in the middle of the band.
        let [shown, other] = [1.0, -1.0].map(|way| chalk::side(self.stretch.plan, mm(way)));
        match self.rhythm {
            Rhythm::Even(period) if count < self.stretch.band.placements.len() => {
                let again = match period {
                    1 => "Every repeat of this band is the same".to_owned(),
                    _ => format!("This band is the same again after every {period} motifs"),
                };
                format!(
                    "{again}, so the template shows {} only, {first} to {last}. Mark through it, move it along until its \
                     first motif lies on the mark of the last one, and go on to the end.",
                    counted(count, "motif", "motifs"),
                )
            }
            Rhythm::EachSide(period) if count < Stretch::left_half(self.stretch.band) => {
                let again = match period {
                    1 => format!("Every repeat on the wearer's {shown} is the same"),
                    _ => format!("The wearer's {shown} side is the same again after every {period} motifs"),
                };
                format!(
                    "{again}, so the template shows {} only, {first} to {last}. Mark through it, move it along until its \
                     first motif lies on the mark of the last one, and go on to the end of her {shown} side. Turn it over \
                     for her {other} side, which is its mirror image.",
                    counted(count, "motif", "motifs"),
                )
            }
            Rhythm::EachSide(_) => format!(
                "The template shows the wearer's whole {shown} side, {first} to {last}. Turn it over for her {other} side, \
                 which is its mirror image."
            ),
            Rhythm::Halves => {
                let outlines = match self.stretch.hands_mirrored() {
                    true => "outlines and all.",
                    false => "there, mark the middles and not the outlines of motifs that have a left and a right.",
                };
                format!(
                    "The hem curves differently from place to place, so the template shows the wearer's whole {shown} side, \
                     {first} to {last}. Turn it over for her {other} side, which is its mirror image: {outlines}"
                )
            }
            _ => format!("The template shows the whole band, {first} to {last}."),
        }
    }
}

fn assembly(composer: &mut Composer, template: &Template<'_>) {
    composer.heading(&format!("{}: how the sheets go together", template.stretch.band.name));
    composer.paragraph(&template.shows());
    let mut steps = vec!["Check the 100 mm line on every sheet before you cut.".to_owned()];
    if !template.tiling.joints.is_empty() {
        steps.push(
            "Cut each sheet along its dashed edges and lay that edge on the fine line of its neighbour, so that the half \
             diamonds with the same letter become whole ones. Glue on the hatched strip. Where the hem curves, the sheets \
             fan out: that is right."
                .to_owned(),
        );
    }
    let band = template.stretch.band;
    let laid = match template.stretch.shows_hem() {
        true => "Lay the hem line of the paper on the finished hem and a numbered notch on its chalk mark".to_owned(),
        false => format!(
            "Chalk the motif line {} above the hem, lay that of the paper on it and each cross on its chalk mark",
            both(band.height)
        ),
    };
    steps.push(format!("{laid}. Mark through the cross in the middle of each motif and along the line above it."));
    composer.list(Before::Number, &steps);
    composer.space(2.0);
    let overview = overview(template, composer.width(), composer.room().max(60.0));
    composer.plain_figure(overview);
}

/// The drawing made small with the edges and numbers of its sheets.
fn overview(template: &Template<'_>, width: f64, height: f64) -> Drawing {
    let Template { stretch, marks, tiling, .. } = template;
    let all = tiling.extent(stretch.upright);
    let scale = ((width - 4.0) / all.width()).min((height - 4.0) / all.height()).min(0.5);
    let place = Affine::translate((2.0, 2.0)) * Affine::scale(scale) * Affine::translate(-all.origin().to_vec2());
    let place = place * stretch.upright;
    let says = format!("How {} go together.", counted(tiling.len(), "sheet", "sheets"));
    let mut paper = Drawing::new(all.width() * scale + 4.0, all.height() * scale + 4.0, says);
    // Words are left out: they would be too small to read.
    let marks = marks.iter().filter_map(|mark| lightened(mark, scale)).collect();
    paper.marks.push(Mark::Group(Group { place, clip: None, marks }));
    tiling.overview(&mut paper, place);
    paper
}

/// A shape whose lines keep a fine weight when it is made small.
fn lightened(mark: &Mark, scale: f64) -> Option<Mark> {
    let Mark::Shape(shape) = mark else { return None };
    let mut shape = shape.clone();
    if let Some(pen) = &mut shape.pen {
        pen.width = style::HAIRLINE / scale;
        pen.dash = pen.dash.map(|dash| dash.map(|length| length / scale));
    }
    Some(Mark::Shape(shape))
}
