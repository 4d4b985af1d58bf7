//! The page's tables as words.

use crate::budget::Task;
use crate::finding::Finding;
use crate::hem::Hem;
use crate::place::{BandSetting, Lands};
use crate::plan::Plan;
use crate::press::{Closure, HeatRisk, films_in_words};
use crate::quantity::Mm;
use crate::trims::TrimNeed;
use crate::write::figures::{bare_inches, bare_mm, both, heat, listed, repeat_both, runs};
use crate::write::{chalk, plan_json, shopping, trim_facts};

pub(crate) struct BandPart {
    pub(crate) name: String,
    pub(crate) facts: Vec<(&'static str, String)>,
    pub(crate) clashes: String,
    pub(crate) reasons: Vec<String>,
    pub(crate) remedies: Vec<String>,
}

/// The chalk list of one band of one garment.
pub(crate) struct ChalkPart {
    pub(crate) name: String,
    pub(crate) height: String,
    pub(crate) rings: bool,
    pub(crate) rows: Vec<ChalkRow>,
}

/// The chalk lists of all bands, of a pair first the left-hand one's.
pub(crate) fn chalk(plan: &Plan) -> Vec<ChalkPart> {
    let list = |plan: &Plan, band: &BandSetting, which: &str| ChalkPart {
        name: format!("{}{which}", band.name),
        height: both(band.height),
        rings: plan.hem.is_closed(),
        rows: chalk::rows(plan, band).iter().map(|row| chalk_row(plan, row)).collect(),
    };
    let (right, own) = (plan.right_hand(), if plan.right_hand().is_some() { ", left-hand one" } else { "" });
    let lists = plan.setting.bands.iter().map(|band| list(plan, band, own));
    let right = right
        .into_iter()
        .flat_map(|right| right.setting.bands.iter().map(|band| list(right, band, ", right-hand one")));
    lists.chain(right).collect()
}

pub(crate) struct ChalkRow {
    pub(crate) mark: String,
    pub(crate) motif: String,
    pub(crate) side: &'static str,
    pub(crate) hem_mm: String,
    pub(crate) hem_in: String,
    pub(crate) line_mm: String,
    pub(crate) line_in: String,
    pub(crate) other_mm: String,
}

pub(crate) fn band(plan: &Plan, band: &BandSetting) -> BandPart {
    let gap = band.clear_gap.as_ref();
    let gap_along = if band.gap_along < Mm::ZERO {
        format!("none: up to {} behind each other", both(band.gap_along.abs()))
    } else {
        both(band.gap_along)
    };
    let mut facts = vec![
        ("motif line", format!("{}, {} above the hem", both(band.line), both(band.height))),
        ("motifs", band.count_in_words()),
        ("repeat", repeat_both(band)),
        ("gap along the line", gap_along),
    ];
    if let Some(gap) = gap {
        facts.push(("least clear gap", format!("{}, {} to {}", both(gap.least), gap.between.0, gap.between.1)));
    }
    facts.push(("on centre front", lands(band.on_cf).to_owned()));
    if has_back(&plan.hem) {
        facts.push(("on centre back", lands(band.on_cb).to_owned()));
    }
    let clashes: Vec<String> = band
        .clashes
        .iter()
        .map(|clash| {
            let clear = clash.clear;
            let how =
                if clear.get() < 0.0 { format!("lies across it by {}", clear.abs()) } else { format!("{clear} away") };
            format!("{} from {} ({how}, {} wanted)", clash.placement, clash.with, clash.wanted)
        })
        .collect();
    BandPart {
        name: band.name.clone(),
        facts,
        clashes: listed(&clashes),
        reasons: band.reasons.clone(),
        remedies: band.remedies.iter().map(|remedy| remedy.say.clone()).collect(),
    }
}

fn has_back(hem: &Hem) -> bool {
    hem.is_closed() || hem.marks().iter().any(|mark| mark.name == "CB")
}

fn chalk_row(plan: &Plan, row: &chalk::Row) -> ChalkRow {
    let hand = match row.hand {
        Some(crate::place::Hand::Mirrored) => " (mirrored)",
        _ => "",
    };
    let other = if row.hem.signed.get() >= 0.0 { row.hem.backward } else { row.hem.forward };
    ChalkRow {
        mark: row.mark.clone(),
        motif: row.motif.as_ref().map(|motif| format!("{motif}{hand}")).unwrap_or_default(),
        side: chalk::side(plan, row.line.signed),
        hem_mm: bare_mm(row.hem.signed.abs()),
        hem_in: bare_inches(row.hem.signed.abs()),
        line_mm: bare_mm(row.line.signed.abs()),
        line_in: bare_inches(row.line.signed.abs()),
        other_mm: other.map(bare_mm).unwrap_or_default(),
    }
}

/// What lies on a centre line.
pub(crate) const fn lands(lands: Lands) -> &'static str {
    match lands {
        Lands::Motif => "a motif",
        Lands::Gap => "the middle of a gap",
        Lands::Between => "neither a motif's middle nor a gap's",
    }
}

pub(crate) struct RiskRow {
    pub(crate) class: &'static str,
    pub(crate) outcome: &'static str,
    pub(crate) layer: String,
    pub(crate) say: String,
    pub(crate) advice: String,
    pub(crate) figures: String,
}

/// Risks whose words are the same are told once, with all their layers and closures.
pub(crate) fn risks(risks: &[HeatRisk]) -> Vec<RiskRow> {
    let mut told: Vec<(HeatRisk, Vec<String>)> = Vec::new();
    for risk in risks {
        let same = |(other, _): &&mut (HeatRisk, Vec<String>)| {
            other.outcome == risk.outcome
                && other.say == risk.say
                && other.advice == risk.advice
                && other.limit == risk.limit
                && other.press == risk.press
        };
        if let Some((first, layers)) = told.iter_mut().find(same) {
            first.closures.extend(&risk.closures);
            layers.push(risk.layer.clone());
        } else {
            told.push((risk.clone(), vec![risk.layer.clone()]));
        }
    }
    let row = |(mut risk, mut layers): (HeatRisk, Vec<String>)| {
        risk.closures.sort_unstable();
        risk.closures.dedup();
        layers.dedup();
        risk.layer = listed(&layers);
        self::risk(&risk)
    };
    told.into_iter().map(row).collect()
}

pub(crate) fn risk(risk: &HeatRisk) -> RiskRow {
    let (outcome, class) = crate::write::gravity::risk_words(risk);
    let closures =
        if risk.closures.is_empty() { String::new() } else { format!(" Closures {}.", runs(&risk.closures)) };
    let source = if risk.source.is_empty() { String::new() } else { format!(" Source: {}.", risk.source) };
    RiskRow {
        class,
        outcome,
        layer: risk.layer.clone(),
        say: risk.say.clone(),
        advice: risk.advice.clone(),
        figures: format!("Limit {}, plate {}.{closures}{source}", heat(risk.limit), heat(risk.press)),
    }
}

pub(crate) struct BuyRow {
    pub(crate) film: String,
    pub(crate) size: String,
    pub(crate) count: String,
    pub(crate) price: String,
}

pub(crate) fn buy(row: &shopping::Row<'_>) -> BuyRow {
    BuyRow {
        film: shopping::film_words(row.film),
        size: row.stock.name.clone(),
        count: shopping::count_words(row),
        price: row.price_words(),
    }
}

pub(crate) fn buy_goods(row: shopping::GoodsRow) -> BuyRow {
    let price = row.price.map_or_else(|| "not given".to_owned(), |price| format!("{price:.2}"));
    BuyRow { film: row.what, size: String::new(), count: row.amount, price }
}

pub(crate) struct TrimPart<'a> {
    pub(crate) name: String,
    pub(crate) facts: Vec<(&'static str, String)>,
    pub(crate) working: &'a [String],
    pub(crate) warnings: &'a [String],
}

pub(crate) fn trim(need: &TrimNeed) -> TrimPart<'_> {
    TrimPart {
        name: format!("{}: {}", need.name, need.kind),
        facts: trim_facts::rows(need),
        working: &need.working,
        warnings: &need.warnings,
    }
}

pub(crate) struct WorkRow<'a> {
    pub(crate) what: &'a str,
    pub(crate) working: &'a str,
    pub(crate) minutes: String,
}

pub(crate) fn work(task: &Task) -> WorkRow<'_> {
    WorkRow { what: &task.what, working: &task.working, minutes: format!("{:.0}", task.minutes.usual) }
}

pub(crate) struct ClosureRow {
    pub(crate) number: u32,
    pub(crate) layer: String,
    pub(crate) motifs: String,
    pub(crate) films: String,
    pub(crate) place: String,
    pub(crate) heat: String,
    pub(crate) time: String,
}

pub(crate) fn closure(plan: &Plan, closure: &Closure) -> ClosureRow {
    ClosureRow {
        number: closure.number,
        layer: format!("{}, {}", closure.layer, plan_json::press_kind(closure.kind)),
        motifs: closure.placements.join(", "),
        films: films_in_words(&closure.films, str::to_owned),
        place: place_words(plan, closure.s_hem),
        heat: format!("{:.0} °C", closure.temperature.get()),
        time: closure.seconds.to_string(),
    }
}

/// `1206.5 mm to the left of CF`
fn place_words(plan: &Plan, s_hem: Mm) -> String {
    let (side, middle) = (chalk::side(plan, s_hem), chalk::middle_name(plan));
    if side == middle { format!("on {middle}") } else { format!("{} to the {side} of {middle}", s_hem.abs()) }
}

pub(crate) struct FindingRow {
    pub(crate) class: &'static str,
    pub(crate) severity: &'static str,
    pub(crate) say: String,
    pub(crate) advice: String,
    pub(crate) place: String,
}

pub(crate) fn finding(finding: &Finding) -> FindingRow {
    let place = finding.place.as_ref().map(|place| {
        let line = place.line.map(|line| format!(", line {line}")).unwrap_or_default();
        format!("{}, {}{line}", place.drawing, place.element)
    });
    FindingRow {
        class: crate::write::gravity::severity_class(finding.severity),
        severity: finding.severity.words(),
        say: finding.say.clone(),
        advice: finding.advice.clone(),
        place: place.unwrap_or_default(),
    }
}
