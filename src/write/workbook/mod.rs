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
mod tick_box;
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
    let once = |section: fn(&Plan) -> Section| vec![section(plan)];
    // Of a pair first the left-hand one's, then the right-hand one's.
    let for_each =
        |section: fn(&Plan) -> Section| [Some(plan), plan.right_hand()].into_iter().flatten().map(section).collect();
    // What is only sewn has no test at the press, nothing to pin away from it, and no list to hang beside it.
    let if_pressed = |sections: Vec<Section>| if plan.at_press.closures() > 0 { sections } else { Vec::new() };
    let sections: Vec<Vec<Section>> = vec![
        once(found::section),
        for_each(hem_map::section),
        once(shopping_list::section),
        once(sheets_cut::section),
        if_pressed(once(test_card::section)),
        for_each(chalk_list::section),
        for_each(template::section),
        once(template::master),
        for_each(tick_strip::section),
        for_each(press_schedule::section),
        if_pressed(for_each(pin_away::section)),
        if_pressed(once(checklist::section)),
        once(sizes_page::section),
        once(trims_page::section),
        once(working::section),
        once(record::section),
    ];
    sections.into_iter().flatten().filter(|section| !section.leaves.is_empty()).collect()
}
