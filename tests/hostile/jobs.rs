//! Job files made at random and then spoiled: figures huge, negative or missing, units wrong, keys doubled, lines lost.

use super::damage::Dice;
use super::*;

/// What stands where a good value stood.
const ODD: [&str; 30] = [
    "\"0 mm\"",
    "\"-5 mm\"",
    "\"1 km\"",
    "\"1e300 km\"",
    "\"NaN mm\"",
    "nan",
    "inf",
    "-inf",
    "\"inf\"",
    "9e99",
    "-1",
    "0",
    "1",
    "100000",
    "\"1 um\"",
    "\"0.0001 mm\"",
    "\"300 C\"",
    "\"9 s\"",
    "\"CF\"",
    "\"side left\"",
    "\"-3 m\"",
    "true",
    "[]",
    "\"\"",
    "{ a = 1 }",
    "1979-05-27",
    "\"1/0 in\"",
    "[1e9, 2]",
    "99999999999999999999",
    "\"x\"",
];

/// A job that can mostly be set out.
fn job(dice: &mut Dice) -> String {
    let base = 400.0 + f64::from(dice.upto(900));
    let near = |dice: &mut Dice| format!("\"{:.1} mm\"", base * (0.8 + 0.004 * f64::from(dice.upto(100))));
    let shapes: [(&str, &[&str]); 10] = [
        ("circle", &["waist", "length"]),
        ("oval", &["waist", "front", "side", "back"]),
        ("train", &["waist", "front", "side", "back"]),
        ("ellipse", &["front_back", "side_side"]),
        ("gores", &["top", "hem", "side"]),
        ("cloth", &["width", "depth"]),
        ("rectangle", &["width", "depth"]),
        ("polygon", &["side"]),
        ("measured", &["hem"]),
        ("straight", &["length"]),
    ];
    let (shape, keys) = shapes[dice.below(shapes.len())];
    let mut text = "[hem]\n".to_owned();
    let mut some = |dice: &mut Dice, one_in: usize, line: &str| {
        if dice.below(one_in) == 0 {
            text += &format!("{line}\n");
        }
    };
    some(dice, 3, "seams = [\"side left\", \"side right\"]");
    some(dice, 5, "ends = \"open\"");
    some(dice, 6, "ends_clear = \"35 mm\"");
    some(dice, 6, "seams_clear = \"6 mm\"");
    text += &format!("[hem.{shape}]\n");
    for key in keys {
        text += &format!("{key} = {}\n", near(dice));
    }
    match shape {
        "gores" => text += &format!("panels = {}\n", 3 + dice.below(9)),
        "polygon" => text += &format!("sides = {}\n", 3 + dice.below(6)),
        _ => {}
    }
    for _ in 0..=dice.below(2) {
        text += "[[band]]\n";
        let gap = 5 + dice.below(80);
        text += &match dice.below(3) {
            0 => format!("gap = \"{gap} mm\"\n"),
            1 => format!("count = {}\n", 1 + dice.below(30)),
            _ => format!("count = {}\ngap = \"{gap} mm\"\n", 1 + dice.below(30)),
        };
        let mut some = |dice: &mut Dice, one_in: usize, lines: &[&str]| {
            if dice.below(one_in) == 0 {
                text += &format!("{}\n", lines[dice.below(lines.len())]);
            }
        };
        some(dice, 3, &["height = \"60 mm\"", "lower_edge = \"15 mm\"", "height = \"0 mm\"", "window = 1"]);
        some(dice, 3, &["cf = \"motif\"", "cf = \"gap\"", "cf = \"best\""]);
        some(dice, 4, &["stance = \"upright\"", "stance = \"bent\""]);
        some(dice, 4, &["hands = \"alternating\"", "hands = \"mirrored right\""]);
        some(dice, 6, &["order = \"mirrored\""]);
        some(dice, 6, &["sizes = [1.3, 1.1, 1]", "sizes = [0.5]"]);
        some(dice, 3, &["even = \"between seams\"", "even = \"gap\"", "even = \"clear gap\""]);
        some(dice, 6, &["rows = 2\nrise = \"70 mm\"", "rows = 3\nrise = \"45 mm\"\noffset = \"half\""]);
        some(dice, 8, &["shift = \"20 mm\"", "shift = \"-3 mm\""]);
        some(dice, 6, &["wave = \"25 mm\""]);
        some(dice, 6, &["motifs = [\"a\", \"b\"]", "motifs = \"b\""]);
        some(dice, 8, &["corner = \"a\"", "corner = \"b\"\ncorner_takes = \"30 mm\""]);
    }
    if dice.below(3) == 0 {
        let from = i64::from(dice.upto(900)) - 450;
        text += &format!("[[keep_out]]\nalong_from = \"{from} mm\"\nalong_to = \"{} mm\"\n", from + 120);
    }
    text += "[motif.a]\nart = \"a.svg\"\n[motif.b]\nart = \"b.svg\"\nwidth = \"25 mm\"\n";
    text
}

/// The job with one to three lines spoiled.
fn spoiled(text: &str, dice: &mut Dice) -> String {
    let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
    for _ in 0..=dice.below(3) {
        let at = dice.below(lines.len());
        match dice.below(8) {
            0 => drop(lines.remove(at)),
            1 => lines.insert(dice.below(lines.len()), lines[at].clone()),
            2 => {
                let line = &mut lines[at];
                let letter = dice.below(line.chars().count() + 1);
                let (byte, _) = line.char_indices().nth(letter).unwrap_or((line.len(), ' '));
                line.insert(byte, ['"', '[', '=', '#', '\\', '9', '-', '\u{202e}'][dice.below(8)]);
            }
            _ => {
                let Some((key, _)) = lines[at].split_once('=') else { continue };
                lines[at] = format!("{key}= {}", ODD[dice.below(ODD.len())]);
            }
        }
        if lines.is_empty() {
            break;
        }
    }
    lines.join("\n")
}

#[test]
fn jobs_made_at_random_are_set_out_or_refused() {
    let (mut set, mut left) = (0, 0);
    for number in 0..150 {
        let text = job(&mut Dice::new(number));
        match outcome(&text, &[]) {
            Outcome::SetOut(_) => set += 1,
            Outcome::Refused(_) => left += 1,
        }
    }
    assert!(set > 50, "{set} set out, {left} refused: too few to test anything");
}

#[test]
fn spoiled_jobs_are_set_out_or_refused() {
    let (mut set, mut left) = (0, 0);
    for number in 1_000..1_250 {
        let mut dice = Dice::new(number);
        let text = job(&mut dice);
        match outcome(&spoiled(&text, &mut dice), &[]) {
            Outcome::SetOut(_) => set += 1,
            Outcome::Refused(_) => left += 1,
        }
    }
    assert!(set > 10 && left > 60, "{set} set out, {left} refused");
}

/// Every refusal of the text itself points at a line, but for what is about the file as a whole.
#[test]
fn what_is_wrong_in_the_text_is_told_with_its_place() {
    for number in 2_000..2_300 {
        let mut dice = Dice::new(number);
        let text = spoiled(&job(&mut dice), &mut dice);
        let Err(fault) = job::read(&text) else { continue };
        for fault in fault.faults().iter().filter(|fault| fault.at.is_none()) {
            let said = fault.kind.to_string();
            let whole = ["has no", "the job", "more", "there must be", "given twice"];
            assert!(whole.iter().any(|words| said.contains(words)), "no place: {said}\nin\n{text}");
        }
    }
}
