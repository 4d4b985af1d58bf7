//! A job file written from a few answers: what `new` writes, and what `plan` reads when it is given flags instead of a file.
//!
//! One way for both, so that a job planned from flags and the job file written from the same flags are the same job.

mod motif_names;
mod remarked;

use motif_names::motif_names;
use remarked::{Text, quoted};

/// Answers, each in the maker's own words; they are checked when the text is read.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Draft {
    /// What it is called.
    pub name: Option<String>,
    /// Key of the cloth.
    pub cloth: Option<String>,
    /// The hem, as lines of its table.
    pub hem: Option<HemDraft>,
    /// Whether the hem has two ends.
    pub open: bool,
    /// Where the opening lies.
    pub opening: Option<String>,
    /// Underlap of the opening.
    pub underlap: Option<String>,
    /// Seams across the band.
    pub seams: Vec<String>,
    /// Drawings, as file names.
    pub art: Vec<String>,
    /// Finished width of every motif.
    pub width: Option<String>,
    /// Height of the motifs' middles.
    pub height: Option<String>,
    /// Or of their lower edge.
    pub lower_edge: Option<String>,
    /// Least gap along the motif line.
    pub gap: Option<String>,
    /// Or exactly so many.
    pub count: Option<u32>,
    /// What lies on centre front.
    pub cf: Option<String>,
    /// How far every motif of a ring is shifted.
    pub shift: Option<String>,
    /// Which way up.
    pub stance: Option<String>,
    /// Places to keep out of: from where to where along the hem.
    pub keep_out: Vec<(String, String)>,
    /// Which hands.
    pub hands: Option<String>,
    /// Spare motifs of each hand and size.
    pub spares: Option<u32>,
    /// Sheet size of every film.
    pub sheet: Option<String>,
    /// Price of a sheet.
    pub price: Option<f64>,
    /// Class of every film.
    pub film: Option<String>,
    /// Plate of the press.
    pub plate: Option<String>,
    /// Temperature from the film's sheet.
    pub temperature: Option<String>,
    /// Time from the film's sheet.
    pub dwell: Option<String>,
    /// Paper.
    pub paper: Option<String>,
}

/// The shape of the hem and its measurements.
#[derive(Clone, Debug, PartialEq)]
pub enum HemDraft {
    /// Hem length by tape, and the sweep where known.
    Measured {
        /// Finished hem length.
        hem: String,
        /// `360 deg`.
        sweep: Option<String>,
    },
    /// Part of a circle.
    Circle {
        /// Waist.
        waist: String,
        /// From waist to hem.
        length: String,
        /// `3/4`.
        fraction: Option<String>,
    },
    /// A straight band.
    Straight {
        /// Finished length.
        length: String,
    },
}

impl Draft {
    /// The job file, with a comment on what each part is for.
    #[must_use]
    pub fn to_toml(&self) -> String {
        let mut text = Text::default();
        text.comment(
            "A job for hemwright. Every length carries its unit: mm, cm, m or in, with fractions such as 1 1/2 in.",
        );
        text.comment("What is left out is filled with the usual value, and said when the job is planned.");
        self.garment(&mut text);
        self.hem_table(&mut text);
        self.band(&mut text);
        self.motifs(&mut text);
        self.films(&mut text);
        self.press(&mut text);
        if self.paper.is_some() {
            text.table("[papers]");
            text.text("paper", self.paper.as_deref());
        }
        text.0
    }

    fn garment(&self, text: &mut Text) {
        if self.name.is_none() && self.cloth.is_none() {
            return;
        }
        text.table("[garment]");
        text.text("name", self.name.as_deref());
        if self.cloth.is_some() {
            text.comment("One of the cloths that \"hemwright materials\" lists.");
            text.text("cloth", self.cloth.as_deref());
        }
    }

    fn hem_table(&self, text: &mut Text) {
        if self.open || !self.seams.is_empty() {
            text.table("[hem]");
        }
        if self.open {
            text.comment("Two ends that do not meet, as on a cape; centre front is then the middle between them.");
            text.text("ends", Some("open"));
        }
        if !self.seams.is_empty() {
            text.comment("Seams that motifs keep clear of: CF, CB, side left, side right, or a distance from CF.");
            let seams: Vec<String> = self.seams.iter().map(|seam| quoted(seam)).collect();
            text.line("seams", &format!("[{}]", seams.join(", ")));
        }
        match &self.hem {
            Some(HemDraft::Measured { hem, sweep }) => {
                text.table("[hem.measured]");
                text.comment("Length of the finished hem by tape.");
                text.text("hem", Some(hem));
                text.text("sweep", sweep.as_deref());
            }
            Some(HemDraft::Circle { waist, length, fraction }) => {
                text.table("[hem.circle]");
                text.text("fraction", fraction.as_deref());
                text.comment("Finished waist, and from there to the hem.");
                text.text("waist", Some(waist));
                text.text("length", Some(length));
            }
            Some(HemDraft::Straight { length }) => {
                text.table("[hem.straight]");
                text.text("length", Some(length));
            }
            None => {}
        }
        if self.opening.is_some() || self.underlap.is_some() {
            text.table("[hem.opening]");
            text.text("at", self.opening.as_deref());
            text.comment("How far one edge reaches under the other.");
            text.text("underlap", self.underlap.as_deref());
        }
    }

    fn band(&self, text: &mut Text) {
        text.table("[[band]]");
        if self.height.is_some() {
            text.comment("From the hem up to the motifs' middles.");
            text.text("height", self.height.as_deref());
        }
        if self.lower_edge.is_some() {
            text.comment("From the hem up to the motifs' lower edge.");
            text.text("lower_edge", self.lower_edge.as_deref());
        }
        if self.gap.is_some() {
            text.comment("At least this much between two motifs, along the line they sit on; or  count = 30");
            text.text("gap", self.gap.as_deref());
        }
        if let Some(count) = self.count {
            text.comment("Exactly so many motifs; or  gap = \"40 mm\"  for as many as leave that much.");
            text.line("count", &count.to_string());
        }
        text.text("cf", self.cf.as_deref());
        text.text("hands", self.hands.as_deref());
        if self.shift.is_some() {
            text.comment("Every motif so far to the wearer's left.");
            text.text("shift", self.shift.as_deref());
        }
        text.text("stance", self.stance.as_deref());
        for (from, to) in &self.keep_out {
            text.table("[[keep_out]]");
            text.comment("A place that no motif may reach into, from where to where along the hem from centre front.");
            text.text("along_from", Some(from));
            text.text("along_to", Some(to));
        }
    }

    fn motifs(&self, text: &mut Text) {
        for (art, name) in self.art.iter().zip(motif_names(&self.art)) {
            text.table(&format!("[motif.{name}]"));
            text.comment("The drawing, beside this file.");
            text.text("art", Some(art));
            if self.width.is_some() {
                text.comment("Finished width; the height follows from the drawing.");
                text.text("width", self.width.as_deref());
            }
            if let Some(spares) = self.spares {
                text.line("spares", &spares.to_string());
            }
        }
    }

    fn films(&self, text: &mut Text) {
        if self.sheet.is_none() && self.film.is_none() {
            return;
        }
        text.table("[every_film]");
        text.comment("Holds for every film of the job; a table [film.red] of its own would come first.");
        text.text("class", self.film.as_deref());
        if let Some(sheet) = &self.sheet {
            let price = self.price.map_or_else(String::new, |price| format!(", price = {price:.2}"));
            text.line("sheets", &format!("[{{ size = {}{price} }}]", quoted(sheet)));
        }
    }

    fn press(&self, text: &mut Text) {
        if self.plate.is_none() && self.temperature.is_none() && self.dwell.is_none() {
            return;
        }
        text.table("[press]");
        text.text("plate", self.plate.as_deref());
        if self.temperature.is_some() || self.dwell.is_some() {
            text.comment("From the film maker's own sheet.");
        }
        text.text("temperature", self.temperature.as_deref());
        text.text("dwell", self.dwell.as_deref());
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::hem::Measurements;
    use crate::job::read;
    use crate::quantity::mm;

    #[test]
    fn a_draft_of_three_numbers_is_a_job() {
        let draft = Draft {
            hem: Some(HemDraft::Measured { hem: "5118mm".into(), sweep: None }),
            art: vec!["flower.svg".into()],
            width: Some("60mm".into()),
            gap: Some("40mm".into()),
            ..Draft::default()
        };
        let job = read(&draft.to_toml()).unwrap();
        assert_eq!(job.motifs[0].name, "flower");
        assert_eq!(job.motifs[0].width, Some(mm(60.0)));
    }

    #[test]
    fn every_answer_reaches_the_job() {
        let draft = Draft {
            name: Some("a \"fine\" skirt\nwith two lines".into()),
            cloth: Some("unknown".into()),
            hem: Some(HemDraft::Circle {
                waist: "72 cm".into(),
                length: "70 cm".into(),
                fraction: Some("half".into()),
            }),
            opening: Some("CB".into()),
            underlap: Some("40 mm".into()),
            seams: vec!["side left".into(), "350 mm".into()],
            art: vec!["art\\Rose Red.svg".into(), "more/rose-red.svg".into()],
            lower_edge: Some("25 mm".into()),
            count: Some(30),
            cf: Some("gap".into()),
            hands: Some("alternating".into()),
            shift: Some("-5 mm".into()),
            stance: Some("upright".into()),
            keep_out: vec![("100 mm".into(), "350 mm".into())],
            spares: Some(4),
            sheet: Some("12 x 20 in".into()),
            price: Some(6.5),
            film: Some("smooth".into()),
            plate: Some("23 x 23 cm".into()),
            temperature: Some("150 C".into()),
            dwell: Some("15 s".into()),
            paper: Some("Letter".into()),
            ..Draft::default()
        };
        let job = read(&draft.to_toml())
            .unwrap_or_else(|e| panic!("{}", e.render("draft", &draft.to_toml(), crate::job::Look::Plain)));
        assert_eq!(job.name, "a \"fine\" skirt\nwith two lines");
        assert_eq!(job.hem.measurements, Measurements::Circle { fraction: 0.5, waist: mm(720.0), length: mm(700.0) });
        assert_eq!(job.motifs.iter().map(|m| m.name.as_str()).collect::<Vec<_>>(), ["rose-red", "rose-red-2"]);
        assert_eq!(job.bands[0].rhythm.shift, mm(-5.0));
        assert_eq!(job.bands[0].stance, crate::place::Stance::Upright);
        assert_eq!(job.bands[0].keep_out[0].along, (mm(100.0), mm(350.0)));
        assert_eq!(job.cuts[1].spares, Some(4));
        assert_eq!(job.usual_film.stock.unwrap()[0].price, Some(6.5));
        assert_eq!(job.press.dwell.map(crate::quantity::Seconds::get), Some(15.0));
    }
}
