use super::*;
use crate::job::{Job, read};

const HEM: &str = r#"
[hem.circle]
waist = "720 mm"
length = "700 mm"
[[band]]
gap = "40 mm"
[motif.flower]
art = "flower.svg"
width = "60 mm"
"#;

fn job(trims: &str) -> Job {
    read(&format!("{HEM}{trims}")).unwrap()
}

fn faults(trims: &str) -> Vec<String> {
    read(&format!("{HEM}{trims}")).unwrap_err().faults().iter().map(|fault| fault.kind.to_string()).collect()
}

#[test]
fn every_key_of_a_trim_reaches_its_wish() {
    let job = job(r#"
[[trim]]
kind = "braid"
name = "stiff braid"
depth = "6 in"
ease_percent = 3
overlap = "40 mm"
draw_thread = true
price = 2.4
weight = 30
material = "braid-nylon"
state = "sewn on later"
[[trim]]
kind = "facing"
depth = "150 mm"
height = "5 mm"
allowance = "12 mm"
cut = "shaped"
cloth_width = "110 cm"
join = "12 mm"
side = "right"
[[trim]]
kind = "knife pleats"
depth = "40 mm"
visible = "15 mm"
underfold = "30 mm"
rows = 2
row_step = "50 mm"
cut_depth = "60 mm"
cloth_width = "1380 mm"
join = "10 mm"
[[trim]]
kind = "box-pleats"
depth = "40 mm"
visible = "30 mm"
fullness = 2
[[trim]]
kind = "binding"
depth = "10 mm"
ready_made = true
"#);
    let [braid, facing, knife, boxes, binding] = &job.trims[..] else { panic!("five trims") };
    assert_eq!((braid.name.as_str(), braid.side, braid.price), ("stiff braid", Side::Wrong, Some(2.4)));
    let Kind::Braid(what) = &braid.kind else { panic!("braid") };
    assert!((what.ease - 0.03).abs() < 1e-12);
    assert_eq!((what.overlap, what.draw_thread), (mm(40.0), DrawThread::Yes));
    assert_eq!(job.zones.len(), 1, "only the braid names a material");
    assert_eq!((job.zones[0].material.as_str(), job.zones[0].state), ("braid-nylon", ZoneState::SewnOnLater));
    assert!((job.zones[0].heights.1.get() - 152.4).abs() < 1e-9);
    assert_eq!((facing.height, facing.side), (mm(5.0), Side::Right));
    let Kind::Facing(what) = &facing.kind else { panic!("facing") };
    assert_eq!((what.cut, what.cloth.usable, what.cloth.join), (FacingCut::Shaped, mm(1100.0), mm(12.0)));
    let Kind::Pleats(what) = &knife.kind else { panic!("pleats") };
    assert_eq!((what.rows, what.row_step, what.cut_depth), (2, mm(50.0), mm(60.0)));
    assert!((what.underfold - 2.0).abs() < 1e-12);
    let Kind::Pleats(what) = &boxes.kind else { panic!("pleats") };
    assert_eq!(what.style, PleatStyle::Box);
    assert!((what.underfold - 0.25).abs() < 1e-12, "1 + 4 x 0.25 = 2");
    assert!(matches!(&binding.kind, Kind::Binding(Binding { cloth: None, .. })));
}

#[test]
fn what_a_trim_leaves_open_is_said() {
    let job = job("[[trim]]\nkind = \"ruffle\"\ndepth = \"40 mm\"\n");
    let said: Vec<_> = job.assumptions.iter().filter(|one| one.key.starts_with("trim 1")).collect();
    let about: Vec<&str> = said.iter().map(|one| one.about.as_str()).collect();
    assert_eq!(
        about,
        [
            "fullness of the ruffle",
            "cut depth of strips of the ruffle",
            "width of its cloth between selvedges of the ruffle",
            "join of the ruffle"
        ]
    );
    assert_eq!(said[1].taken, "60.0 mm, 10.0 mm allowance on each edge");
}

#[test]
fn keys_of_another_kind_and_values_out_of_range_are_refused() {
    let told = faults(
        r#"
[[trim]]
kind = "braid"
depth = "0 mm"
rows = 2
cut = "bias"
price = -1
state = "in place"
[[trim]]
kind = "pleats"
[[trim]]
depth = "5 mm"
"#,
    );
    assert_eq!(
        told,
        [
            "depth is 0.0 mm; it must be more than zero",
            "rows goes only with pleats",
            "cut goes only with facing",
            "price is -1; it must not be less than zero",
            "state goes only with a material",
            "\"pleats\" is not known here",
            "[[trim]] has no kind",
        ]
    );
}

/// Every figure a trim can fall back on is asked for here.
#[test]
fn the_smallest_trim_of_every_kind_is_enough() {
    for kind in ["braid", "facing", "lace", "knife pleats", "box pleats", "ruffle", "binding", "piping"] {
        let visible = if kind.contains("pleats") { "visible = \"20 mm\"\n" } else { "" };
        let job = job(&format!("[[trim]]\nkind = \"{kind}\"\ndepth = \"5 mm\"\n{visible}"));
        assert_eq!(job.trims[0].kind.word().trim_start_matches("bias "), kind);
        let edge = crate::trims::Edge { length: mm(5118.0), sweep: crate::quantity::Radians::new(6.0), closed: true };
        assert!(crate::trims::needs(edge, crate::place::Garments::One, &job.trims).is_ok(), "{kind}");
    }
}
