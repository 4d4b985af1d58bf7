//! Where the small swatches of the test card lie in the waste of each film's first sheet, to be cut out with scissors once the
//! pieces are off it.

use crate::data::{Fixes, tables};
use crate::geometry::Point;
use crate::plan::{FilmSheets, Plan};
use crate::press::test_card::in_waste;
use crate::quantity::Mm;

/// Middles of the swatches on a film's first sheet, in sheet millimetres, in the order of the ladder; fewer than the ladder has
/// rungs where the waste has no room for more, none for cloth.
pub(crate) fn places(plan: &Plan, film_sheets: &FilmSheets) -> Vec<Point> {
    let card = &plan.press.test_card;
    let film = &plan.films[film_sheets.film];
    let Some(sheet) = film_sheets.layout.sheets.first().filter(|_| is_pressed_film(&film.class)) else { return vec![] };
    let stock = &film.stock[sheet.stock];
    // Beyond the used length of a roll there is no waste but film for the next job.
    let size = (stock.width, stock.height.unwrap_or(sheet.used));
    let patch =
        |laid: &crate::nest::Laid| plan.pieces.kinds[film_sheets.items[laid.item]].patch.transformed(laid.transform());
    let patches: Vec<_> = sheet.laid.iter().map(patch).collect();
    in_waste(size, film.margin, film.gap, &patches, card.side, card.swatches.len())
}

/// For each film of the test card: how many of its swatches there is room for.
pub(crate) fn says(plan: &Plan) -> Vec<String> {
    let asked = plan.press.test_card.swatches.len();
    let side = side(plan.press.test_card.side);
    let films = plan.sheets.iter().filter(|sheets| is_pressed_film(&plan.films[sheets.film].class));
    let of_film = |sheets: &FilmSheets| {
        let name = &plan.films[sheets.film].key;
        match places(plan, sheets).len() {
            found if found == asked => {
                format!("{name}: all {asked} squares of {side} lie in the waste of its first sheet.")
            }
            0 => format!(
                "{name}: the waste of its first sheet has no room for squares of {side}; cut {asked} from a scrap."
            ),
            found => format!(
                "{name}: {found} squares of {side} lie in the waste of its first sheet; cut {} from a scrap.",
                asked - found
            ),
        }
    };
    if asked == 0 { vec![] } else { films.map(of_film).collect() }
}

fn side(side: Mm) -> String {
    format!("{:.0} mm", side.get())
}

fn is_pressed_film(class: &str) -> bool {
    let class = tables().film_or_unknown(class);
    class.fixes == Fixes::Film && class.is_pressed()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::{Outline, Rect, Ring};
    use crate::write::sample;

    #[test]
    fn swatches_lie_on_no_piece_and_every_film_of_the_card_is_told() {
        let mut plan = sample::plan(sample::FULL_CIRCLE, 30);
        let swatch = |number| crate::press::test_card::Swatch {
            number,
            temperature: crate::quantity::Celsius::new(150.0),
            dwell: crate::quantity::Seconds::new(12.0),
            plan_for: vec![],
        };
        plan.press.test_card.swatches = (1..=4).map(swatch).collect();
        plan.press.test_card.side = crate::quantity::mm(25.0);
        let mut found = 0;
        for sheets in &plan.sheets {
            let Some(sheet) = sheets.layout.sheets.first() else { continue };
            for middle in places(&plan, sheets) {
                found += 1;
                let square = Rect::from_center_size(middle, (25.0, 25.0));
                let square = [Outline::new(Ring::rectangle(square).unwrap(), vec![])];
                for laid in &sheet.laid {
                    let patch = &plan.pieces.kinds[sheets.items[laid.item]].patch;
                    let patch = [Outline::new(patch.transformed(laid.transform()), vec![])];
                    let common = crate::geometry::overlay::intersection(&square, &patch);
                    assert!(crate::geometry::overlay::area(&common) < 1e-6, "{middle:?}");
                }
            }
        }
        assert!(found > 0);
        let told = says(&plan);
        assert!(!told.is_empty() && told.iter().all(|line| line.contains("of 25 mm")), "{told:?}");
    }
}
