//! The hem map: the band laid flat in its true shape, as worn, and straightened with its distances.

use super::compose::{Composer, Section};
use crate::plan::Plan;
use crate::write::views::titled;
use crate::write::{chalk, views};

pub(crate) fn section(plan: &Plan) -> Section {
    let mut composer = Composer::new(
        &titled(plan, "Hem map"),
        &format!(
            "Where everything lies: motifs with their numbers, centre front and back, seams, opening, and what else is in \
             the band. L counts from {} toward the wearer's left, R toward her right.",
            chalk::middle_name(plan)
        ),
    );
    for picture in views::hem_flat::draw(plan).into_iter().chain(views::hem_worn::beside_flat(plan)) {
        composer.figure(picture);
    }
    for page in views::hem_map::pages(plan, views::hem_map::Shows::Distances, composer.whole_room() / 1.1) {
        composer.figure(page);
    }
    composer.finish()
}
