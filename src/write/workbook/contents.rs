//! The contents, each line a link, and how to print the pages that must be true to size.

use super::compose::{Before, Composer, READ, Section};
use crate::job::Paper;
use crate::plan::Plan;
use crate::write::drawing::pdf::Part;
use crate::write::drawing::{Anchor, Drawing, Pen, Words};
use crate::write::style;

/// Height of one line.
const LINE: f64 = 7.0;

/// Where a section begins.
#[derive(Clone, Debug)]
pub(crate) struct Start {
    pub(crate) title: String,
    /// Page, from 0.
    pub(crate) page: usize,
}

pub(crate) fn section(plan: &Plan, starts: &[Start]) -> Section {
    let mut composer = Composer::new("Contents", "The pages stand in the order in which you need them.");
    for start in starts {
        composer.keep(LINE);
        entry(&mut composer, start);
        composer.space(LINE);
    }
    composer.space(4.0);
    composer.heading("Printing");
    let (own, other) = match plan.job.paper {
        Paper::A4 => ("A4", "Letter"),
        Paper::Letter => ("Letter", "A4"),
    };
    let printing = [
        "Print at 100 %, also called actual size. Switch off every kind of fitting or shrinking to the page.".to_owned(),
        format!(
            "The pages are set for {own}, and everything on them stays inside the area that {own} and {other} share, \
             so they print complete on either."
        ),
        "Pages at true size carry a line at the foot. Measure it with the tape you work with: it must be 100 mm long. If \
         it is not, do not use that page."
            .to_owned(),
    ];
    composer.list(Before::Dot, &printing);
    composer.finish()
}

fn entry(composer: &mut Composer, start: &Start) {
    let base = composer.y() + READ + 0.8;
    let title = Words::new(start.title.clone(), (0.0, base)).size(READ);
    let page = Words::new((start.page + 1).to_string(), (composer.width(), base)).size(READ).anchor(Anchor::End);
    let mut leader = Drawing::new(0.0, 0.0, "");
    let (from, to) = (title.bounds().x1 + 2.0, page.bounds().x0 - 2.0);
    leader.line((from, base - 0.3), (to, base - 0.3), Pen::new(style::RULE, style::THIN).dashed([0.3, 1.5]));
    composer.furnish(leader.marks);
    composer.push(Part::Link { words: vec![title, page], page: start.page });
}
