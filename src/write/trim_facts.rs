//! What is said about a trim wherever it is shown.

use super::figures::{both, counted};
use crate::place::Garments;
use crate::trims::TrimNeed;

/// What and how much, one line each.
pub(crate) fn rows(need: &TrimNeed) -> Vec<(&'static str, String)> {
    let pair = need.garments != Garments::One;
    let of = |one, of_pair| if pair { of_pair } else { one };
    let share = format!("{} ({:.1} % of the lower edge)", both(need.draw_up.excess()), need.draw_up.share() * 100.0);
    let mut rows = vec![
        ("lies above the hem", format!("{} to {}", both(need.heights.0), both(need.heights.1))),
        (of("length", "length, for each"), both(need.length)),
        (
            of("lower and upper edge on the garment", "lower and upper edge on each garment"),
            format!("{}, {}", both(need.draw_up.lower), both(need.draw_up.upper)),
        ),
        ("to lose at the upper edge", share),
    ];
    if let Some(strips) = &need.strips {
        let count = counted(usize::try_from(strips.count).unwrap_or(usize::MAX), "strip", "strips");
        rows.push((
            of("cut", "cut, for both"),
            format!("{count}, {} wide; {} of cloth", both(strips.cut_width), both(strips.cloth)),
        ));
    }
    if let Some(pleats) = need.pleats {
        rows.push(("pleats in a row", format!("{}, each {} wide to the eye", pleats.count, pleats.visible)));
    }
    rows.extend(need.buy.iter().map(|buy| (of("buy", "buy, for both"), buy.metres())));
    rows
}
