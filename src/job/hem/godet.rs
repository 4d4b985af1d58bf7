//! `[[hem.godet]]`: wedges let into seams or slashes of any hem.

use schemars::JsonSchema;
use serde::Deserialize;

use super::mark;
use crate::hem::{Godet, GodetPlace, Measurements};
use crate::job::check::{Check, Table};
use crate::job::given::{Given, OneOrMore, Section};
use crate::quantity::Mm;

/// What stands for every seam between panels.
const PANEL_SEAMS: &str = "panel seams";

/// `[[hem.godet]]` as written: godets of one size.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, expecting = "a table [[hem.godet]]")]
pub(super) struct GodetKeys {
    /// Places on the hem without godets, or "panel seams" for every seam between panels.
    at: Option<OneOrMore>,
    /// Finished width along the hem.
    width: Option<Given<Mm>>,
    /// Finished length of their seams.
    height: Option<Given<Mm>>,
}

/// The hem with its godets.
pub(super) fn check(
    check: &mut Check,
    sections: &[Section<GodetKeys>],
    hem: Option<Measurements>,
    keep_clear: Mm,
) -> Option<Measurements> {
    let godets: Vec<Godet> = sections.iter().flat_map(|section| of_one_size(check, section, keep_clear)).collect();
    if sections.is_empty() {
        return hem;
    }
    Some(Measurements::Godets { hem: Box::new(hem?), godets })
}

fn of_one_size(check: &mut Check, section: &Section<GodetKeys>, keep_clear: Mm) -> Vec<Godet> {
    let (keys, table) = (&section.keys, Table { name: "[[hem.godet]]", at: &section.at });
    let width = check.need_above_zero(table, "width", "width = \"300 mm\"", keys.width.as_ref());
    let height = check.need_above_zero(table, "height", "height = \"350 mm\"", keys.height.as_ref());
    let places: Vec<&Given<String>> = keys.at.iter().flat_map(|at| at.iter()).collect();
    if places.is_empty() {
        check.missing(table, "at", "at = [\"side left\", \"side right\"], or at = \"panel seams\"");
    }
    let places: Vec<GodetPlace> = places
        .into_iter()
        .filter_map(|given| match &given.value {
            Ok(word) if word.to_lowercase().replace(['-', '_'], " ") == PANEL_SEAMS => Some(GodetPlace::PanelSeams),
            _ => mark(check, given, &[PANEL_SEAMS]).map(GodetPlace::Mark),
        })
        .collect();
    let (Some(width), Some(height)) = (width, height) else { return Vec::new() };
    places.into_iter().map(|at| Godet { at, width, height, keep_clear }).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::hem::Mark;
    use crate::job::{Look, read};
    use crate::quantity::mm;

    fn job(godet: &str) -> String {
        format!(
            "[hem.train]\nwaist = \"72 cm\"\nfront = \"1 m\"\nback = \"1.6 m\"\n[[hem.godet]]\n{godet}\n\
             [[band]]\ngap = \"1 mm\"\n[motif.a]\nart = \"a.svg\"\n"
        )
    }

    #[test]
    fn every_place_of_a_size_becomes_a_godet() {
        let text = job("at = [\"side left\", \"-350 mm\", \"panel seams\"]\nwidth = \"30 cm\"\nheight = \"35 cm\"\n");
        let Measurements::Godets { hem, godets } = read(&text).unwrap().hem.measurements else { panic!("godets") };
        assert_eq!(
            *hem,
            Measurements::Train { waist: mm(720.0), front: mm(1000.0), side: mm(1000.0), back: mm(1600.0) }
        );
        let at: Vec<GodetPlace> = godets.iter().map(|godet| godet.at).collect();
        let marks = [Mark::SideLeft, Mark::At(mm(-350.0))].map(GodetPlace::Mark);
        assert_eq!(at, [marks[0], marks[1], GodetPlace::PanelSeams]);
        assert_eq!((godets[1].width, godets[1].height, godets[1].keep_clear), (mm(300.0), mm(350.0), mm(12.0)));
    }

    #[test]
    fn one_place_needs_no_brackets() {
        let at = |at: &str| {
            let text = job(&format!("at = {at}\nwidth = \"30 cm\"\nheight = \"35 cm\"\n"));
            read(&text).map_err(|fault| fault.to_string()).map(|job| match job.hem.measurements {
                Measurements::Godets { godets, .. } => godets[0].at,
                other => panic!("{other:?}"),
            })
        };
        assert_eq!(at("\"panel seams\""), Ok(GodetPlace::PanelSeams));
        assert_eq!(at("\"panel seams\""), at("[\"panel seams\"]"));
        assert_eq!(at("5").unwrap_err(), "5 is not a text");
        let told = at("{ a = 1 }").unwrap_err();
        assert!(told.starts_with("a table stands where there should be a text in quotes, or a list of them"), "{told}");
    }

    #[test]
    fn a_further_size_is_measured_by_the_keys_of_its_shape_with_or_without_godets() {
        let text = job("at = [\"CB\"]\nwidth = \"30 cm\"\nheight = \"35 cm\"\n[size.large]\nback = \"1.7 m\"\n");
        let sizes = read(&text).unwrap().sizes.others;
        let Measurements::Godets { hem, .. } = &sizes[0].1.measurements else { panic!("godets") };
        assert!(matches!(**hem, Measurements::Train { back, .. } if back == mm(1700.0)), "{hem:?}");
    }

    #[test]
    fn a_godet_without_its_place_or_size_is_told() {
        let text = job("width = \"0 mm\"\n");
        let said = read(&text).unwrap_err().render("job.toml", &text, Look::Plain);
        for wanted in
            ["[[hem.godet]] has no at", "[[hem.godet]] has no height", "width is 0.0 mm; it must be more than zero"]
        {
            assert!(said.contains(wanted), "{said}");
        }
    }
}
