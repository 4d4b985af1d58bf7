//! The workbook of every case, rasterised by a program that shares no code with it.

use std::io::Write as _;
use std::process::{Command, Stdio};

use hemwright::job::Paper;

use crate::{Case, cases};

/// Dots per inch: enough to see a word, coarse enough to be quick.
const PER_INCH: f64 = 36.0;
/// White border that printers may leave and both papers share, mm: 10 mm within the common area of A4 (210 x 297 mm,
/// ISO 216) and Letter (215.9 x 279.4 mm), less the width of a line and of a dot.
const BORDER: f64 = 8.8;

/// Every page as width, height and grey dots; `None`, said aloud, where the rasteriser is missing.
fn pages(case: &Case) -> Option<Vec<(usize, usize, Vec<u8>)>> {
    let started = Command::new("pdftoppm")
        .args(["-gray", "-r", &PER_INCH.to_string(), "-"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn();
    let Ok(mut child) = started else {
        eprintln!("SKIPPED: pdftoppm is not installed, so the workbook was not looked at");
        return None;
    };
    let mut input = child.stdin.take().unwrap();
    let file = case.bytes("workbook.pdf").to_vec();
    let feeder = std::thread::spawn(move || drop(input.write_all(&file)));
    let output = child.wait_with_output().unwrap();
    feeder.join().unwrap();
    let mut rest = output.stdout.as_slice();
    let mut pages = Vec::new();
    while let Some((width, height, after)) = header(rest) {
        let (dots, next) = after.split_at(width * height);
        pages.push((width, height, dots.to_vec()));
        rest = next;
    }
    Some(pages)
}

/// `P5 width height 255`, one white space between and after.
fn header(bytes: &[u8]) -> Option<(usize, usize, &[u8])> {
    let mut fields = bytes.splitn(5, u8::is_ascii_whitespace);
    assert_eq!(fields.next().filter(|kind| !kind.is_empty())?, b"P5");
    let mut number = || std::str::from_utf8(fields.next().unwrap()).unwrap().parse::<usize>().unwrap();
    let (width, height, _) = (number(), number(), number());
    Some((width, height, fields.next().unwrap()))
}

#[test]
fn no_page_is_printed_on_outside_the_area_that_both_papers_share() {
    for case in cases() {
        let Some(pages) = pages(case) else { return };
        assert!(pages.len() > 15, "{}: {} pages", case.name, pages.len());
        let (short, long) = match case.plan.job.paper {
            Paper::A4 => (BORDER, BORDER + (297.0 - 279.4) / 2.0),
            Paper::Letter => (BORDER + (215.9 - 210.0) / 2.0, BORDER),
        };
        for (number, (width, height, dots)) in (1..).zip(&pages) {
            let (x, y) = if width < height { (short, long) } else { (long, short) };
            let (x, y) = (x / 25.4 * PER_INCH, y / 25.4 * PER_INCH);
            for (k, dot) in dots.iter().enumerate().filter(|(_, dot)| **dot < 235) {
                let (dot_x, dot_y) = ((k % width) as f64 + 0.5, (k / width) as f64 + 0.5);
                let inside = dot_x > x && dot_x < *width as f64 - x && dot_y > y && dot_y < *height as f64 - y;
                assert!(inside, "{}, page {number}: ink {dot} at dot {dot_x}, {dot_y}", case.name);
            }
        }
    }
}
