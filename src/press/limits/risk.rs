//! The heat check: what lies under each plate, what it stands, and what may be done.
//!
//! In: closures with their footprints, and every layer with its region. Method: footprint, rim included, intersected with the
//! region; whatever touches is asked every rule of `data/risk_rules.toml`; the gravest answers are reported once for each
//! layer with the numbers of all closures concerned. Nothing here promises that a `Go` is safe: it says only that no limit
//! known to the tables is passed.

use std::collections::{BTreeMap, BTreeSet};

use super::layers::{Layer, called};
use crate::data::{
    Condition, FilmClass, LabelClass, Limit, Material, MaterialKind, Rule, RuleOutcome, Trait, When, sources_text,
    tables,
};
use crate::press::{HeatRisk, Outcome, Setup, Tested, Verdict, ZoneState};
use crate::quantity::Celsius;

/// One layer found under one closure, in place or folded below an overhanging plate.
#[derive(Clone, Copy, Debug)]
pub(in crate::press) struct Meeting<'a> {
    /// The layer.
    pub(in crate::press) layer: &'a Layer,
    /// Number of the closure.
    pub(in crate::press) closure: u32,
    /// Plate temperature.
    pub(in crate::press) press: Celsius,
    /// Classes pressed.
    pub(in crate::press) classes: &'a [&'static FilmClass],
}

/// What a rule speaks of.
#[derive(Clone, Copy, Debug)]
enum Of {
    Material(&'static Material),
    Film(&'static FilmClass),
}

impl Of {
    fn key(self) -> &'static str {
        match self {
            Self::Material(material) => &material.key,
            Self::Film(class) => &class.key,
        }
    }
}

/// Something found by a rule, before findings of one kind are gathered.
#[derive(Clone, Debug)]
struct Found {
    rule: &'static Rule,
    of: Of,
    /// What the maker calls it; several when the same is said of each.
    things: Vec<String>,
    limit: Celsius,
    press: Celsius,
    in_zone: bool,
    other: String,
}

impl Found {
    /// All that it concerns, in words.
    fn name(&self) -> String {
        match self.of {
            Of::Material(material) => called(&listed(&self.things), material),
            Of::Film(class) => class.name.clone(),
        }
    }
}

/// `a, b and c`
fn listed(things: &[String]) -> String {
    match things {
        [] => String::new(),
        [one] => one.clone(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

/// One finding with every closure it concerns.
#[derive(Clone, Debug)]
struct Gathered {
    found: Found,
    closures: BTreeSet<u32>,
}

/// Findings gathered by layer, material and rule.
#[derive(Debug, Default)]
pub(in crate::press) struct Risks {
    found: BTreeMap<(String, &'static str, &'static str), Gathered>,
}

impl From<RuleOutcome> for Outcome {
    fn from(rule: RuleOutcome) -> Self {
        match rule {
            RuleOutcome::Go => Self::Go,
            RuleOutcome::ClothAndTest => Self::ClothAndTest,
            RuleOutcome::MoveFirst => Self::MoveFirst,
            RuleOutcome::Stop => Self::Stop,
        }
    }
}

/// The gravest outcome of the rules for a layer under a plate; [`Outcome::Go`] when no rule speaks.
pub(in crate::press) fn outcome(layer: &Layer, press: Celsius, classes: &[&FilmClass], setup: &Setup) -> Outcome {
    rules_for(layer, press, classes, setup).into_iter().map(|rule| rule.least.into()).max().unwrap_or(Outcome::Go)
}

/// Every rule that speaks for a layer in the state it has.
fn rules_for(layer: &Layer, press: Celsius, classes: &[&FilmClass], setup: &Setup) -> Vec<&'static Rule> {
    let rule = |condition| tables().rule_for(When::Condition(condition));
    match layer.state() {
        ZoneState::SewnOnLater => return vec![rule(Condition::SewnOnLater)],
        ZoneState::FoldedAway => return vec![rule(Condition::FoldedUnderOverhang)],
        ZoneState::InPlace => {}
    }
    let mut rules = Vec::new();
    if layer.is_over(press) {
        rules.push(rule(over(layer, press, classes, setup)));
    }
    let molten = match layer.material.limit {
        Limit::MeltsFrom(from) => press >= Celsius::new(from),
        _ => true,
    };
    let fusible = |t: &&Trait| matches!(t, Trait::Remelts | Trait::RemeltsLow);
    let traits = layer.material.traits.iter().filter(|t| molten || !fusible(t));
    rules.extend(traits.map(|t| tables().rule_for(When::Trait(*t))));
    rules
}

/// Which of the rules for too much heat applies.
fn over(layer: &Layer, press: Celsius, classes: &[&FilmClass], setup: &Setup) -> Condition {
    let Material { traits, limit, .. } = layer.material;
    if layer.zone.is_some() {
        return match (limit, layer.material.kind) {
            (Limit::Never, _) => Condition::NotPressed,
            (_, MaterialKind::Thread) => Condition::OverLimitThread,
            _ => Condition::OverLimitMovable,
        };
    }
    if matches!(limit, Limit::Never) {
        return Condition::NotPressedCloth;
    }
    // A test vouches for its own heat and time, not for more.
    let vouches = |t: Tested| {
        t.verdict == Verdict::Held && t.temperature >= press && setup.dwell.is_none_or(|dwell| dwell <= t.dwell)
    };
    let held = setup.tested.is_some_and(vouches);
    let made_for = |class: &&FilmClass| class.made_for.iter().any(|t| traits.contains(t));
    if held {
        Condition::OverLimitTested
    } else if traits.contains(&Trait::Unknown) {
        Condition::OverLimitUnknownCloth
    } else if !classes.is_empty() && classes.iter().all(made_for) && *limit != Limit::Label(LabelClass::ThreeDots) {
        Condition::OverLimitRated
    } else {
        Condition::OverLimitCloth
    }
}

impl Risks {
    /// A layer lies under a closure.
    pub(in crate::press) fn meet(&mut self, meeting: Meeting<'_>, setup: &Setup) {
        for rule in rules_for(meeting.layer, meeting.press, meeting.classes, setup) {
            self.note(rule, meeting.layer, meeting.press, Some(meeting.closure), "");
        }
    }

    /// A layer that is folded away or sewn on later is named once, with the heat it is kept from.
    pub(in crate::press) fn kept_away(&mut self, layer: &Layer, hottest: Celsius) {
        let condition = match layer.state() {
            ZoneState::InPlace => return,
            ZoneState::FoldedAway => Condition::FoldedAway,
            ZoneState::SewnOnLater => Condition::SewnOnLater,
        };
        self.note(tables().rule_for(When::Condition(condition)), layer, hottest, None, "");
    }

    /// A layer whose state does not fit the order of work, and what it clashes with.
    pub(in crate::press) fn out_of_order(&mut self, condition: Condition, layer: &Layer, other: &str, press: Celsius) {
        self.note(tables().rule_for(When::Condition(condition)), layer, press, None, other);
    }

    /// A film already on the cloth, or the setting itself, calls for a rule.
    pub(in crate::press) fn film(
        &mut self,
        condition: Condition,
        class: &'static FilmClass,
        press: Celsius,
        closure: u32,
    ) {
        let rule = tables().rule_for(When::Condition(condition));
        let found = Found {
            rule,
            of: Of::Film(class),
            things: vec![class.name.clone()],
            limit: class.temperatures().1,
            press,
            in_zone: false,
            other: String::new(),
        };
        self.put(found, Some(closure));
    }

    fn note(&mut self, rule: &'static Rule, layer: &Layer, press: Celsius, closure: Option<u32>, other: &str) {
        let found = Found {
            rule,
            of: Of::Material(layer.material),
            things: vec![layer.thing.clone()],
            limit: layer.limit(),
            press,
            in_zone: layer.zone.is_some(),
            other: other.to_owned(),
        };
        self.put(found, closure);
    }

    fn put(&mut self, found: Found, closure: Option<u32>) {
        let (key, press) = ((found.things[0].clone(), found.of.key(), found.rule.key.as_str()), found.press);
        let kept = self.found.entry(key).or_insert(Gathered { found, closures: BTreeSet::new() });
        kept.found.press = kept.found.press.max(press);
        kept.closures.extend(closure);
    }

    /// Everything found, gravest first; of each layer only what its gravest rules say, and the same thing said of several
    /// layers of one material only once.
    pub(in crate::press) fn reported(self) -> Vec<HeatRisk> {
        let mut by_layer: BTreeMap<(String, &'static str), Vec<Gathered>> = BTreeMap::new();
        for ((thing, material, _), entry) in self.found {
            by_layer.entry((thing, material)).or_default().push(entry);
        }
        let mut stories: Vec<Vec<Gathered>> = Vec::new();
        for mut entries in by_layer.into_values() {
            let gravest = entries.iter().map(|entry| entry.found.rule.least).max();
            entries.retain(|entry| Some(entry.found.rule.least) == gravest);
            match stories.iter_mut().find(|story| same_story(story, &entries)) {
                Some(story) => story.iter_mut().zip(entries).for_each(|(into, from)| into.join(from)),
                None => stories.push(entries),
            }
        }
        let mut risks: Vec<HeatRisk> = stories.iter().filter_map(|story| told(story)).collect();
        risks.sort_by(|a, b| b.outcome.cmp(&a.outcome).then(a.layer.cmp(&b.layer)).then(a.material.cmp(&b.material)));
        risks
    }
}

impl Gathered {
    /// Takes in the same finding of another layer.
    fn join(&mut self, other: Self) {
        self.found.things.extend(other.found.things);
        self.found.press = self.found.press.max(other.found.press);
        self.closures.extend(other.closures);
    }
}

/// Whether the same rules say the same of the same material.
fn same_story(a: &[Gathered], b: &[Gathered]) -> bool {
    let same = |(a, b): (&Gathered, &Gathered)| {
        let (a, b) = (&a.found, &b.found);
        a.rule.key == b.rule.key && a.of.key() == b.of.key() && a.in_zone == b.in_zone && a.other == b.other
    };
    a.len() == b.len() && a.iter().zip(b).all(same)
}

/// One risk from everything the gravest rules say of one layer, or of several alike.
fn told(story: &[Gathered]) -> Option<HeatRisk> {
    let first = &story.first()?.found;
    let rules = || story.iter().map(|entry| entry.found.rule);
    let closures: BTreeSet<u32> = story.iter().flat_map(|entry| entry.closures.iter().copied()).collect();
    let press = story.iter().map(|entry| entry.found.press).reduce(Celsius::max)?;
    let sentences = |text: fn(&Rule) -> &str| {
        story.iter().map(|entry| filled(text(entry.found.rule), &entry.found, press)).collect::<Vec<_>>().join(" ")
    };
    let mut sources: Vec<u16> = rules().flat_map(|rule| rule.source.iter().copied()).collect();
    sources.sort_unstable();
    sources.dedup();
    let confidence = rules().map(|rule| rule.confidence).max()?;
    Some(HeatRisk {
        outcome: first.rule.least.into(),
        material: first.of.key().to_owned(),
        layer: first.name(),
        zone: first.in_zone.then(|| listed(&first.things)),
        limit: first.limit,
        press,
        closures: closures.into_iter().collect(),
        rules: rules().map(|rule| rule.key.as_str()).collect(),
        say: sentences(|rule| &rule.say),
        advice: sentences(|rule| &rule.advice),
        source: sources_text(&sources, confidence),
    })
}

/// A rule's sentence with its places filled in and a capital at its head.
fn filled(text: &str, found: &Found, press: Celsius) -> String {
    let (wrong, low) = match found.of {
        Of::Material(material) => (material.wrong.as_str(), String::new()),
        Of::Film(class) => ("", class.temperatures().0.to_string()),
    };
    let text = text
        .replace("{material}", &found.name())
        .replace("{limit}", &found.limit.to_string())
        .replace("{press}", &press.to_string())
        .replace("{wrong}", wrong)
        .replace("{low}", &low)
        .replace("{other}", &found.other);
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
