//! A plan made by hand for the tests of this stage: thirty three-colour flowers on a full circle (S1's skirt), and a
//! leaf band in both hands on request.

use std::collections::BTreeMap;
use std::f64::consts::TAU;

use crate::art::{Colour, Layer, Motif};
use crate::budget::Budget;
use crate::film::{self, CutWish, Film, LayerWish, Method, Preparing, Spares};
use crate::finding::{Assumption, Finding, Place, Severity};
use crate::geometry::{Outline, Point, Ring, clearance::Measurable};
use crate::hem;
use crate::job::{self, Job};
use crate::nest::{self, Effort, Stock, Task, Turning};
use crate::place::{BandSetting, ClearGap, Hand, Lands, Placement, Setting};
use crate::plan::{FilmSheets, Plan};
use crate::press::{Closure, HeatRisk, Outcome, Parts, PressKind, PressPlan};
use crate::quantity::{Celsius, Mm, Seconds, mm};

const RED: Colour = Colour { red: 0xb8, green: 0x2e, blue: 0x3a };
const YELLOW: Colour = Colour { red: 0xe8, green: 0xb9, blue: 0x3c };
const GREEN: Colour = Colour { red: 0x4a, green: 0x7c, blue: 0x4e };

/// S1's skirt: a full circle, waist 720, length 700, with side seams on the quarters.
pub(crate) const FULL_CIRCLE: &str = "ends = 'closed'
seams = ['side left', 'side right']
seams_clear = '12 mm'
[hem.circle]
fraction = 'full'
waist = '720 mm'
length = '700 mm'";

/// S4's cape: half a circle with open fronts.
pub(crate) const CAPE: &str = "ends = 'open'
ends_clear = '30 mm'
[hem.circle]
fraction = 'half'
waist = '400 mm'
length = '800 mm'";

/// A straight band 2.4 m long.
pub(crate) const STRAIGHT: &str = "ends = 'open'
ends_clear = '10 mm'
[hem.straight]
length = '2400 mm'";

/// The job round a hem.
fn job(hem: &str) -> Job {
    let text = format!(
        "[garment]
name = 'summer skirt <test> & more'
[hem]
{hem}
[motif.flower]
art = 'flower.svg'
width = '110 mm'
[[band]]
height = '75 mm'
motifs = ['flower']
gap = '40 mm'
[[zone]]
name = 'stiff braid'
material = 'nylon'
from = '0 mm'
to = '20 mm'
state = 'in place'
"
    );
    job::read(&text).unwrap_or_else(|error| panic!("{error:?}"))
}

fn ring(points: u32, radius: impl Fn(f64) -> f64, at: (f64, f64)) -> Ring {
    let point = |k: u32| {
        let angle = TAU * f64::from(k) / f64::from(points);
        Point::new(at.0 + radius(angle) * angle.sin(), at.1 - radius(angle) * angle.cos())
    };
    Ring::new((0..points).map(point)).unwrap()
}

/// Five petals 110 across, a heart, and two leaves below on one side only, so that it has a hand.
pub(crate) fn flower() -> Motif {
    let petals = ring(200, |a| 34.0 + 15.0 * (5.0 * a).cos(), (0.0, -6.0));
    let heart = ring(60, |_| 12.0, (0.0, -6.0));
    let leaf = |at: (f64, f64), size: f64| ring(60, move |a| size * (0.45 + 0.55 * a.sin().abs()), at);
    let leaves = [leaf((34.0, 40.0), 21.0), leaf((-20.0, 44.0), 11.0)].map(|ring| Outline::new(ring, vec![]));
    let layer = |colour, outlines| Layer { colour, outlines };
    Motif {
        name: "flower".to_owned(),
        layers: vec![
            layer(GREEN, leaves.to_vec()),
            layer(RED, vec![Outline::new(petals, vec![ring(40, |_| 9.0, (0.0, -6.0))])]),
            layer(YELLOW, vec![Outline::new(heart, vec![])]),
        ],
        width: mm(110.0),
        height: mm(110.0),
    }
}

fn film(key: &str, colour_name: &str) -> Film {
    let stock = Stock {
        name: "300 × 500 mm sheet".to_owned(),
        width: mm(300.0),
        height: Some(mm(500.0)),
        price: Some(6.5),
        available: None,
    };
    Film {
        key: key.to_owned(),
        class: "smooth".to_owned(),
        colour_name: colour_name.to_owned(),
        stock: vec![stock],
        margin: mm(5.0),
        gap: mm(4.0),
        turning: Turning::Free,
        use_holes: false,
    }
}

/// The whole plan on a hem; every second flower mirrored.
pub(crate) fn plan(hem: &str, count: u32) -> Plan {
    let job = job(hem);
    let hem = hem::shape(&job.hem).unwrap();
    let motif = flower();
    let films = vec![film("red", "poppy"), film("yellow", "corn"), film("green", "leaf")];
    let motifs = BTreeMap::from([(motif.name.clone(), motif)]);
    let setting = setting(&hem, &motifs, count);
    let wishes = [RED, YELLOW, GREEN].map(|colour| {
        let film = [("red", RED), ("yellow", YELLOW), ("green", GREEN)].iter().find(|f| f.1 == colour).unwrap().0;
        LayerWish { colour, film: film.to_owned(), method: Method::Film }
    });
    let layers = motifs["flower"].layers.iter().map(|l| wishes.iter().find(|w| w.colour == l.colour).unwrap().clone());
    let cuts = [CutWish {
        motif: "flower".to_owned(),
        layers: layers.collect(),
        spares: Spares::Each(1),
        tests: 1,
        preparing: Preparing::default(),
    }];
    let prepared = film::prepare(&motifs, &setting, &cuts, &films).unwrap();
    let sheets = sheets(&films, &prepared.pieces);
    let press = press(&hem, &setting);
    let risks = risks(&press);
    Plan {
        sizes: Vec::new(),
        job,
        motifs,
        hem,
        setting,
        fabric: film::fabric_needs(&prepared.pieces, &films),
        shows: crate::plan::Shows::One,
        pieces: prepared.pieces,
        layers: prepared.layers,
        films,
        sheets,
        at_press: crate::plan::AtPress::of(&[&press]),
        press,
        risks,
        trims: vec![],
        budget: Budget::default(),
        findings: findings(),
        assumptions: vec![Assumption {
            about: "spare motifs".to_owned(),
            taken: "one for every twenty, common practice".to_owned(),
            key: "motif.flower.spares".to_owned(),
        }],
    }
}

fn setting(hem: &hem::Hem, motifs: &BTreeMap<String, Motif>, count: u32) -> Setting {
    let line = hem.line_at(mm(75.0)).unwrap();
    let (start, end) = line.span();
    let closed = hem.is_closed();
    let run = end - start - if closed { Mm::ZERO } else { mm(170.0) };
    let repeat = run / f64::from(if closed { count } else { count - 1 });
    let placements: Vec<Placement> = (0..count)
        .map(|k| {
            let (s_line, id) = if closed {
                let step = i64::from(k) - i64::from(count - 1) / 2;
                let side = if step > 0 { "L" } else { "R" };
                (repeat * step as f64, if step == 0 { "CF".to_owned() } else { format!("{side}{}", step.abs()) })
            } else {
                (start + mm(85.0) + repeat * f64::from(k), format!("M{}", k + 1))
            };
            let frame = line.frame_at(s_line);
            Placement {
                id,
                motif: "flower".to_owned(),
                hand: if k % 2 == 0 { Hand::AsDrawn } else { Hand::Mirrored },
                scale: 1.0,
                s_line,
                s_hem: line.to_hem(s_line),
                height: mm(75.0),
                at: frame.at,
                turn: frame.turn(),
            }
        })
        .collect();
    let outlines = |p: &Placement| {
        let place = super::views::motif_paint::to_development(p);
        let all: Vec<Outline> =
            motifs["flower"].layers.iter().flat_map(|l| &l.outlines).map(|o| o.transformed(place)).collect();
        Measurable::new(&all).unwrap()
    };
    let found = outlines(&placements[3]).clearance_to(&outlines(&placements[4]));
    Setting {
        findings: vec![],
        bands: vec![BandSetting {
            name: "flowers".to_owned(),
            height: mm(75.0),
            line: line.length(),
            count,
            repeat,
            gap_along: repeat - mm(110.0),
            clear_gap: Some(ClearGap {
                least: mm(found.distance),
                between: (placements[3].id.clone(), placements[4].id.clone()),
                at: (found.from, found.to),
            }),
            on_cf: Lands::Motif,
            on_cb: Lands::Gap,
            placements,
            in_corners: 0,
            clashes: vec![],
            remedies: Vec::new(),
            reasons: vec![format!("{count} is the most that leaves 40 mm along the motif line.")],
        }],
    }
}

fn sheets(films: &[Film], pieces: &film::Pieces) -> Vec<FilmSheets> {
    let of_film = |(index, film): (usize, &Film)| {
        let items: Vec<usize> = (0..pieces.kinds.len()).filter(|k| pieces.kinds[*k].film == film.key).collect();
        let task = Task {
            items: items.iter().map(|k| nest_item(&pieces.kinds[*k])).collect(),
            stock: film.stock.clone(),
            margin: film.margin,
            gap: film.gap,
            turning: film.turning,
            effort: Effort::Quick,
            seed: 1,
        };
        let layout = nest::lay(&task, &nest::Silent).unwrap();
        FilmSheets { film: index, items, task, layout }
    };
    films.iter().enumerate().map(of_film).collect()
}

fn nest_item(kind: &film::PieceKind) -> nest::Item {
    nest::Item {
        name: kind.name.clone(),
        patch: kind.patch.clone(),
        holes: vec![],
        quantity: kind.quantity(),
        on_first_sheet: kind.tests,
        motif: kind.motif.clone(),
        spares: kind.spares,
    }
}

fn press(hem: &hem::Hem, setting: &Setting) -> PressPlan {
    let line = hem.line_at(mm(75.0)).unwrap();
    let closures: Vec<Closure> = setting.bands[0]
        .placements
        .chunks(2)
        .enumerate()
        .map(|(k, pair)| {
            let s_line = (pair[0].s_line + pair[pair.len() - 1].s_line) / 2.0;
            let frame = line.frame_at(s_line);
            let plate = ring(4, |_| 240.0, (frame.at.x, frame.at.y));
            Closure {
                number: u32::try_from(k + 1).unwrap(),
                place: u32::try_from(k + 1).unwrap(),
                layer: 1,
                kind: PressKind::Full,
                placements: pair.iter().map(|p| p.id.clone()).collect(),
                films: vec![],
                part: None,
                at: frame.at,
                s_hem: line.to_hem(s_line),
                height: mm(75.0),
                turn: frame.turn(),
                footprint: plate,
                temperature: Celsius::new(150.0),
                parts: Parts { dwell: Seconds::new(15.0), handling: Seconds::new(45.0), ..Parts::default() },
                seconds: Seconds::new(60.0),
            }
        })
        .collect();
    PressPlan {
        total: closures.iter().map(|closure| closure.seconds).sum(),
        closures,
        order_of_work: [
            "Sew the skirt's seams.",
            "Hang it overnight, then level the hem.",
            "Mark from the chalk list.",
        ]
        .map(str::to_owned)
        .to_vec(),
        checklist: ["Plate at 150 °C, timer at 15 s.", "Cover sheet on, carrier upwards."].map(str::to_owned).to_vec(),
        ..PressPlan::default()
    }
}

fn risks(press: &PressPlan) -> Vec<HeatRisk> {
    vec![HeatRisk {
        outcome: Outcome::MoveFirst,
        material: "braid-nylon".to_owned(),
        layer: "stiff braid".to_owned(),
        zone: Some("stiff braid".to_owned()),
        rules: vec!["over-limit-movable"],
        limit: Celsius::new(120.0),
        press: Celsius::new(150.0),
        closures: press.closures.iter().map(|closure| closure.number).collect(),
        say: "The stiff braid lies under the plate at every closure and would soften.".to_owned(),
        advice: "Sew the braid on after pressing.".to_owned(),
        source: "S07".to_owned(),
    }]
}

fn findings() -> Vec<Finding> {
    vec![Finding {
        severity: Severity::FixedForYou,
        kind: "open-outline",
        place: Some(Place {
            drawing: "flower.svg".to_owned(),
            element: "petal <3>".to_owned(),
            line: Some(12),
            at: None,
        }),
        measure: Some(mm(0.4)),
        say: "Petal 3 has a 0.4 mm opening at the tip.".to_owned(),
        advice: "Closed with a straight join; check the drawing.".to_owned(),
    }]
}
