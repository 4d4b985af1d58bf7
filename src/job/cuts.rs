//! What can be said of films and spares only once the drawings are read and the motifs counted.

use std::collections::{BTreeMap, BTreeSet};

use super::film::{USUAL_CLASS, cloth_class};
use super::{CutChoice, FilmWish, Job};
use crate::art::{Colour, Motif};
use crate::film::{self, CutWish, Film, LayerWish, Method, Spares};
use crate::finding::Assumption;
use crate::place::Setting;

/// One spare for so many motifs, and one at least; common practice, no source.
const MOTIFS_FOR_A_SPARE: u32 = 20;

/// What is taken where the job asks for no number.
const USUAL_SPARES: Spares = Spares::OneFor(MOTIFS_FOR_A_SPARE);

/// What [`complete_cuts`] gives.
#[derive(Clone, Debug, PartialEq)]
pub struct CompleteCuts {
    /// For each motif of the job, each layer with its film.
    pub cuts: Vec<CutWish>,
    /// The job's films, and one for each colour the job did not name.
    pub films: Vec<Film>,
    /// Films of the job that nothing is cut from.
    pub unused: Vec<String>,
    /// Every film, class and number of spares that was taken.
    pub assumptions: Vec<Assumption>,
}

/// Gives every colour of every drawing its film, and every motif its spares.
///
/// A colour the job does not name gets a film of its own, class smooth, shared by all motifs that have the same colour.
/// Motifs of the job that were not read are left out.
#[must_use]
pub fn complete_cuts(job: &Job, motifs: &BTreeMap<String, Motif>, setting: &Setting) -> CompleteCuts {
    let mut films = Films {
        usual: &job.usual_film,
        films: job.films.clone(),
        named: job.cuts.iter().flat_map(CutChoice::films).map(str::to_owned).collect(),
        taken: BTreeMap::new(),
        assumptions: Vec::new(),
    };
    let mut cuts = Vec::new();
    let mut spares_taken = Vec::new();
    for choice in &job.cuts {
        let Some(motif) = motifs.get(&choice.motif) else { continue };
        let layers = motif.layers.iter().map(|layer| films.layer(choice, layer.colour)).collect();
        let spares = choice.spares.map_or(USUAL_SPARES, Spares::Each);
        if choice.spares.is_none() {
            spares_taken.push(assume_spares(&choice.motif, setting));
        }
        cuts.push(CutWish {
            motif: choice.motif.clone(),
            layers,
            spares,
            tests: choice.tests,
            preparing: choice.preparing.clone(),
        });
    }
    let mut assumptions = films.assumptions;
    assumptions.append(&mut spares_taken);
    let cut_from = |key: &str| cuts.iter().flat_map(|cut: &CutWish| &cut.layers).any(|layer| layer.film == key);
    let unused = job.films.iter().map(|film| film.key.clone()).filter(|key| !cut_from(key)).collect();
    CompleteCuts { cuts, films: films.films, unused, assumptions }
}

fn assume_spares(motif: &str, setting: &Setting) -> Assumption {
    let needed = film::counted(setting, motif);
    let spares: u32 = needed.iter().map(|needed| USUAL_SPARES.of(*needed)).sum();
    let of_each = if needed.len() > 1 { " of each hand and size" } else { "" };
    Assumption {
        about: format!("spare motifs of {motif}"),
        taken: format!("{}: one for every {MOTIFS_FOR_A_SPARE}{of_each}, at least one", spares.max(1)),
        key: format!("motif.{motif}.spares"),
    }
}

/// The films so far, and which colour took which new one: of cloth another than of film.
struct Films<'a> {
    usual: &'a FilmWish,
    films: Vec<Film>,
    /// Those that a motif names.
    named: BTreeSet<String>,
    taken: BTreeMap<(Colour, &'static str), String>,
    assumptions: Vec<Assumption>,
}

impl Films<'_> {
    fn layer(&mut self, choice: &CutChoice, colour: Colour) -> LayerWish {
        let (film, method) = match choice.colours.get(&colour) {
            Some((film, method)) => (film.clone().or_else(|| choice.film.clone()), *method),
            None => (choice.film.clone(), choice.method),
        };
        let film = film.unwrap_or_else(|| self.own_film(&choice.motif, colour, method));
        LayerWish { colour, film, method }
    }

    /// The film that a colour without one gets, the same for all motifs.
    fn own_film(&mut self, motif: &str, colour: Colour, method: Method) -> String {
        let material = (colour, cloth_class(method));
        if let Some(key) = self.taken.get(&material) {
            return key.clone();
        }
        let name = plain_name(colour);
        // A film called like the colour that nothing else is cut from can only be meant for it.
        let is_free = |film: &&Film| film.key == name && !self.named.contains(name);
        let free = method == Method::Film && self.films.iter().any(|film| is_free(&film));
        if free && !self.taken.values().any(|key| key == name) {
            self.assumptions.push(Assumption {
                about: format!("film of the colour {colour}"),
                taken: format!("\"{name}\", which is called like it"),
                key: format!("motif.{motif}.colours"),
            });
            self.taken.insert(material, name.to_owned());
            return name.to_owned();
        }
        let by_colour = format!("{name}-{:02x}{:02x}{:02x}", colour.red, colour.green, colour.blue);
        let by_material = format!("{by_colour}-{}", material.1);
        let is_new = |key: &String| self.films.iter().all(|film| film.key != *key);
        let key = [name.to_owned(), by_colour].into_iter().find(is_new).unwrap_or(by_material);
        let mut wish = self.usual.clone();
        if method != Method::Film {
            // What holds for every film does not hold for cloth: it comes in other sizes and has a grain.
            wish.class = Some(cloth_class(method).to_owned());
            wish.turning = None;
        }
        let film = wish.film(key.clone(), name.to_owned(), USUAL_CLASS);
        self.assumptions.push(Assumption {
            about: format!("film of the colour {colour}"),
            taken: format!("a film of its own, \"{key}\", class {}", film.class),
            key: format!("motif.{motif}.colours"),
        });
        self.films.push(film);
        self.taken.insert(material, key.clone());
        key
    }
}

/// The everyday name nearest to a colour, by its hue in the HSL scheme and how light and strong it is.
fn plain_name(colour: Colour) -> &'static str {
    let (red, green, blue) = (i32::from(colour.red), i32::from(colour.green), i32::from(colour.blue));
    let (high, low) = (red.max(green).max(blue), red.min(green).min(blue));
    let strength = high - low;
    if strength < 24 {
        return match high {
            0..=50 => "black",
            51..=225 => "grey",
            _ => "white",
        };
    }
    let sector = |over: i32, from: i32| from + over * 60 / strength;
    let hue = match high {
        _ if high == red => sector(green - blue, 0),
        _ if high == green => sector(blue - red, 120),
        _ => sector(red - green, 240),
    };
    match hue.rem_euclid(360) {
        15..=44 if high < 160 => "brown",
        15..=41 => "orange",
        42..=69 => "yellow",
        70..=164 => "green",
        165..=194 => "turquoise",
        195..=254 => "blue",
        255..=289 => "violet",
        290..=344 => "pink",
        _ if low > 120 => "pink",
        _ => "red",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn colour(red: u8, green: u8, blue: u8) -> Colour {
        Colour { red, green, blue }
    }

    #[test]
    fn colours_are_called_what_anyone_would_call_them() {
        for (name, red, green, blue) in [
            ("red", 0xc6, 0x28, 0x28),
            ("green", 0x2e, 0x7d, 0x32),
            ("yellow", 0xff, 0xeb, 0x3b),
            ("blue", 0x15, 0x65, 0xc0),
            ("brown", 0x6d, 0x4c, 0x21),
            ("orange", 0xff, 0x98, 0x00),
            ("pink", 0xf4, 0x8f, 0xb1),
            ("violet", 0x5e, 0x35, 0xb1),
            ("black", 0, 0, 0),
            ("white", 255, 255, 255),
            ("grey", 128, 128, 128),
        ] {
            assert_eq!(plain_name(colour(red, green, blue)), name);
        }
    }

    fn motif(name: &str, colours: &[Colour]) -> (String, Motif) {
        let layers = colours.iter().map(|colour| crate::art::Layer { colour: *colour, outlines: Vec::new() }).collect();
        let size = crate::quantity::mm(60.0);
        (name.to_owned(), Motif { name: name.to_owned(), layers, width: size, height: size })
    }

    #[test]
    fn a_colour_without_a_film_gets_its_own_and_motifs_share_it() {
        let job = super::super::read(
            "[hem.measured]\nhem = \"5 m\"\n[[band]]\ngap = \"40 mm\"\n\
             [motif.a]\nart = \"a.svg\"\ncolours = { \"#2e7d32\" = \"leafy\" }\n[motif.b]\nart = \"b.svg\"\nspares = 3\n\
             [film.leafy]\n[film.red]\n",
        )
        .unwrap();
        let (red, green) = (colour(0xc6, 0x28, 0x28), colour(0x2e, 0x7d, 0x32));
        let motifs = BTreeMap::from([motif("a", &[red, green]), motif("b", &[red])]);
        let complete = complete_cuts(&job, &motifs, &Setting { bands: Vec::new(), findings: Vec::new() });
        let keys =
            |complete: &CompleteCuts| -> Vec<String> { complete.films.iter().map(|film| film.key.clone()).collect() };
        assert_eq!(keys(&complete), ["leafy", "red"], "a film called like the colour is meant for it");
        assert_eq!(complete.cuts[0].layers[0].film, "red");
        assert_eq!(complete.cuts[0].layers[1].film, "leafy");
        assert_eq!(complete.cuts[1].layers[0].film, "red");
        assert_eq!(complete.unused, Vec::<String>::new());
        // Where a motif names it, it is for something else, and another is made; a film that nothing is cut from is told.
        let job = super::super::read(
            "[hem.measured]\nhem = \"5 m\"\n[[band]]\ngap = \"40 mm\"\n[motif.b]\nart = \"b.svg\"\n\
             [motif.c]\nart = \"c.svg\"\nfilm = \"red\"\n[film.red]\n[film.gold]\n",
        )
        .unwrap();
        let motifs = BTreeMap::from([motif("b", &[red]), motif("c", &[green])]);
        let other = complete_cuts(&job, &motifs, &Setting { bands: Vec::new(), findings: Vec::new() });
        assert_eq!(keys(&other), ["red", "gold", "red-c62828"]);
        assert_eq!(other.unused, ["gold"]);
        assert_eq!((complete.cuts[0].spares, complete.cuts[1].spares), (Spares::OneFor(20), Spares::Each(3)));
        assert_eq!(complete.assumptions.len(), 2);
    }
}
