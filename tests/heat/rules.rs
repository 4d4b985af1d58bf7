//! Every heat rule once: a job in which it must speak, with the source it rests on, and a plain job in which none does.

use hemwright::data::{RuleOutcome, tables};
use hemwright::film::Layering;
use hemwright::hem::{Ends, HemWish, Measurements, Middle};
use hemwright::place::Spacing;
use hemwright::press::{HeatRisk, Outcome, Tested, Verdict, ZoneState};
use hemwright::quantity::{Celsius, Seconds, mm};

use crate::skirt::{Skirt, band, flower, full_circle, setup};

/// A rule, where it is known from, and a job that calls for it.
struct Case {
    rule: &'static str,
    known_from: &'static str,
    skirt: Skirt,
}

fn case(rule: &'static str, known_from: &'static str, skirt: Skirt) -> Case {
    Case { rule, known_from, skirt }
}

/// One flower of so many layers on a short straight band.
fn strip(cloth: &str, films: &[&str], layering: Layering) -> Skirt {
    let wish = HemWish {
        measurements: Measurements::Straight { length: mm(300.0) },
        ends: Ends::Open { keep_clear: mm(0.0), middle: Middle::CentreFront },
        seams: vec![],
        hung: vec![],
    };
    let bands = [band(60.0, Spacing::Count(1))];
    Skirt::layered(&wish, flower(60.0, films.len()), &bands, films, setup(cloth), layering)
}

fn plain(cloth: &str) -> Skirt {
    strip(cloth, &["smooth"], Layering::Auto)
}

/// The same with the dial set.
fn at(celsius: f64, mut skirt: Skirt) -> Skirt {
    skirt.setup.temperature = Some(Celsius::new(celsius));
    skirt
}

fn tested(celsius: f64, seconds: f64, verdict: Verdict, mut skirt: Skirt) -> Skirt {
    let (temperature, dwell) = (Celsius::new(celsius), Seconds::new(seconds));
    skirt.setup.tested = Some(Tested { temperature, dwell, verdict });
    skirt
}

/// Something under the flower, in place.
fn over(material: &str, skirt: Skirt) -> Skirt {
    skirt.with_zone("trim", material, (0.0, 120.0), ZoneState::InPlace)
}

fn in_state(material: &str, state: ZoneState, skirt: Skirt) -> Skirt {
    skirt.with_zone("trim", material, (0.0, 120.0), state)
}

fn limits() -> Vec<Case> {
    let standard = "ISO 3758:2012, ironing classes of 110, 150 and 200 C (source 56)";
    let practice = "common practice (source 105)";
    vec![
        case("over-limit-cloth", standard, plain("nylon")),
        case("over-limit-tested", practice, tested(140.0, 15.0, Verdict::Held, plain("nylon"))),
        case(
            "over-limit-rated",
            "a glossary on film for nylon (source 85)",
            strip("nylon", &["nylon-film"], Layering::Auto),
        ),
        case("unknown-cloth-over", standard, plain("unknown")),
        case("over-limit-movable", standard, over("braid-nylon", plain("cotton"))),
        case(
            "over-limit-thread",
            "as nylon (sources 17, 56); the advice from practice",
            over("thread-nylon", plain("cotton")),
        ),
        case("not-pressed", practice, over("feathers", plain("cotton"))),
        case("not-pressed-cloth", practice, plain("polypropylene")),
        case("unknown", standard, over("unknown", at(105.0, plain("cotton")))),
    ]
}

/// Cool enough that no limit is passed and the material's own rule is what is left to say.
fn materials() -> Vec<Case> {
    let cool = |cloth: &str| at(105.0, plain(cloth));
    let cool_over = |material: &str| over(material, at(105.0, plain("cotton")));
    vec![
        case("silk", "Nakamura and others, 1993: silk colours from 175 C (source 1)", cool("silk")),
        case("silk-slub", "dressmakers' pages on slubbed silk (source 64)", cool("silk-dupion")),
        case("water-marks", "a teaching page on viscose (source 12)", cool("viscose")),
        case("wool", "papers on heated wool (sources 5, 7)", cool("wool")),
        case("nylon", "papers on nylon 6 and 6.6 under heat (sources 19, 24, 25)", cool("nylon")),
        case("acetate", "encyclopaedia and museum record (sources 14, 15)", cool("acetate")),
        case("elastane", "papers on setting cotton with elastane (sources 37, 38)", cool("cotton + elastane")),
        case("dye-migrates", "disperse dyes leave polyester (sources 30, 31)", cool("polyester")),
        case("dye-migrates-surely", "the same", cool("polyester-coloured")),
        case(
            "remelts",
            "Zhang and Kan, Polymers 10(11), 2018 (source 48)",
            over("interfacing-copolyester", plain("cotton")),
        ),
        case("remelts-low", "laboratory data of EVA (source 43)", over("interfacing-eva", plain("cotton"))),
        case("set-stones", "a crystal maker's page: glue softens from 120 C (source 77)", cool_over("set-stones")),
        case("sequins", "a maker's trial of ironed sequins (source 76)", over("sequins", plain("cotton"))),
        case("plated", "from memory; a page on plated yarn (source 68)", cool_over("metallic-braid")),
        case("coated", "a glossary: film does not hold on water-repellent finish (source 85)", cool("coated-cloth")),
        case(
            "takes-a-set",
            "glass transition of polyester, 67 to 80 C (sources 26, 27)",
            over("pleats-polyester", at(60.0, plain("cotton"))),
        ),
        case("leather", "pages on leather under a press (sources 69 to 71)", cool("leather")),
        case("pile", "common practice (source 105)", cool("velvet")),
        case("fumes", "a handbook on PVC and a page on its breakdown (sources 40, 73)", over("pvc", plain("cotton"))),
        case("ridge", "a press supplier on pads and corners (source 93)", over("seam", plain("cotton"))),
        case("relief", "common practice (source 105)", over("lace-cotton", plain("cotton"))),
        case(
            "pressed-before",
            "a press maker on pressing again (source 87)",
            over("film-pressed-smooth", plain("cotton")),
        ),
    ]
}

fn states() -> Vec<Case> {
    let practice = "common practice (source 105)";
    let facing_first = plain("cotton").with_zone("facing", "cotton", (0.0, 150.0), ZoneState::InPlace);
    let flock = strip("cotton", &["flock"], Layering::Auto);
    vec![
        case("folded-away", practice, in_state("braid-nylon", ZoneState::FoldedAway, plain("cotton"))),
        // Folded down it hangs below the edge, where a plate of 300 over a flower on a line of 60 must reach.
        case("folded-under-overhang", practice, in_state("braid-nylon", ZoneState::FoldedAway, Skirt::s1("cotton"))),
        case("sewn-on-later", practice, in_state("braid-nylon", ZoneState::SewnOnLater, plain("cotton"))),
        case("order-shut-in", practice, in_state("braid-nylon", ZoneState::SewnOnLater, facing_first)),
        case(
            "order-heat-later",
            "as set-stones, and flock is not pressed again",
            in_state("set-stones", ZoneState::SewnOnLater, flock),
        ),
        case("order-cannot-fold", practice, in_state("seam", ZoneState::FoldedAway, plain("cotton"))),
    ]
}

fn films() -> Vec<Case> {
    let sheets = "two film makers' sheets in a public digest (source 80)";
    let stacked = |films: &[&str]| strip("cotton", films, Layering::Stack);
    // Flowers of 50 every 77, one at a time under a plate of 380: wherever it lies, four neighbours are under it.
    let close = [band(75.0, Spacing::Count(60))];
    let mut alone = Skirt::new(&full_circle(), flower(50.0, 1), &close, &["smooth"], setup("cotton"));
    alone.setup.one_at_a_time = true;
    vec![
        case("film-again", sheets, stacked(&["smooth-low", "glitter"])),
        case("film-not-again", "from memory: flock and puff are crushed (source 106)", Skirt::s1_in("cotton", "puff")),
        case("film-top-only", sheets, stacked(&["glitter", "smooth"])),
        case("film-too-many", "from memory: two or three layers are usual (source 106)", stacked(&["smooth"; 4])),
        case("pressed-often", "a press maker on pressing again (source 87)", alone),
        case("too-cool", sheets, at(105.0, plain("cotton"))),
        case("outside-window", sheets, at(170.0, plain("cotton"))),
        case("own-window", sheets, at(145.0, strip("cotton", &["smooth", "glitter"], Layering::Auto))),
        case("test-marked", "common practice (source 105)", tested(140.0, 8.0, Verdict::Marked, plain("cotton"))),
        case(
            "test-lifted",
            "repair of lifted edges on makers' sheets (source 80)",
            tested(160.0, 20.0, Verdict::Lifted, plain("cotton")),
        ),
        case(
            "test-gentler",
            "common practice (source 105)",
            at(150.0, tested(120.0, 1.0, Verdict::Held, plain("cotton"))),
        ),
    ]
}

fn outcome(rule: RuleOutcome) -> Outcome {
    match rule {
        RuleOutcome::Go => Outcome::Go,
        RuleOutcome::ClothAndTest => Outcome::ClothAndTest,
        RuleOutcome::MoveFirst => Outcome::MoveFirst,
        RuleOutcome::Stop => Outcome::Stop,
    }
}

#[test]
fn every_rule_speaks_where_it_must_and_no_milder_than_it_may() {
    let cases: Vec<Case> = [limits(), materials(), states(), films()].into_iter().flatten().collect();
    for rule in tables().rules() {
        let case =
            cases.iter().find(|case| case.rule == rule.key).unwrap_or_else(|| panic!("{} has no case", rule.key));
        let (_, risks) = case.skirt.plan();
        let spoken = |risk: &&HeatRisk| risk.rules.contains(&rule.key.as_str());
        let risk = risks.iter().find(spoken).unwrap_or_else(|| panic!("{} is silent: {risks:#?}", rule.key));
        assert!(risk.outcome >= outcome(rule.least), "{} allows {:?}", rule.key, risk.outcome);
        // What is said names the rule's sources and never sounds surer than they are.
        assert!(
            rule.source.iter().all(|number| risk.source.contains(&number.to_string())),
            "{}: {}",
            rule.key,
            risk.source
        );
        assert!(!case.known_from.is_empty());
    }
    assert_eq!(cases.len(), tables().rules().len());
}

#[test]
fn a_plain_job_on_cotton_calls_for_no_rule() {
    let (_, risks) = plain("cotton").plan();
    assert_eq!(risks, []);
}

/// Thread is part of a seam: it is not folded away, and the advice does not say so.
#[test]
fn nylon_thread_is_not_told_to_be_folded_away() {
    let (_, risks) = over("thread-nylon", plain("cotton")).plan();
    assert_eq!(risks[0].outcome, Outcome::MoveFirst);
    assert!(risks[0].advice.starts_with("A seam cannot be folded away"), "{}", risks[0].advice);
}

/// A silk seam stands no more than silk, and is said once under the cloth and once as a ridge.
#[test]
fn a_seam_stands_no_more_than_the_cloth_it_is_made_of() {
    let (_, risks) = over("seam", plain("silk")).plan();
    let seam = risks.iter().find(|risk| risk.material == "seam").unwrap();
    assert_eq!(seam.limit, Celsius::new(150.0));
}
