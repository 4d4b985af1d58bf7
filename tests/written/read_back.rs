//! Readers for the cut files, written from the formats' own rules and not from the writers.

use std::path::Path;

use dxf::entities::EntityType;
use geo::{Area, Coord, LineString, MultiPolygon, Polygon};

pub type Ring = Vec<(f64, f64)>;

/// A cut file as a stranger's program sees it: sizes in mm, and for each patch its closed rings, y down.
#[derive(Debug)]
pub struct Sheet {
    pub width: f64,
    pub height: f64,
    pub patches: Vec<(String, Vec<Ring>)>,
}

/// Reads our SVG the strict way: anything beyond closed straight paths in absolute coordinates fails.
pub fn svg(text: &str) -> Sheet {
    let document = roxmltree::Document::parse(text).unwrap();
    let root = document.root_element();
    let millimetres =
        |name: &str| -> f64 { root.attribute(name).unwrap().strip_suffix("mm").unwrap().parse().unwrap() };
    let (width, height) = (millimetres("width"), millimetres("height"));
    assert_eq!(root.attribute("viewBox").unwrap(), format!("0 0 {width} {height}"));
    let mut patches = Vec::new();
    for node in root.children().filter(roxmltree::Node::is_element) {
        assert_eq!(node.tag_name().name(), "path", "only paths are cut");
        assert!(!node.has_children(), "a path holds nothing");
        for attribute in node.attributes() {
            assert!(["id", "d", "fill", "fill-rule"].contains(&attribute.name()), "attribute {}", attribute.name());
        }
        assert_eq!(node.attribute("fill-rule"), Some("evenodd"));
        patches.push((node.attribute("id").unwrap().to_owned(), rings(node.attribute("d").unwrap())));
    }
    let mut ids: Vec<&String> = patches.iter().map(|(id, _)| id).collect();
    ids.sort();
    ids.dedup();
    assert_eq!(ids.len(), patches.len(), "every id is its own");
    Sheet { width, height, patches }
}

/// `M x y L x y ... Z`, again and again.
fn rings(data: &str) -> Vec<Ring> {
    let mut rings = Vec::new();
    for ring in data.split_inclusive('Z') {
        let ring = ring.strip_suffix('Z').expect("every outline is closed").strip_prefix('M').expect("begins with M");
        let point = |text: &str| -> (f64, f64) {
            let (x, y) = text.split_once(' ').unwrap();
            (x.parse().unwrap(), y.parse().unwrap())
        };
        rings.push(ring.split('L').map(point).collect());
    }
    rings
}

/// Rings of a DXF file, turned y down; one nameless patch.
pub fn dxf(text: &str, height: f64) -> Vec<Ring> {
    let drawing = dxf::Drawing::load(&mut text.as_bytes()).unwrap();
    assert_eq!(drawing.header.default_drawing_units, dxf::enums::Units::Millimeters);
    drawing
        .entities()
        .map(|entity| {
            let EntityType::Polyline(line) = &entity.specific else { panic!("not a polyline: {entity:?}") };
            assert!(line.is_closed());
            line.vertices().map(|vertex| (vertex.location.x, height - vertex.location.y)).collect()
        })
        .collect()
}

/// Rings of a PDF page in mm, y down, through poppler's own reader; `None` where it is missing.
pub fn pdf(test: &str, bytes: &[u8], dir: &Path) -> Option<(f64, f64, Vec<Ring>)> {
    let (from, to) = (dir.join("sheet.pdf"), dir.join("sheet.svg"));
    std::fs::write(&from, bytes).unwrap();
    crate::run(test, "pdftocairo", &["-svg", "-noshrink", "-nocenter", from.to_str().unwrap(), to.to_str().unwrap()])?;
    let text = std::fs::read_to_string(to).unwrap();
    let document = roxmltree::Document::parse(&text).unwrap();
    let points_to_mm = 25.4 / 72.0;
    let root = document.root_element();
    let size = |name: &str| root.attribute(name).unwrap().trim_end_matches("pt").parse::<f64>().unwrap() * points_to_mm;
    let mut all = Vec::new();
    // What is only drawn on cloth is open: fold lines, clips, arrows.
    let closed = |node: &roxmltree::Node<'_, '_>| node.attribute("d").is_some_and(|data| data.contains('Z'));
    for node in document.descendants().filter(|node| node.has_tag_name("path")).filter(closed) {
        let matrix = node.attribute("transform").map_or([1.0, 0.0, 0.0, 1.0, 0.0, 0.0], matrix);
        for ring in cairo_rings(node.attribute("d").unwrap()) {
            let place = |(x, y): (f64, f64)| {
                let [a, b, c, d, e, f] = matrix;
                ((a * x + c * y + e) * points_to_mm, (b * x + d * y + f) * points_to_mm)
            };
            all.push(ring.into_iter().map(place).collect());
        }
    }
    Some((size("width"), size("height"), all))
}

fn matrix(text: &str) -> [f64; 6] {
    let inner = text.strip_prefix("matrix(").unwrap().strip_suffix(')').unwrap();
    let numbers: Vec<f64> = inner.split([',', ' ']).filter(|n| !n.is_empty()).map(|n| n.parse().unwrap()).collect();
    numbers.try_into().unwrap()
}

/// `M x y L x y ... Z M x y`: a last lone move is what that reader writes after a close.
fn cairo_rings(data: &str) -> Vec<Ring> {
    let mut rings: Vec<Ring> = Vec::new();
    let mut words = data.split_whitespace();
    while let Some(word) = words.next() {
        let mut point = || (words.next().unwrap().parse().unwrap(), words.next().unwrap().parse().unwrap());
        match word {
            "M" => rings.push(vec![point()]),
            "L" => {
                let to = point();
                rings.last_mut().unwrap().push(to);
            }
            "Z" => {}
            other => panic!("unexpected {other}"),
        }
    }
    rings.retain(|ring| ring.len() > 2);
    rings
}

/// A patch as areas of the reference library, holes by the even-odd rule.
pub fn area(rings: &[Ring]) -> MultiPolygon {
    let line = |ring: &Ring| LineString::from_iter(ring.iter().map(|(x, y)| Coord { x: *x, y: *y }));
    let polygons: Vec<Polygon> = rings.iter().map(|ring| Polygon::new(line(ring), vec![])).collect();
    geo::BooleanOps::boolean_op_with_fill_rule(
        &MultiPolygon::new(polygons),
        &MultiPolygon::new(vec![]),
        geo::OpType::Union,
        geo::bool_ops::FillRule::EvenOdd,
    )
}

/// Which way round an asymmetric shape is: its sign changes when the shape is mirrored and not when it is turned.
///
/// Of the complex moments c(p,q) of an area about its middle, c(3,0) turns three times and c(2,1) once with the shape, so
/// the angle of c(3,0) conj(c(2,1))^3 stays, and changes its sign with a mirror image; its sine is given, zero where a
/// moment is too small to have an angle.
pub fn handedness(rings: &[Ring]) -> f64 {
    let area = area(rings);
    let size = area.unsigned_area();
    let points = sample(&area);
    let count = points.len() as f64;
    let middle = points.iter().fold((0.0, 0.0), |m, p| (m.0 + p.0 / count, m.1 + p.1 / count));
    let scale = size.sqrt();
    let (mut c30, mut c21) = ((0.0, 0.0), (0.0, 0.0));
    for point in points {
        let z = ((point.0 - middle.0) / scale, (point.1 - middle.1) / scale);
        let z3 = times(times(z, z), z);
        let r2 = z.0 * z.0 + z.1 * z.1;
        c30 = (c30.0 + z3.0 / count, c30.1 + z3.1 / count);
        c21 = (c21.0 + r2 * z.0 / count, c21.1 + r2 * z.1 / count);
    }
    let conj = (c21.0, -c21.1);
    let (real, imaginary) = times(c30, times(times(conj, conj), conj));
    let steady = c30.0.hypot(c30.1) > 0.002 && c21.0.hypot(c21.1) > 0.002;
    if steady { imaginary / real.hypot(imaginary) } else { 0.0 }
}

const fn times(a: (f64, f64), b: (f64, f64)) -> (f64, f64) {
    (a.0 * b.0 - a.1 * b.1, a.0 * b.1 + a.1 * b.0)
}

/// Points of a fine grid that lie inside.
fn sample(area: &MultiPolygon) -> Vec<(f64, f64)> {
    use geo::{BoundingRect, Contains};
    let bounds = area.bounding_rect().unwrap();
    let steps = 60;
    let mut points = Vec::new();
    for i in 0..steps {
        for j in 0..steps {
            let x = bounds.min().x + bounds.width() * (f64::from(i) + 0.5) / f64::from(steps);
            let y = bounds.min().y + bounds.height() * (f64::from(j) + 0.5) / f64::from(steps);
            if area.contains(&geo::Point::new(x, y)) {
                points.push((x, y));
            }
        }
    }
    points
}
