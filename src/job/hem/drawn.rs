//! `[hem.drawn]`: a hem from pattern pieces drawn full size, lines named by the ids of their elements.

use schemars::JsonSchema;
use serde::Deserialize;

use crate::hem::{
    Allowances, CheckLine, Drawn, DrawnPanel, DrawnPanels, DrawnWay, PanelHand, PanelKind, PanelPart, PanelSide,
};
use crate::job::check::{Check, Table};
use crate::job::fault::{DRAWN_PANEL, FaultKind};
use crate::job::given::{FileName, Given, Named, Section};
use crate::quantity::Mm;

/// A garment of more panels than this is a slip of the keyboard.
const MOST_PANELS: usize = 200;

/// `[hem.drawn]` as written.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, expecting = "a table [hem.drawn]")]
pub(super) struct DrawnKeys {
    /// The drawing's file, beside the job file.
    pub(super) file: Option<Given<FileName>>,
    /// Names of the panels in the order in which they are sewn, from centre front toward the wearer's left; a panel that is cut several times is named several times.
    panels: Option<Vec<Given<String>>>,
    /// Or the id of the whole edge of a flat cloth, one closed line.
    outline: Option<Given<String>>,
    /// What lies on centre front: "panel" (the middle of the first) or "seam" (the one before it).
    cf: Option<Given<String>>,
    /// After how many panels the left and the right side seam come.
    side_seams: Option<Vec<Given<u32>>>,
    /// How far the drawn hem line lies outside the finished one.
    hem_allowance: Option<Given<Mm>>,
    /// How far drawn seam lines lie outside the finished ones.
    seam_allowance: Option<Given<Mm>>,
    /// Id of a line whose length is known: a side of a test square.
    check_line: Option<Given<String>>,
    /// Its length.
    check_length: Option<Given<Mm>>,
    /// The panels.
    #[serde(default)]
    panel: Named<Section<PanelKeys>>,
}

/// `[hem.drawn.panel.NAME]` as written.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, expecting = "a table [hem.drawn.panel.NAME]")]
pub(super) struct PanelKeys {
    /// Id of its hem edge.
    hem: Option<Given<String>>,
    /// Id of its seam on the left, seen with the hem below and the right side of the cloth toward you.
    left: Option<Given<String>>,
    /// Id of its seam on the right.
    right: Option<Given<String>>,
    /// "left" or "right": the side on which the cloth is folded and only half the panel is drawn.
    fold: Option<Given<String>>,
    /// Name of the panel of which this is the mirror image.
    mirror_of: Option<Given<String>>,
    /// true for a wedge let into a seam or slash.
    godet: Option<Given<bool>>,
}

impl DrawnKeys {
    /// Whether it has seams between panels.
    pub(super) fn has_panels(&self) -> bool {
        self.outline.is_none()
    }
}

/// The drawn hem as checked.
pub(super) fn check(check: &mut Check, section: &Section<DrawnKeys>, seams_clear: Mm) -> Option<Drawn> {
    let (keys, table) = (&section.keys, Table { name: "[hem.drawn]", at: &section.at });
    if keys.file.is_none() {
        check.missing(table, "file", "file = \"pieces.svg\"");
    }
    let file = check.take(keys.file.as_ref()).map(|FileName(file)| file);
    let allowances = Allowances {
        hem: check.not_below_zero("hem_allowance", keys.hem_allowance.as_ref()).unwrap_or(Mm::ZERO),
        seam: check.not_below_zero("seam_allowance", keys.seam_allowance.as_ref()).unwrap_or(Mm::ZERO),
    };
    if keys.hem_allowance.is_none() && keys.seam_allowance.is_none() {
        check.assume("drawn lines of the pieces", "the finished lines", "hem.drawn.hem_allowance, seam_allowance");
    }
    let line = check_line(check, keys);
    let way = match &keys.outline {
        Some(given) => outline(check, keys, given),
        None => panels(check, section, seams_clear).map(DrawnWay::Panels),
    };
    Some(Drawn { file: file?, way: way?, allowances, check: line })
}

fn outline(check: &mut Check, keys: &DrawnKeys, given: &Given<String>) -> Option<DrawnWay> {
    const WITH: &str = "panels, not with outline";
    if let Some(first) = keys.panels.iter().flatten().next() {
        let given = vec!["panels", "outline"];
        let why = "a hem is drawn in panels, or as the whole edge of a flat cloth";
        check.fault(&first.at, FaultKind::OnlyOne { given, why });
    }
    let only = [
        ("cf", keys.cf.as_ref().map(|given| &given.at)),
        ("side_seams", keys.side_seams.iter().flatten().next().map(|given| &given.at)),
        ("seam_allowance", keys.seam_allowance.as_ref().map(|given| &given.at)),
    ];
    for (key, at) in only {
        if let Some(at) = at {
            check.fault(at, FaultKind::OnlyWith { key, with: WITH });
        }
    }
    check.take(Some(given)).map(DrawnWay::Outline)
}

fn check_line(check: &mut Check, keys: &DrawnKeys) -> Option<CheckLine> {
    match (&keys.check_line, &keys.check_length) {
        (Some(given), None) => {
            check.fault(&given.at, FaultKind::OnlyWith { key: "check_line", with: "check_length" });
            None
        }
        (None, Some(given)) => {
            check.fault(&given.at, FaultKind::OnlyWith { key: "check_length", with: "check_line" });
            None
        }
        (id, length) => {
            let length = check.above_zero("check_length", length.as_ref());
            Some(CheckLine { id: check.take(id.as_ref())?, length: length? })
        }
    }
}

fn panels(check: &mut Check, section: &Section<DrawnKeys>, seams_clear: Mm) -> Option<DrawnPanels> {
    let keys = &section.keys;
    let order: Vec<&Given<String>> = keys.panels.iter().flatten().collect();
    if order.is_empty() {
        check.missing(Table { name: "[hem.drawn]", at: &section.at }, "panels", "panels = [\"front\", \"back\"]");
    }
    if order.len() > MOST_PANELS {
        let kind = FaultKind::TooMany { what: "panels", found: order.len(), most: MOST_PANELS };
        check.fault(&order[MOST_PANELS].at, kind);
    }
    let on_middle = match &keys.cf {
        Some(given) => check.one_of(Some(given), &[("panel", PanelPart::Middle), ("seam", PanelPart::Seam)]),
        None => {
            check.assume("centre front of the drawn panels", "the middle of the first", "hem.drawn.cf");
            Some(PanelPart::Middle)
        }
    };
    let side_seams = side_seams(check, keys, order.len());
    let drawn: Vec<DrawnPanel> = keys
        .panel
        .entries()
        .iter()
        .filter_map(|(name, section)| {
            let (name, at) = (name.get_ref(), name.span());
            panel(check, keys, name, &Section { at, keys: section.keys.clone() })
        })
        .collect();
    let known: Vec<String> = keys.panel.entries().iter().map(|(name, _)| name.get_ref().clone()).collect();
    let mut panels = Vec::with_capacity(order.len());
    let whole = (1..=MOST_PANELS).contains(&order.len());
    for given in order {
        let Some(name) = check.take(Some(given)) else { continue };
        if !known.contains(&name) {
            check.fault(&given.at, FaultKind::NoSuch { what: "hem.drawn.panel", name, known: known.clone() });
            continue;
        }
        panels.extend(drawn.iter().find(|panel| panel.name == name).cloned());
    }
    whole.then_some(())?;
    Some(DrawnPanels { panels, on_middle: on_middle?, side_seams, keep_clear: Some(seams_clear) })
}

fn side_seams(check: &mut Check, keys: &DrawnKeys, panels: usize) -> Option<(usize, usize)> {
    let given = keys.side_seams.as_ref()?;
    let numbers: Vec<u32> = given.iter().filter_map(|given| check.take(Some(given))).collect();
    let [left, right] = numbers[..] else {
        let at = &given.first()?.at;
        check.fault(at, FaultKind::OnlyWith { key: "side_seams", with: "two numbers: [left, right]" });
        return None;
    };
    if left == 0 || left >= right {
        let found = (left.to_string(), right.to_string());
        check.fault(&given[0].at, FaultKind::WrongWayRound { less: "the left side seam", greater: "the right", found });
        return None;
    }
    if right as usize > panels {
        let kind =
            FaultKind::TooMany { what: "panels before the right side seam", found: right as usize, most: panels };
        check.fault(&given[1].at, kind);
        return None;
    }
    Some((left as usize, right as usize))
}

/// A panel, or the mirror image of another one.
fn panel(check: &mut Check, keys: &DrawnKeys, name: &str, section: &Section<PanelKeys>) -> Option<DrawnPanel> {
    let (own, hand) = match &section.keys.mirror_of {
        None => (section.keys.clone(), PanelHand::AsDrawn),
        Some(given) => (mirrored(check, keys, section, given)?, PanelHand::Mirrored),
    };
    if own.hem.is_none() {
        let heading = format!("[hem.drawn.panel.{name}]");
        check.missing(Table { name: &heading, at: &section.at }, "hem", "hem = \"front-hem\"");
    }
    let fold = check.one_of(own.fold.as_ref(), &[("left", PanelSide::Left), ("right", PanelSide::Right)]);
    let godet = check.take(own.godet.as_ref()) == Some(true);
    let [hem, left, right] = [&own.hem, &own.left, &own.right].map(|given| check.take(given.as_ref()));
    Some(DrawnPanel {
        name: name.to_owned(),
        hem: hem?,
        left,
        right,
        fold,
        hand,
        kind: if godet { PanelKind::Godet } else { PanelKind::Whole },
    })
}

/// The keys of the panel that is mirrored, which must itself be drawn.
fn mirrored(
    check: &mut Check,
    keys: &DrawnKeys,
    section: &Section<PanelKeys>,
    given: &Given<String>,
) -> Option<PanelKeys> {
    let own = [&section.keys.hem, &section.keys.left, &section.keys.right, &section.keys.fold];
    for line in own.into_iter().flatten() {
        let why = "a mirrored panel has the lines of the other; leave its own out";
        check.fault(&line.at, FaultKind::OnlyOne { given: vec!["mirror_of", "lines of its own"], why });
    }
    let name = check.take(Some(given))?;
    let drawn = keys.panel.entries().iter().filter(|(_, section)| section.keys.mirror_of.is_none());
    let known: Vec<String> = drawn.clone().map(|(name, _)| name.get_ref().clone()).collect();
    let found = drawn.map(|(name, section)| (name.get_ref(), section)).find(|(other, _)| **other == name);
    if found.is_none() {
        check.fault(&given.at, FaultKind::NoSuch { what: DRAWN_PANEL, name, known });
    }
    found.map(|(_, section)| section.keys.clone())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::hem::Measurements;
    use crate::job::{Look, read};
    use crate::quantity::mm;

    fn job(drawn: &str) -> String {
        format!("[hem.drawn]\n{drawn}\n[[band]]\ngap = \"1 mm\"\n[motif.a]\nart = \"a.svg\"\n")
    }

    fn drawn(text: &str) -> Drawn {
        match read(&job(text)).unwrap().hem.measurements {
            Measurements::Drawn(drawn) => drawn,
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn every_key_reaches_the_hem() {
        let found = drawn(
            "file = \"pieces.svg\"\npanels = [\"front\", \"side\", \"back\", \"other-side\"]\ncf = \"seam\"\nside_seams = [1, 3]\n\
             hem_allowance = \"40 mm\"\nseam_allowance = \"15 mm\"\ncheck_line = \"square\"\ncheck_length = \"100 mm\"\n\
             [hem.drawn.panel.front]\nhem = \"f\"\nright = \"fr\"\nfold = \"left\"\n\
             [hem.drawn.panel.side]\nhem = \"s\"\nleft = \"sl\"\nright = \"sr\"\ngodet = true\n\
             [hem.drawn.panel.back]\nhem = \"b\"\n[hem.drawn.panel.other-side]\nmirror_of = \"side\"\n",
        );
        assert_eq!(found.allowances, Allowances { hem: mm(40.0), seam: mm(15.0) });
        assert_eq!(found.check, Some(CheckLine { id: "square".to_owned(), length: mm(100.0) }));
        assert_eq!(found.ids().collect::<Vec<_>>(), ["f", "fr", "s", "sl", "sr", "b", "s", "sl", "sr", "square"]);
        let DrawnWay::Panels(panels) = found.way else { panic!("panels") };
        assert_eq!((panels.on_middle, panels.side_seams), (PanelPart::Seam, Some((1, 3))));
        assert_eq!(panels.keep_clear, Some(mm(12.0)));
        let [front, side, _, other] = &panels.panels[..] else { panic!("four panels") };
        assert_eq!((front.fold, front.kind), (Some(PanelSide::Left), PanelKind::Whole));
        assert_eq!((side.hand, other.hand, other.kind), (PanelHand::AsDrawn, PanelHand::Mirrored, PanelKind::Godet));
    }

    #[test]
    fn slips_are_told_with_what_to_write() {
        let slips = [
            ("panels = [\"front\"]\n[hem.drawn.panel.front]\nhem = \"f\"\n", "[hem.drawn] has no file"),
            ("file = \"a.svg\"\n", "[hem.drawn] has no panels"),
            (
                "file = \"a.svg\"\npanels = [\"frnt\"]\n[hem.drawn.panel.front]\nhem = \"f\"\n",
                "did you mean \"front\"?",
            ),
            ("file = \"a.svg\"\npanels = [\"front\"]\n[hem.drawn.panel.front]\nleft = \"f\"\n", "has no hem"),
            ("file = \"a.svg\"\noutline = \"edge\"\ncf = \"seam\"\n", "cf goes only with panels"),
            ("file = \"a.svg\"\noutline = \"edge\"\ncheck_line = \"b\"\n", "check_line goes only with check_length"),
            (
                "file = \"a.svg\"\npanels = [\"a\", \"a\"]\nside_seams = [2, 1]\n[hem.drawn.panel.a]\nhem = \"f\"\n",
                "the left side seam is 2, which is not less than the right, 1",
            ),
            (
                "file = \"a.svg\"\npanels = [\"a\"]\n[hem.drawn.panel.a]\nmirror_of = \"a\"\n",
                "there is no drawn panel \"a\"",
            ),
            ("file = \"a.svg\"\noutline = \"edge\"\nhem_allowance = \"-4 mm\"\n", "it must not be less than zero"),
        ];
        for (text, wanted) in slips {
            let text = job(text);
            let said = read(&text).unwrap_err().render("job.toml", &text, Look::Plain);
            assert!(said.contains(wanted), "{said}\nlacks {wanted}");
        }
    }
}
