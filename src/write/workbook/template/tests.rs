//! The printed template against the drawing itself: pages rasterised by one program, the SVG by another, joined and compared
//! dot by dot.

use std::collections::BTreeMap;

use resvg::{tiny_skia, usvg};

use super::super::leaf::Leaf;
use super::super::tests::{pages, run};
use crate::geometry::{Affine, Point, Rect};
use crate::nest::Silent;
use crate::place::Placement;
use crate::plan::{self, Plan};
use crate::write::style;
use crate::{job, write::drawing::pdf::Part};

const JOB: &str = include_str!("../../../../tests/golden/full-circle/job.toml");
const FLOWER: &str = include_str!("../../../../tests/golden/full-circle/flower.svg");

/// Dots per inch of the printed pages: six to the millimetre.
const PER_INCH: f64 = 152.4;
/// Dots per millimetre of the drawing.
const FINE: f64 = 10.0;
/// Farthest that an edge may be off on paper, mm: a dot and a half of a page.
const EDGE: f64 = 0.25;

fn plan() -> Plan {
    let drawings = BTreeMap::from([("flower.svg".to_owned(), FLOWER.to_owned())]);
    plan::make(&job::read(JOB).unwrap(), &drawings, &Silent).unwrap()
}

/// The drawing in its own colours, `width` mm wide from edge to edge of its shapes, its middle the origin.
struct Drawn {
    dots: tiny_skia::Pixmap,
}

impl Drawn {
    fn new(width: f64) -> Self {
        let tree = usvg::Tree::from_str(FLOWER, &usvg::Options::default()).unwrap();
        let shapes = tree.root().abs_bounding_box();
        let scale = width / f64::from(shapes.width()) * FINE;
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a picture's size in dots")]
        let side = (width * 1.2 * FINE) as u32;
        let mut dots = tiny_skia::Pixmap::new(side, side).unwrap();
        #[expect(clippy::cast_possible_truncation, reason = "the rasteriser counts in f32")]
        let [scale, x, y] = [
            scale,
            f64::from(shapes.left() + shapes.width() / 2.0) * scale,
            f64::from(shapes.top() + shapes.height() / 2.0) * scale,
        ]
        .map(|value| value as f32);
        #[expect(clippy::cast_possible_truncation, reason = "the rasteriser counts in f32")]
        let half = (f64::from(side) / 2.0) as f32;
        resvg::render(
            &tree,
            tiny_skia::Transform::from_row(scale, 0.0, 0.0, scale, half - x, half - y),
            &mut dots.as_mut(),
        );
        Self { dots }
    }

    /// The colour at a place of the motif; `None` outside its shapes.
    fn at(&self, place: Point) -> Option<[u8; 3]> {
        let half = f64::from(self.dots.width()) / 2.0;
        let (x, y) = (place.x * FINE + half, place.y * FINE + half);
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a place in a picture")]
        let dot = (x >= 0.0 && y >= 0.0).then(|| self.dots.pixel(x as u32, y as u32)).flatten()?;
        (dot.alpha() > 127).then(|| [dot.red(), dot.green(), dot.blue()])
    }

    /// The colour when it is the same at a place and all round it.
    fn plain_at(&self, place: Point) -> Option<[u8; 3]> {
        let own = self.at(place)?;
        let near = |k: u32| self.at(place + kurbo::Vec2::from_angle(f64::from(k) * 0.785) * EDGE) == Some(own);
        (0..8).all(near).then_some(own)
    }

    fn is_near(&self, place: Point) -> bool {
        self.at(place).is_some()
            || (0..8).any(|k| self.at(place + kurbo::Vec2::from_angle(f64::from(k) * 0.785) * EDGE).is_some())
    }
}

/// A page as printed, and where it shows what.
struct Printed {
    width: usize,
    dots: Vec<u8>,
    /// From the flat development to the paper, mm.
    place: Affine,
    window: Rect,
}

impl Printed {
    fn of(file: &[u8], page: usize, leaf: &Leaf, plan: &Plan) -> Option<Self> {
        let (number, rate) = ((page + 1).to_string(), PER_INCH.to_string());
        let bytes = run("pdftoppm", &["-r", &rate, "-f", &number, "-l", &number, "-"], file)?;
        let mut fields = bytes.splitn(4, u8::is_ascii_whitespace);
        assert_eq!(fields.next(), Some(&b"P6"[..]), "page {page}");
        let mut number = || std::str::from_utf8(fields.next().unwrap()).unwrap().parse::<usize>().unwrap();
        let (width, height) = (number(), number());
        let dots = bytes[bytes.len() - width * height * 3..].to_vec();
        let (place, window) = leaf.shows.unwrap();
        let corner = Affine::translate(leaf.way.corner(plan.job.paper));
        Some(Self { width, dots, place: corner * place, window: corner.transform_rect_bbox(window) })
    }

    /// The colour printed at a place of the development, where this page shows it.
    fn at(&self, place: Point) -> Option<[u8; 3]> {
        let on_paper = self.place * place;
        self.window.contains(on_paper).then(|| self.dot(on_paper))
    }

    fn dot(&self, on_paper: Point) -> [u8; 3] {
        let rate = PER_INCH / 25.4;
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a place on a page")]
        let (x, y) = ((on_paper.x * rate) as usize, (on_paper.y * rate) as usize);
        let start = (y * self.width + x) * 3;
        [self.dots[start], self.dots[start + 1], self.dots[start + 2]]
    }
}

fn tint(colour: [u8; 3]) -> [u8; 3] {
    let [red, green, blue] = colour;
    let pale = super::draw::pale(style::Ink { red, green, blue });
    [pale.red, pale.green, pale.blue]
}

fn alike(a: [u8; 3], b: [u8; 3]) -> bool {
    a.into_iter().zip(b).all(|(a, b)| a.abs_diff(b) <= 3)
}

/// Ink of the lines that are drawn over the motifs: dark, or not of a tint.
const fn is_line([red, green, blue]: [u8; 3]) -> bool {
    red < 215 && green < 215 && blue < 215
}

#[test]
fn the_sheets_join_to_the_outlines_of_the_drawing_itself() {
    let plan = plan();
    let leaves: Vec<Leaf> = super::section(&plan).leaves.into_iter().filter(|leaf| leaf.shows.is_some()).collect();
    assert!(leaves.len() >= 2, "{} sheets", leaves.len());
    let shown = leaves[0].parts.iter().find_map(|part| match part {
        Part::Figure { says, .. } => Some(says.clone()),
        _ => None,
    });
    let ids = shown.unwrap();
    let ids: Vec<&str> = ids.split("with motifs ").nth(1).unwrap().split('.').next().unwrap().split(", ").collect();
    let placements = &plan.setting.bands[0].placements;
    let placements: Vec<&Placement> = placements.iter().filter(|one| ids.contains(&one.id.as_str())).collect();
    let file = pages(leaves.clone());
    let mut printed = Vec::new();
    for (k, leaf) in leaves.iter().enumerate() {
        let Some(page) = Printed::of(&file, k, leaf, &plan) else { return };
        printed.push(page);
    }
    let drawn = Drawn::new(90.0);
    everything_drawn_is_printed(&drawn, &printed, &placements);
    nothing_else_is_tinted(&drawn, &printed, &placements);
}

/// Every dot well inside a colour has the tint of that colour, or a line over it, on some page.
fn everything_drawn_is_printed(drawn: &Drawn, printed: &[Printed], placements: &[&Placement]) {
    let (mut all, mut tinted, mut missing) = (0_u32, 0_u32, 0_u32);
    for placement in placements {
        for (i, j) in (0..300).flat_map(|i| (0..300).map(move |j| (i, j))) {
            let own = Point::new(f64::from(i) * 0.31 - 46.0, f64::from(j) * 0.31 - 46.0);
            let Some(colour) = drawn.plain_at(own) else { continue };
            let at = placement.transform() * own;
            let wanted = tint(colour);
            let shown = |right: &dyn Fn([u8; 3]) -> bool| printed.iter().filter_map(|page| page.at(at)).any(right);
            all += 1;
            if shown(&|dot| alike(dot, wanted)) {
                tinted += 1;
            } else if !shown(&is_line) {
                missing += 1;
            }
        }
    }
    let motifs = u32::try_from(placements.len()).unwrap();
    assert!(all > 15_000 * motifs, "{all} dots of {motifs} motifs");
    assert!(tinted * 100 >= all * 95, "{tinted} of {all} dots have their tint");
    // A match mark may cover a little of a motif.
    assert!(missing * 1000 <= all * 3, "{missing} of {all} dots have neither tint nor line");
}

/// No page has a motif's tint where the drawing has no motif.
fn nothing_else_is_tinted(drawn: &Drawn, printed: &[Printed], placements: &[&Placement]) {
    let tints = [[0xb8, 0x2e, 0x3a], [0xe8, 0xb9, 0x3c], [0x4a, 0x7c, 0x4e]].map(tint);
    let backs: Vec<Affine> = placements.iter().map(|placement| placement.transform().inverse()).collect();
    let (mut tinted, mut outside) = (0_u32, 0_u32);
    for page in printed {
        let (to_flat, window) = (page.place.inverse(), page.window);
        let (columns, rows) = ((window.width() * 3.0).floor(), (window.height() * 3.0).floor());
        let mut k = 0.0;
        while k < columns * rows {
            let on_paper = window.origin() + kurbo::Vec2::new((k % columns) / 3.0, (k / columns).floor() / 3.0);
            k += 1.0;
            if !tints.iter().any(|wanted| alike(page.dot(on_paper), *wanted)) {
                continue;
            }
            tinted += 1;
            let flat = to_flat * on_paper;
            outside += u32::from(!backs.iter().any(|back| drawn.is_near(*back * flat)));
        }
    }
    assert!(tinted > 20_000, "{tinted}");
    assert!(outside * 1000 <= tinted, "{outside} of {tinted} tinted dots lie outside the drawing");
}
