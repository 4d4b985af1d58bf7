//! Straight-sided cloths: sides, corners, and the motifs that stand in them.

use super::*;
use hemwright::hem::HemError;
use hemwright::place::{CornerWish, Lands};

fn shawl() -> Hem {
    hem(Measurements::Rectangle { width: mm(1200.0), depth: mm(1200.0) }, Ends::Closed, vec![])
}

fn bordered(spacing: Spacing) -> BandWish {
    let corner = CornerWish { motif: "rose".to_owned(), occupies: Some(mm(80.0)) };
    let rhythm = Rhythm { corner: Some(corner), ..Rhythm::default() };
    BandWish { on_cf: Anchor::Best, rhythm, ..band("leaf", 60.0, spacing) }
}

/// Worked by hand: a square of 1200, line 60 in; corner motifs take 80 of each side, motif 70, gap 35 also beside corners.
#[test]
fn a_square_shawl_takes_eight_on_each_side_and_four_in_the_corners() {
    let hem = shawl();
    let line = hem.line_at(mm(60.0)).unwrap();
    near(hem.length(), 4800.0);
    near(line.length(), 4.0 * 1080.0);
    assert!((hem.sweep().get() - TAU).abs() < 1e-12);
    let motifs = [disc("leaf", 70.0), disc("rose", 100.0)];
    let found = setting(&hem, &motifs, &bordered(Spacing::AtLeast(mm(35.0))));
    assert_eq!(found.count, 36);
    near(found.gap_along, 40.0);
    assert_eq!((found.on_cf, found.on_cb), (Lands::Gap, Lands::Gap));
    let corners: Vec<&str> = found.placements.iter().filter(|p| p.motif == "rose").map(|p| p.id.as_str()).collect();
    assert_eq!(corners, ["C3", "C4", "C1", "C2"]);
    // First and last middles on the front side, from its right-hand corner: 155 and 925.
    let on_front: Vec<f64> = found
        .placements
        .iter()
        .filter(|p| p.motif == "leaf" && p.s_line.get().abs() < 540.0)
        .map(|p| p.s_line.get() + 540.0)
        .collect();
    assert_eq!(on_front.len(), 8);
    near(mm(on_front[0]), 155.0);
    near(mm(on_front[1] - on_front[0]), 110.0);
    near(mm(on_front[7]), 925.0);
    // The hasty answer sets out the hem's 4800 or forgets the corners' gaps.
    assert_ne!(found.count, 4 + 4 * 9);
}

/// On the card a count is what a job would ask for: the corners come on top.
#[test]
fn the_card_counts_what_lies_between_the_corners() {
    let motifs = [disc("leaf", 70.0), disc("rose", 100.0)].map(|motif| (motif.name.clone(), motif)).into();
    let card = hemwright::place::counts(&shawl(), &motifs, &bordered(Spacing::AtLeast(mm(35.0)))).unwrap();
    assert_eq!(card.rows.iter().map(|row| row.count).collect::<Vec<_>>(), [29, 30, 31, 32, 33, 34, 35]);
    assert_eq!(card.rows[card.recommended].count, 32);
    near(card.rows[card.recommended].gap_along, 40.0);
}

#[test]
fn a_corner_motif_stands_in_the_corner_and_faces_the_middle_of_the_cloth() {
    let motifs = [disc("leaf", 70.0), rectangle("rose", 90.0, 100.0)];
    let found = setting(&shawl(), &motifs, &bordered(Spacing::AtLeast(mm(35.0))));
    let c1 = found.placements.iter().find(|p| p.id == "C1").unwrap();
    // The corner of the line toward the wearer's left: 540 along, 60 up; upper end up and to the right of the wearer.
    assert!(c1.at.distance(Point::new(540.0, -60.0)) < 1e-9, "{:?}", c1.at);
    assert!((c1.turn.degrees() + 45.0).abs() < 1e-9, "{}", c1.turn.degrees());
    let l1 = found.placements.iter().find(|p| p.id == "L1").unwrap();
    assert!((l1.at.x - 55.0).abs() < 1e-9 && (l1.at.y + 60.0).abs() < 1e-9);
}

#[test]
fn without_corner_motifs_the_sides_keep_clear_of_each_other() {
    let wish = BandWish { on_cf: Anchor::Best, ..band("leaf", 60.0, Spacing::AtLeast(mm(35.0))) };
    let found = setting(&shawl(), &[rectangle("leaf", 70.0, 70.0)], &wish);
    // Each side: 1080 less 2 x 35 for half the motif's height round the corner; (1010 - 35) / 105 = 9.3.
    assert_eq!(found.count, 36);
    near(found.gap_along, (1010.0 - 9.0 * 70.0) / 10.0);
    assert!(found.clear_gap.unwrap().least >= mm(35.0));
}

#[test]
fn polygons_lose_twice_the_tangent_of_half_a_corner() {
    for sides in [3, 4, 5, 6, 8] {
        let hem = hem(Measurements::Polygon { sides, side: mm(500.0) }, Ends::Closed, vec![]);
        let line = hem.line_at(mm(40.0)).unwrap();
        let loss = 2.0 * 40.0 * (TAU / f64::from(sides) / 2.0).tan();
        assert!((line.length().get() - f64::from(sides) * (500.0 - loss)).abs() < 1e-9, "{sides} sides");
        assert_eq!(line.corners().len(), sides as usize);
        // Every place is 40 above its foot, corners by the bisector.
        let edge = hem.line_at(Mm::ZERO).unwrap();
        for k in 0..40 {
            let s = line.span().0 + line.length() * (f64::from(k) / 40.0 + 0.003);
            let foot = edge.frame_at(line.to_hem(s));
            assert!((line.frame_at(s).at.distance(foot.at) - 40.0).abs() < 1e-9, "{sides} sides, place {k}");
            assert!((line.from_hem(line.to_hem(s)).get() - s.get()).abs() < 1e-9);
        }
    }
}

#[test]
fn a_line_beyond_the_middle_of_a_cloth_is_refused() {
    assert_eq!(
        shawl().line_at(mm(601.0)).unwrap_err().to_string(),
        "a line 601.0 mm above the edge leaves nothing of one side; up to 600.0 mm it does"
    );
    let two = HemWish {
        measurements: Measurements::Polygon { sides: 2, side: mm(500.0) },
        ends: Ends::Closed,
        seams: vec![],
        hung: vec![],
    };
    assert_eq!(shape(&two).unwrap_err(), HemError::Sides { sides: 2, most: 1000 });
}
