//! The workbook judged by programs that share no code with it: rasterised and read back.

#![expect(clippy::print_stderr, reason = "a skipped test says so")]

use std::io::Write as _;
use std::process::{Command, Stdio};
use std::sync::OnceLock;

use super::*;
use crate::geometry::Point;
use crate::write::drawing::pdf::{Book, Part};
use crate::write::sample;
use leaf::{Leaf, Scale, Way};

/// Dots per inch that make ten to the millimetre.
const FINE: u32 = 254;

fn plan() -> &'static Plan {
    static PLAN: OnceLock<Plan> = OnceLock::new();
    PLAN.get_or_init(|| sample::plan(sample::FULL_CIRCLE, 30))
}

/// A program's output on a file; `None`, said aloud, where the program is missing.
pub(super) fn run(program: &str, arguments: &[&str], file: &[u8]) -> Option<Vec<u8>> {
    let started = Command::new(program)
        .args(arguments)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn();
    let Ok(mut child) = started else {
        eprintln!("SKIPPED: {program} is not installed, so the workbook was not read back");
        return None;
    };
    let mut input = child.stdin.take().unwrap();
    let file = file.to_vec();
    let feeder = std::thread::spawn(move || drop(input.write_all(&file)));
    let output = child.wait_with_output().unwrap();
    feeder.join().unwrap();
    Some(output.stdout)
}

/// A page in grey.
struct Grey {
    width: usize,
    height: usize,
    dots: Vec<u8>,
    per_mm: f64,
}

impl Grey {
    fn of(file: &[u8], page: usize, per_inch: u32) -> Option<Self> {
        let (page, rate) = ((page + 1).to_string(), per_inch.to_string());
        let bytes = run("pdftoppm", &["-gray", "-r", &rate, "-f", &page, "-l", &page, "-"], file)?;
        let mut fields = bytes.splitn(4, u8::is_ascii_whitespace);
        assert_eq!(fields.next(), Some(&b"P5"[..]), "page {page}");
        let mut number = || std::str::from_utf8(fields.next().unwrap()).unwrap().parse::<usize>().unwrap();
        let (width, height) = (number(), number());
        let dots = bytes[bytes.len() - width * height..].to_vec();
        Some(Self { width, height, dots, per_mm: f64::from(per_inch) / 25.4 })
    }

    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "places on a page")]
    fn dot(&self, mm: f64) -> usize {
        (mm * self.per_mm).round().max(0.0) as usize
    }

    fn is_dark(&self, x: usize, y: usize) -> bool {
        x < self.width && y < self.height && self.dots[y * self.width + x] < 150
    }

    /// Whether there is ink within `reach` mm of a place.
    fn has_ink(&self, at: Point, reach: f64) -> bool {
        let (x0, x1) = (self.dot(at.x - reach), self.dot(at.x + reach));
        let (y0, y1) = (self.dot(at.y - reach), self.dot(at.y + reach));
        (y0..=y1).any(|y| (x0..=x1).any(|x| self.is_dark(x, y)))
    }
}

pub(super) fn pages(leaves: Vec<Leaf>) -> Vec<u8> {
    let paper = plan().job.paper;
    pdf::file(&Book {
        title: "test".to_owned(),
        pages: leaves.into_iter().map(|leaf| leaf.page(paper, None)).collect(),
    })
}

#[test]
fn the_same_plan_gives_the_same_workbook_with_its_pages_numbered_and_its_words_readable() {
    let (first, second) = (file(plan()), file(plan()));
    assert!(first == second);
    assert!(first.len() < 5_000_000, "{} bytes", first.len());
    let Some(text) = run("pdftotext", &["-layout", "-", "-"], &first) else { return };
    let text = String::from_utf8(text).unwrap();
    let count = text.matches('\u{c}').count();
    assert!((20..60).contains(&count), "{count} pages");
    for page in 1..=count {
        assert!(text.contains(&format!("page {page} of {count}")), "page {page} of {count}");
    }
    for words in ["summer skirt <test> & more", "Chalk list", "L14", "170.6", "4647.0 mm", "Record to keep"] {
        assert!(text.contains(words), "{words}");
    }
}

/// What stays the draft's where a hem was measured again says so.
#[test]
fn pictures_of_closures_on_a_hem_that_hung_say_that_they_are_the_drafts() {
    let leaf = "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"60mm\" height=\"40mm\" viewBox=\"0 0 60 40\"><path \
                fill=\"#2e7d32\" d=\"M 0 20 L 30 0 L 60 20 L 30 40 Z\"/></svg>";
    let job = |hung: &str| {
        let text = format!(
            "[hem]\n{hung}\n[hem.straight]\nlength = \"1000 mm\"\n[[band]]\nheight = \"50 mm\"\ncount = 8\n\
             [motif.leaf]\nart = \"leaf.svg\"\n[laying]\neffort = \"quick\"\n"
        );
        let art = std::collections::BTreeMap::from([("leaf.svg".to_owned(), leaf.to_owned())]);
        crate::plan::make(&crate::job::read(&text).unwrap(), &art, &crate::nest::Silent).unwrap()
    };
    for (hung, told) in [("", false), ("hung = [\"260 mm\", \"250 mm\", \"250 mm\", \"250 mm\"]", true)] {
        let Some(text) = run("pdftotext", &["-layout", "-", "-"], &file(&job(hung))) else { return };
        let text = String::from_utf8(text).unwrap();
        assert_eq!(text.contains("The pictures of single closures are drawn on the hem as drafted."), told, "{hung}");
    }
}

#[test]
fn the_check_line_of_a_printed_page_measures_100_mm() {
    let leaves: Vec<Leaf> = sections(plan()).into_iter().flat_map(|section| section.leaves).collect();
    let true_pages = leaves.iter().filter(|leaf| leaf.scale == Scale::True).count();
    assert!(true_pages >= 10, "{true_pages}");
    for way in [Way::Upright, Way::Lying] {
        let mut page = Leaf::new(way);
        page.scale = Scale::True;
        book::foot(&mut page, "test", 1, 1);
        let Some(grey) = Grey::of(&pages(vec![page]), 0, FINE) else { return };
        let ((x, y), (_, height)) = (way.corner(plan().job.paper), way.frame());
        // Below the line itself only its two end ticks are left.
        let row = grey.dot(y + height - 1.0 + 0.6);
        let dark: Vec<usize> = (0..grey.dot(x + 110.0)).filter(|k| grey.is_dark(*k, row)).collect();
        let (first, last) = (dark.first().unwrap(), dark.last().unwrap());
        let length = (last - first) as f64 / grey.per_mm;
        // From the outer edge of one tick to the outer edge of the other: the width of a tick is counted once.
        assert!((length - 100.0).abs() < 0.3, "{way:?}: {length} mm");
    }
}

#[test]
fn the_sheets_of_the_template_show_every_outline_where_it_belongs() {
    let leaves: Vec<Leaf> = template::section(plan()).leaves.into_iter().filter(|leaf| leaf.shows.is_some()).collect();
    assert!((2..=8).contains(&leaves.len()), "{} sheets", leaves.len());
    let shown = leaves[0].parts.iter().find_map(|part| match part {
        Part::Figure { says, .. } => Some(says.clone()),
        _ => None,
    });
    let shown = shown.unwrap();
    let ids: Vec<&str> = shown.split("with motifs ").nth(1).unwrap().split('.').next().unwrap().split(", ").collect();
    let bytes = pages(leaves.clone());
    let mut greys = Vec::new();
    for page in 0..leaves.len() {
        let Some(grey) = Grey::of(&bytes, page, FINE) else { return };
        greys.push(grey);
    }
    let motif = &plan().motifs["flower"];
    let top = motif.layers.last().unwrap();
    let (mut seen, mut all) = (0_u32, 0_u32);
    for placement in plan().setting.bands[0].placements.iter().filter(|p| ids.contains(&p.id.as_str())) {
        for point in top.outlines.iter().flat_map(|outline| outline.outer().points()) {
            let at = placement.transform() * *point;
            all += 1;
            let found = leaves.iter().zip(&greys).any(|(leaf, grey)| {
                let (place, window) = leaf.shows.unwrap();
                let (x, y) = leaf.way.corner(plan().job.paper);
                window.contains(place * at) && grey.has_ink(place * at + kurbo::Vec2::new(x, y), 0.25)
            });
            seen += u32::from(found);
        }
    }
    assert!(all > 400, "{all}");
    assert!(seen * 100 >= all * 98, "{seen} of {all} points of the outlines are where they belong");
}

const OVAL: &str = "[hem.ellipse]
front_back = '715 mm'
side_side = '635 mm'";

/// Writes workbooks where `HEMWRIGHT_LOOK` says, for eyes.
#[test]
#[ignore = "for looking at"]
#[expect(clippy::disallowed_methods, reason = "writes papers for eyes, only when asked")]
fn look_at_the_workbook() {
    let Ok(dir) = std::env::var("HEMWRIGHT_LOOK") else { return };
    for (name, plan) in [
        ("circle", sample::plan(sample::FULL_CIRCLE, 30)),
        ("cape", sample::plan(sample::CAPE, 14)),
        ("straight", sample::plan(sample::STRAIGHT, 16)),
        ("oval", sample::plan(OVAL, 20)),
    ] {
        std::fs::write(format!("{dir}/{name}.pdf"), file(&plan)).unwrap();
    }
}
