//! `workbook.pdf`: everything she needs at the cutting table, at the press and round the dress stand, on paper.
//!
//! In: the plan and nothing else. Out: one PDF, vector throughout, true to size where it says so. Each kind of page is one
//! file here: a function from the plan to a [`Section`]. They are composed with [`compose`] and [`table`], numbered and
//! given feet by [`book`], and written by [`pdf`]. Pictures come from [`super::views`], which the other papers
//! show as well.
//!
//! Limits: no paper other than A4 and Letter; words in scripts that the bundled fonts lack appear as boxes.

mod book;
mod chalk_list;
mod checklist;
mod compose;
mod contents;
mod cover;
mod fold_check;
mod found;
mod hem_map;
mod leaf;
mod pin_away;
mod press_schedule;
mod record;
mod sheets_cut;
mod shopping_list;
mod sizes_page;
mod table;
mod template;
mod test_card;
#[cfg(test)]
mod tests;
mod tick_strip;
mod trims_page;
mod working;

use compose::Section;

use super::drawing::pdf;
use crate::plan::Plan;

/// The file's bytes.
pub(crate) fn file(plan: &Plan) -> Vec<u8> {
    pdf::file(&book::bind(plan, cover::section(plan), sections(plan)))
}

/// Everything after the contents, in the order in which she needs it.
fn sections(plan: &Plan) -> Vec<Section> {
    let sections = vec![
        found::section(plan),
        hem_map::section(plan),
        shopping_list::section(plan),
        sheets_cut::section(plan),
        test_card::section(plan),
        chalk_list::section(plan),
        template::section(plan),
        template::master(plan),
        tick_strip::section(plan),
        press_schedule::section(plan),
        pin_away::section(plan),
        checklist::section(plan),
        sizes_page::section(plan),
        trims_page::section(plan),
        working::section(plan),
        record::section(plan),
    ];
    sections.into_iter().filter(|section| !section.leaves.is_empty()).collect()
}

/// What anybody at a hot plate must know; the same on the page.
pub(crate) const CAUTIONS: [&str; 6] = [
    "A hot plate burns skin at once and cloth a moment later. Keep hands, children and pets away, never leave it on and \
     unwatched, let it cool before it is moved.",
    "Press a test piece first, on a scrap of the same cloth with the same layers under it, let it cool, and look at both \
     sides.",
    "The film maker's sheet, the machine's manual and the care label come before anything printed here; so do local rules \
     for working with hot tools.",
    "Some films and cloths give off fumes when overheated: air the room, and stop at any smell of burning.",
    "Print pages at 100 %, without fitting to the page, and measure the check line before you trust a template.",
    "Cut one motif first, best a test motif, and measure it before you cut a whole sheet.",
];
