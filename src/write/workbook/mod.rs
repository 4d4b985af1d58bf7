//! `workbook.pdf`: the papers to work from, true to scale where they say so.
//!
//! One file for each chapter; [`setter`] sets them down the pages. The first two pages, cover and contents, are set last,
//! when the page numbers are known.

mod chalk_pages;
mod cover;
mod cut_pages;
mod hem_pages;
mod notes;
mod press_pages;
mod record;
pub(crate) mod setter;
mod strip;
mod template;
mod tile;
mod working;

use super::drawing::pdf::{self, Book};
use crate::plan::Plan;
pub(crate) use notes::CAUTIONS;
use setter::Setter;

/// The file's bytes.
pub(crate) fn file(plan: &Plan) -> Vec<u8> {
    pdf::file(&book(plan))
}

/// All pages.
pub(crate) fn book(plan: &Plan) -> Book {
    let mut setter = Setter::new(plan.job.paper);
    hem_pages::set(&mut setter, plan);
    chalk_pages::set(&mut setter, plan);
    cut_pages::set(&mut setter, plan);
    press_pages::set(&mut setter, plan);
    notes::set(&mut setter, plan);
    working::set(&mut setter, plan);
    record::set(&mut setter, plan);
    template::set(&mut setter, plan);
    let front = cover::pages(plan, &setter.chapters);
    let pages = setter.finish(&plan.job.name, front);
    Book { title: format!("{}: workbook", plan.job.name), pages }
}
