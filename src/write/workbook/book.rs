//! Puts the sections together: contents after the cover, page numbers, feet of pages, the line to check the printer by.

use super::compose::{Section, rule};
use super::contents;
use super::leaf::{Leaf, Scale};
use crate::plan::Plan;
use crate::write::drawing::pdf::{Book, Page, Part};
use crate::write::drawing::{Anchor, Drawing, Mark, Pen, Words};
use crate::write::lettering::{self, Weight};
use crate::write::{finished, style};

/// Length of the line by which the printer is checked, mm.
pub(crate) const CHECK_LINE: f64 = 100.0;

/// The sections as one book.
pub(crate) fn bind(plan: &Plan, cover: Section, sections: Vec<Section>) -> Book {
    // How long the contents are does not depend on the numbers in them.
    let length = contents::section(plan, &starts(&cover, &sections, 0)).leaves.len();
    let contents = contents::section(plan, &starts(&cover, &sections, length));
    let all = [vec![cover, contents], sections].concat();
    let of = all.iter().map(|section| section.leaves.len()).sum();
    let mut pages: Vec<Page> = Vec::new();
    let job = match finished::widths(plan) {
        widths if widths.is_empty() => plan.job.name.clone(),
        widths => format!("{}: finished width {widths}", plan.job.name),
    };
    for section in all {
        let mut bookmark = Some(section.title);
        for mut leaf in section.leaves {
            foot(&mut leaf, &job, pages.len() + 1, of);
            pages.push(leaf.page(plan.job.paper, bookmark.take()));
        }
    }
    let name = plan.job.name.trim();
    let title = if name.is_empty() { "Workbook of a hem band".to_owned() } else { format!("{name}: workbook") };
    Book { title, pages }
}

fn starts(cover: &Section, sections: &[Section], contents: usize) -> Vec<contents::Start> {
    let mut page = cover.leaves.len() + contents;
    let mut starts = Vec::new();
    for section in sections {
        starts.push(contents::Start { title: section.title.clone(), page });
        page += section.leaves.len();
    }
    starts
}

/// Page number, and the job's name with the finished widths or, where a page must be true to size, the line to check it by.
pub(crate) fn foot(leaf: &mut Leaf, job: &str, page: usize, of: usize) {
    let (width, height) = leaf.way.frame();
    let base = height - 1.0;
    let number = Words::new(format!("page {page} of {of}"), (width, base)).size(style::SMALL).ink(style::SOFT);
    let mut foot = vec![Mark::Words(number.anchor(Anchor::End))];
    match leaf.scale {
        Scale::True => {
            leaf.parts.push(Part::Figure {
                says: "A line that must measure 100 mm on the printed page.".to_owned(),
                marks: check_line(base),
            });
        }
        Scale::Any => {
            foot.push(rule(height - 5.0, width, Pen::new(style::RULE, style::THIN)));
            let name = lettering::fitted(job, style::SMALL, Weight::Regular, width * 0.7);
            foot.push(Mark::Words(Words::new(name, (0.0, base)).size(style::SMALL).ink(style::SOFT)));
        }
    }
    leaf.furniture.extend(foot);
}

fn check_line(base: f64) -> Vec<Mark> {
    let mut paper = Drawing::new(0.0, 0.0, "");
    let pen = Pen::new(style::TEXT, style::THIN);
    paper.line((0.0, base), (CHECK_LINE, base), pen);
    for x in [0.0, CHECK_LINE] {
        paper.line((x, base - 1.6), (x, base + 1.0), pen);
    }
    let words = "This line must measure 100 mm. If not, print again at 100 %, not fitted to the page.";
    let room = CHECK_LINE - 3.0;
    let size = style::SMALL * (room / lettering::width(words, style::SMALL, Weight::Regular)).min(1.0);
    paper.words(Words::new(words, (CHECK_LINE / 2.0, base - 1.1)).size(size).anchor(Anchor::Middle));
    paper.marks
}
