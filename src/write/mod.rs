//! Stage 7, write: the whole plan to files as bytes. Nothing here touches the disk.
//!
//! Reads [`Plan`] and nothing else ([`inspection`] reads an inspected drawing). Pictures are lists of marks in millimetres ([`drawing`]) made by [`views`], so that
//! the same picture stands in the page, as PNG and in print; cut files of every format are written from one rounded
//! geometry ([`cut_sheet`]). Figures are rounded here, once.

mod cautions;
mod chalk;
mod cut_dxf;
mod cut_pdf;
mod cut_sheet;
mod cut_svg;
mod drawing;
mod figures;
mod finished;
mod gravity;
mod guide_line;
pub mod inspection;
mod lettering;
mod names;
mod page;
mod plan_json;
#[cfg(test)]
mod sample;
mod sheet_facts;
pub mod shopping;
mod style;
mod swatches;
mod time_and_weight;
mod trim_facts;
mod views;
mod workbook;

use crate::plan::Plan;
use drawing::Drawing;
use page::FileNote;

/// A file of the folder: name with forward slashes relative to it, and its bytes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OutFile {
    /// `cut/red-smooth-sheet-1-of-3.svg`
    pub name: String,
    /// Contents.
    pub bytes: Vec<u8>,
}

/// Every file of the folder that `plan` writes, in a fixed order.
#[must_use]
pub fn folder(plan: &Plan) -> Vec<OutFile> {
    let mut folder = Folder::default();
    cut_files(plan, &mut folder);
    pictures(plan, &mut folder);
    folder.add(
        "workbook.pdf",
        "the papers to work from: print at 100 %, only the chapters you need",
        workbook::file(plan),
    );
    folder.add("chalk-list.csv", "every motif and seam with its distance from CF, for a spreadsheet", chalk::csv(plan));
    if let Some(right) = plan.right_hand() {
        folder.add("chalk-list-right.csv", "the same for the right-hand one of the pair", chalk::csv(right));
    }
    folder.add("plan.json", "the whole plan for other programs", plan_json::file(plan));
    let page = page::file(plan, &folder.notes);
    folder.files.insert(0, OutFile { name: "read-me-first.html".to_owned(), bytes: page.into_bytes() });
    folder.files
}

/// The files of pieces cut again: the cutter's files and a picture of each sheet, and nothing else of the plan.
#[must_use]
pub fn recut_folder(plan: &Plan) -> Vec<OutFile> {
    let mut folder = Folder::default();
    cut_files(plan, &mut folder);
    sheet_pictures(plan, &mut folder);
    folder.files
}

/// Files made so far, and what each is for.
#[derive(Default)]
struct Folder {
    files: Vec<OutFile>,
    notes: Vec<FileNote>,
}

impl Folder {
    fn add(&mut self, name: impl Into<String>, note: impl Into<String>, bytes: impl Into<Vec<u8>>) {
        let name = name.into();
        self.notes.push((name.clone(), note.into()));
        self.files.push(OutFile { name, bytes: bytes.into() });
    }

    fn picture(&mut self, name: String, drawing: &Drawing) {
        self.add(name, drawing.says.clone(), drawing::png::file(drawing));
    }
}

fn cut_files(plan: &Plan, folder: &mut Folder) {
    for film_sheets in &plan.sheets {
        for (number, laid) in film_sheets.layout.sheets.iter().enumerate() {
            let sheet = cut_sheet::cut_sheet(plan, film_sheets, number);
            let film = &plan.films[film_sheets.film];
            let note = format!(
                "{}, cut {}; {}",
                film.stock[laid.stock].name,
                figures::counted(laid.copies as usize, "time", "times"),
                sheet_facts::reversed(plan, film_sheets, laid).words()
            );
            folder.add(format!("cut/{}.svg", sheet.name), note, cut_svg::file(&sheet));
            folder.add(
                format!("cut/{}.dxf", sheet.name),
                "the same outlines for programs that open DXF",
                cut_dxf::file(&sheet),
            );
            folder.add(format!("cut/{}.pdf", sheet.name), "the same outlines at full size", cut_pdf::file(&sheet));
        }
    }
    if let Some(page) = page::helper::file(plan) {
        folder.add("cut/do-this-first.html", "for whoever runs the cutter: sizes to check, and what not to do", page);
    }
}

fn pictures(plan: &Plan, folder: &mut Folder) {
    hem_pictures(plan, "", folder);
    if let Some(right) = plan.right_hand() {
        hem_pictures(right, "-right", folder);
    }
    for motif in plan.motifs.values() {
        let name = format!("pictures/{}-seen-and-cut.png", names::part(&motif.name));
        folder.picture(name, &views::seen_and_cut::draw(plan, motif));
    }
    sheet_pictures(plan, folder);
}

/// The hem as worn (but for a cloth that lies flat), laid flat and straightened; of a pair each has its own.
fn hem_pictures(plan: &Plan, which: &str, folder: &mut Folder) {
    if let Some(worn) = views::hem_worn::beside_flat(plan) {
        folder.picture(format!("pictures/hem-as-worn{which}.png"), &worn);
    }
    if let Some(flat) = views::hem_flat::draw(plan) {
        folder.picture(format!("pictures/hem-laid-flat{which}.png"), &flat);
    }
    let straight = views::hem_map::draw(plan, views::hem_map::Shows::Distances);
    folder.picture(format!("pictures/hem-straightened{which}.png"), &straight);
}

fn sheet_pictures(plan: &Plan, folder: &mut Folder) {
    for film_sheets in &plan.sheets {
        for number in 0..film_sheets.layout.sheets.len() {
            let name = format!("pictures/{}.png", names::sheet(plan, film_sheets, number));
            folder.picture(name, &views::sheet::draw(plan, film_sheets, number));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_same_plan_gives_the_same_bytes() {
        let plan = sample::plan(sample::FULL_CIRCLE, 30);
        let (first, second) = (folder(&plan), folder(&plan));
        assert!(first == second);
        let names: Vec<&str> = first.iter().map(|file| file.name.as_str()).collect();
        assert_eq!(names[0], "read-me-first.html");
        assert!(names.contains(&"chalk-list.csv") && names.contains(&"plan.json"), "{names:?}");
    }

    /// Writes the folder where `HEMWRIGHT_LOOK` says, for eyes.
    #[test]
    #[ignore = "for looking at"]
    #[expect(clippy::disallowed_methods, reason = "writes pictures for eyes, only when asked")]
    fn look_at_the_folder() {
        let Ok(dir) = std::env::var("HEMWRIGHT_LOOK") else { return };
        for (name, plan) in [
            ("circle", sample::plan(sample::FULL_CIRCLE, 30)),
            ("cape", sample::plan(sample::CAPE, 14)),
            ("straight", sample::plan(sample::STRAIGHT, 16)),
        ] {
            for file in folder(&plan) {
                let path = std::path::Path::new(&dir).join(name).join(&file.name);
                std::fs::create_dir_all(path.parent().unwrap()).unwrap();
                std::fs::write(path, file.bytes).unwrap();
            }
        }
    }
}
