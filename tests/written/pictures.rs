//! Pictures: opaque, at their true size, and not empty.

use geo::{Area, BooleanOps, LineString, Polygon};
use hemwright::geometry::{Outline, Ring};

use crate::cases;

#[test]
fn every_picture_says_its_true_size_and_shows_something() {
    for case in cases() {
        let names = case.named("pictures/", ".png");
        assert!(names.len() >= 3, "{names:?}");
        for name in names {
            let mut reader = png::Decoder::new(std::io::Cursor::new(case.bytes(name))).read_info().unwrap();
            let dims = reader.info().pixel_dims.expect("dots per metre are given");
            assert_eq!((dims.xppu, dims.yppu), (5906, 5906), "{name}: 150 dots per inch");
            assert_eq!(reader.info().color_type, png::ColorType::Rgb, "{name}: opaque");
            let width = f64::from(reader.info().width) / 150.0 * 25.4;
            assert!((width - 186.0).abs() < 0.5, "{name}: {width} mm wide");
            let mut pixels = vec![0; reader.output_buffer_size().unwrap()];
            reader.next_frame(&mut pixels).unwrap();
            let dark = pixels.chunks_exact(3).filter(|p| p.iter().all(|v| *v < 120)).count();
            assert!(dark > 2000, "{name}: hardly a mark on it");
            assert_eq!(edge_ink(&pixels, reader.info().width as usize), 0, "{name}: something runs off the edge");
        }
    }
}

/// Dark pixels on the four edges.
fn edge_ink(pixels: &[u8], width: usize) -> usize {
    let rows = pixels.len() / 3 / width;
    let dark = |x: usize, y: usize| pixels[(y * width + x) * 3..][..3].iter().any(|v| *v < 200);
    let sides = (0..rows).flat_map(|y| [(0, y), (width - 1, y)]);
    let ends = (0..width).flat_map(|x| [(x, 0), (x, rows - 1)]);
    sides.chain(ends).filter(|(x, y)| dark(*x, *y)).count()
}

/// Laid flat, one turn of a ring may pass over another; what is drawn beside the plate must be what lies beside it.
#[test]
fn no_motif_beside_the_plate_is_drawn_over_what_is_pressed() {
    for case in cases() {
        for kind in &case.plan.press.map.kinds {
            for (pressed, beside) in kind.top.pressed.iter().flat_map(|a| kind.top.beside.iter().map(move |b| (a, b))) {
                let common = polygon(pressed).intersection(&polygon(beside)).unsigned_area();
                assert!(common < 1e-6, "{}: {common} mm2 at closures {:?}", case.name, kind.closures);
            }
        }
    }
}

fn polygon(outline: &Outline) -> Polygon {
    let line = |ring: &Ring| LineString::from_iter(ring.points().iter().map(|point| (point.x, point.y)));
    Polygon::new(line(outline.outer()), outline.holes().iter().map(line).collect())
}
