//! Cut files: closed, inside the margin, apart, reversed where they must be, and the same in every format.

use geo::{Distance, Euclidean};
use hemwright::film::CutFrom;
use hemwright::place::Hand;

use crate::read_back::{self, Ring, area, handedness};
use crate::{Case, cases};

/// What rounding to a micrometre may move on either side.
const ROUNDING: f64 = 0.002;

/// Each sheet of a case: its SVG read back, margin and gap of its film.
fn sheets(case: &Case) -> Vec<(String, read_back::Sheet, f64, f64)> {
    case.named("cut/", ".svg")
        .into_iter()
        .map(|name| {
            let sheet = read_back::svg(case.text(name));
            let film = case.plan.films.iter().find(|film| {
                name.starts_with(&format!("cut/{}-", film.key)) || name.starts_with(&format!("cut/{}", film.key))
            });
            let film = film.unwrap_or_else(|| panic!("{name} names no film"));
            (name.to_owned(), sheet, film.margin.get(), film.gap.get())
        })
        .collect()
}

#[test]
fn nothing_is_cut_outside_the_margin() {
    for case in cases() {
        for (name, sheet, margin, _) in sheets(case) {
            let (low, right, bottom) =
                (margin - ROUNDING, sheet.width - margin + ROUNDING, sheet.height - margin + ROUNDING);
            for (x, y) in sheet.patches.iter().flat_map(|(_, rings)| rings).flatten() {
                assert!(*x >= low && *x <= right && *y >= low && *y <= bottom, "{name}: {x}, {y} leaves the margin");
            }
        }
    }
}

#[test]
fn no_two_patches_come_nearer_than_the_gap() {
    for case in cases() {
        for (name, sheet, _, gap) in sheets(case) {
            let areas: Vec<_> = sheet.patches.iter().map(|(id, rings)| (id, area(rings))).collect();
            for (k, (id, one)) in areas.iter().enumerate() {
                for (other_id, other) in &areas[k + 1..] {
                    let apart = Euclidean.distance(one, other);
                    assert!(apart >= gap - 2.0 * ROUNDING, "{name}: {id} and {other_id} are {apart} apart, not {gap}");
                }
            }
        }
    }
}

#[test]
fn as_many_pieces_are_written_as_the_plan_needs() {
    for case in cases() {
        for kind in &case.plan.pieces.kinds {
            let mut cut = 0;
            for (name, sheet, ..) in sheets(case) {
                let times: u32 =
                    name.split("-cut-").nth(1).map_or(1, |end| end.split('-').next().unwrap().parse().unwrap());
                let of_kind = |id: &str| id.rsplit_once('-').unwrap().0.trim_start_matches("piece-") == kind.name;
                cut += times * sheet.patches.iter().filter(|(id, _)| of_kind(id)).count() as u32;
            }
            assert_eq!(cut, kind.needed + kind.spares + kind.tests, "{}: {}", case.name, kind.name);
        }
    }
}

/// Table "mirror or not": film and traced fusible web are cut from the back, so what is cut is the mirror image of what
/// is seen, whichever way the piece is turned on its sheet.
#[test]
fn what_is_cut_from_the_back_is_the_mirror_image_of_what_is_seen() {
    let mut checked = 0;
    for case in cases() {
        for (_, sheet, ..) in sheets(case) {
            for (id, cut) in &sheet.patches {
                let name = id.rsplit_once('-').unwrap().0;
                let kind = case.plan.pieces.kinds.iter().find(|kind| kind.name == name).unwrap();
                let layer = &case.plan.motifs[&kind.motif].layers[kind.layer];
                let seen: Vec<Ring> = layer
                    .outlines
                    .iter()
                    .flat_map(hemwright::geometry::Outline::rings)
                    .map(|ring| ring.points().iter().map(|p| (p.x, p.y)).collect())
                    .collect();
                let (drawn, cut) = (handedness(&seen), handedness(cut));
                if drawn.abs() < 0.2 {
                    continue;
                }
                let mut worn = drawn;
                if kind.hand == Hand::Mirrored {
                    worn = -worn;
                }
                let expected = if kind.method.cut_from() == CutFrom::Back { -worn } else { worn };
                assert!(
                    cut * expected > 0.0,
                    "{}: {id} is the wrong way round ({cut:e} against {expected:e})",
                    case.name
                );
                checked += 1;
            }
        }
    }
    assert!(checked > 20, "only {checked} asymmetric pieces were found");
}

#[test]
fn every_format_holds_the_same_geometry() {
    let dir = tempfile::tempdir().unwrap();
    for case in cases() {
        for (name, sheet, ..) in sheets(case) {
            let drawn: Vec<&Ring> = sheet.patches.iter().flat_map(|(_, rings)| rings).collect();
            let stem = name.strip_suffix(".svg").unwrap();
            let dxf = read_back::dxf(case.text(&format!("{stem}.dxf")), sheet.height);
            same(&name, &drawn, &dxf);
            let test = "every_format_holds_the_same_geometry";
            if let Some((width, height, pdf)) = read_back::pdf(test, case.bytes(&format!("{stem}.pdf")), dir.path()) {
                assert!((width - sheet.width).abs() < 0.01 && (height - sheet.height).abs() < 0.01, "{name}: page");
                same(&name, &drawn, &pdf);
            }
        }
    }
}

/// Every point within a hundredth of a millimetre.
fn same(name: &str, a: &[&Ring], b: &[Ring]) {
    assert_eq!(a.len(), b.len(), "{name}: outlines");
    for (a, b) in a.iter().zip(b) {
        assert_eq!(a.len(), b.len(), "{name}: points of an outline");
        for (p, q) in a.iter().zip(b) {
            assert!((p.0 - q.0).abs() < 0.01 && (p.1 - q.1).abs() < 0.01, "{name}: {p:?} against {q:?}");
        }
    }
}

#[test]
fn the_helpers_page_gives_the_size_a_stranger_reads_back() {
    for case in cases() {
        let page = case.text("cut/do-this-first.html");
        for (name, sheet, ..) in sheets(case) {
            let all: Vec<(f64, f64)> = sheet.patches.iter().flat_map(|(_, rings)| rings).flatten().copied().collect();
            let extent = |of: fn(&(f64, f64)) -> f64| {
                let values: Vec<f64> = all.iter().map(of).collect();
                values.iter().copied().fold(f64::MIN, f64::max) - values.iter().copied().fold(f64::MAX, f64::min)
            };
            let size = format!("{:.1} × {:.1} mm", extent(|p| p.0), extent(|p| p.1));
            let row =
                page.split("<tr>").find(|row| row.contains(name.trim_start_matches("cut/").trim_end_matches(".svg")));
            assert!(row.unwrap().contains(&size), "{name}: {size} is not on the page");
        }
        let wanted = if case.plan.pieces.kinds.iter().all(|kind| kind.method.cut_from() == CutFrom::Back) {
            "Already reversed: do not mirror"
        } else {
            "do not mirror"
        };
        assert!(page.contains(wanted));
        for figure in ["75 %", "93.75 %", "133.33 %"] {
            assert!(page.contains(figure), "{figure} is missing");
        }
    }
}
