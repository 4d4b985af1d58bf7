//! The flags that stand for a job file.

use clap::Args as ClapArgs;
use hemwright::job::{Draft, HemDraft};
use hemwright::quantity::{heat_text, length_text, time_text};

use super::trouble::Trouble;

/// A job without a file.
#[derive(Clone, Debug, Default, ClapArgs)]
#[group(id = "DraftArgs", multiple = true)]
#[command(next_help_heading = "What the job says")]
pub(crate) struct DraftArgs {
    /// Drawing of a motif; may be given several times
    #[arg(long = "motif", value_name = "SVG")]
    motifs: Vec<String>,
    /// Finished width of the motif
    #[arg(long, value_name = "LENGTH", value_parser = length, allow_hyphen_values = true)]
    width: Option<String>,
    /// Length of the finished hem by tape
    #[arg(long, value_name = "LENGTH", value_parser = length, allow_hyphen_values = true, conflicts_with_all = ["waist", "straight"])]
    hem: Option<String>,
    /// Angle through which a measured hem turns: "360 deg" for a full circle
    #[arg(long, value_name = "ANGLE", requires = "hem")]
    sweep: Option<String>,
    /// Finished waist of a circle skirt
    #[arg(long, value_name = "LENGTH", value_parser = length, allow_hyphen_values = true, requires = "length", conflicts_with = "straight")]
    waist: Option<String>,
    /// From waist to hem of a circle skirt
    #[arg(long, value_name = "LENGTH", value_parser = length, allow_hyphen_values = true, requires = "waist")]
    length: Option<String>,
    /// Part of a circle: full, 3/4, half, third, quarter, double, or a number
    #[arg(long, value_name = "PART", requires = "waist")]
    fraction: Option<String>,
    /// Length of a straight band
    #[arg(long, value_name = "LENGTH", value_parser = length, allow_hyphen_values = true)]
    straight: Option<String>,
    /// The hem has two ends, as on a cape
    #[arg(long, conflicts_with = "opening")]
    open: bool,
    /// Where the opening lies: CB, CF, "side left", or a distance from CF
    #[arg(long, value_name = "PLACE")]
    opening: Option<String>,
    /// How far one edge of the opening reaches under the other
    #[arg(long, value_name = "LENGTH", value_parser = length, allow_hyphen_values = true, conflicts_with = "open")]
    underlap: Option<String>,
    /// A seam that motifs keep clear of: "side left", CB, or a distance from CF; may be given several times
    #[arg(long = "seam", value_name = "PLACE")]
    seams: Vec<String>,
    /// At least this much between motifs along their line
    #[arg(long, value_name = "LENGTH", value_parser = length, allow_hyphen_values = true)]
    gap: Option<String>,
    /// Exactly so many motifs; with --gap they are made smaller where so many would not fit
    #[arg(long, value_name = "NUMBER")]
    count: Option<u32>,
    /// From the hem up to the motifs' middles
    #[arg(long, value_name = "LENGTH", value_parser = length, allow_hyphen_values = true, conflicts_with = "lower_edge")]
    height: Option<String>,
    /// From the hem up to the motifs' lower edge
    #[arg(long, value_name = "LENGTH", value_parser = length, allow_hyphen_values = true)]
    lower_edge: Option<String>,
    /// What lies on centre front: motif, gap or best
    #[arg(long, value_name = "WHAT")]
    cf: Option<String>,
    /// Every motif of a ring so far to the wearer's left, negative to her right
    #[arg(long, value_name = "LENGTH", value_parser = length, allow_hyphen_values = true)]
    shift: Option<String>,
    /// Which way up: "square to hem", "bent" to follow the line, or "upright"
    #[arg(long, value_name = "WAY")]
    stance: Option<String>,
    /// A place such as a pocket that no motif may reach into, along the hem from CF: "100mm to 350mm"; may be given several times
    #[arg(long = "keep-out", value_name = "FROM to TO", value_parser = keep_out, allow_hyphen_values = true)]
    keep_out: Vec<FromTo>,
    /// "as drawn", "mirrored right" or "alternating"
    #[arg(long, value_name = "HANDS")]
    hands: Option<String>,
    /// Spare motifs of each hand and size
    #[arg(long, value_name = "NUMBER")]
    spares: Option<u32>,
    /// Sheet size of the films: 300x500mm
    #[arg(long, value_name = "SIZE")]
    sheet: Option<String>,
    /// Price of a sheet
    #[arg(long, value_name = "PRICE", requires = "sheet")]
    price: Option<f64>,
    /// Class of the films: smooth, glitter, and others that "hemwright materials" lists
    #[arg(long, value_name = "CLASS")]
    film: Option<String>,
    /// Cloth of the garment, as "hemwright materials" lists it
    #[arg(long, value_name = "CLOTH")]
    cloth: Option<String>,
    /// Plate of the press, along the hem x up the garment, or one that "hemwright materials" lists
    #[arg(long, value_name = "SIZE")]
    plate: Option<String>,
    /// Press temperature from the film maker's sheet: 150C, 300F
    #[arg(long, value_name = "TEMPERATURE", value_parser = heat, allow_hyphen_values = true)]
    temperature: Option<String>,
    /// Press time from the film maker's sheet: 15s
    #[arg(long, value_name = "TIME", value_parser = time, allow_hyphen_values = true)]
    dwell: Option<String>,
    /// A4 or Letter
    #[arg(long, value_name = "PAPER")]
    paper: Option<String>,
    /// What the job is called on the papers
    #[arg(long, value_name = "NAME")]
    name: Option<String>,
}

impl DraftArgs {
    /// The draft of a job that can be planned, or what is still wanted.
    ///
    /// # Errors
    /// [`Trouble::Wanting`] with the flags that are missing.
    pub(crate) fn draft(&self) -> Result<Draft, Trouble> {
        let mut wanting = Vec::new();
        if self.motifs.is_empty() {
            wanting.push("--motif SVG");
        }
        if self.hem_draft().is_none() {
            wanting.push("--hem LENGTH, or --waist LENGTH --length LENGTH, or --straight LENGTH");
        }
        if self.gap.is_none() && self.count.is_none() {
            wanting.push("--gap LENGTH, or --count NUMBER");
        }
        if wanting.is_empty() { Ok(self.part()) } else { Err(Trouble::Wanting { flags: wanting }) }
    }

    /// The draft as far as the flags go.
    pub(crate) fn part(&self) -> Draft {
        let given = self.clone();
        Draft {
            name: given.name,
            cloth: given.cloth,
            hem: self.hem_draft(),
            open: given.open,
            opening: given.opening,
            underlap: given.underlap,
            seams: given.seams,
            art: given.motifs,
            width: given.width,
            height: given.height,
            lower_edge: given.lower_edge,
            gap: given.gap,
            count: given.count,
            cf: given.cf,
            shift: given.shift,
            stance: given.stance,
            keep_out: given.keep_out.into_iter().map(|FromTo(from, to)| (from, to)).collect(),
            hands: given.hands,
            spares: given.spares,
            sheet: given.sheet,
            price: given.price,
            film: given.film,
            plate: given.plate,
            temperature: given.temperature,
            dwell: given.dwell,
            paper: given.paper,
        }
    }

    fn hem_draft(&self) -> Option<HemDraft> {
        if let Some(hem) = &self.hem {
            return Some(HemDraft::Measured { hem: hem.clone(), sweep: self.sweep.clone() });
        }
        if let (Some(waist), Some(length)) = (&self.waist, &self.length) {
            let fraction = self.fraction.clone();
            return Some(HemDraft::Circle { waist: waist.clone(), length: length.clone(), fraction });
        }
        self.straight.as_ref().map(|length| HemDraft::Straight { length: length.clone() })
    }

    /// The flags that were given.
    pub(crate) fn given(&self) -> Vec<&'static str> {
        let all = [
            ("--motif", !self.motifs.is_empty()),
            ("--width", self.width.is_some()),
            ("--hem", self.hem.is_some()),
            ("--sweep", self.sweep.is_some()),
            ("--waist", self.waist.is_some()),
            ("--length", self.length.is_some()),
            ("--fraction", self.fraction.is_some()),
            ("--straight", self.straight.is_some()),
            ("--open", self.open),
            ("--opening", self.opening.is_some()),
            ("--underlap", self.underlap.is_some()),
            ("--seam", !self.seams.is_empty()),
            ("--gap", self.gap.is_some()),
            ("--count", self.count.is_some()),
            ("--height", self.height.is_some()),
            ("--lower-edge", self.lower_edge.is_some()),
            ("--cf", self.cf.is_some()),
            ("--shift", self.shift.is_some()),
            ("--stance", self.stance.is_some()),
            ("--keep-out", !self.keep_out.is_empty()),
            ("--hands", self.hands.is_some()),
            ("--spares", self.spares.is_some()),
            ("--sheet", self.sheet.is_some()),
            ("--price", self.price.is_some()),
            ("--film", self.film.is_some()),
            ("--cloth", self.cloth.is_some()),
            ("--plate", self.plate.is_some()),
            ("--temperature", self.temperature.is_some()),
            ("--dwell", self.dwell.is_some()),
            ("--paper", self.paper.is_some()),
            ("--name", self.name.is_some()),
        ];
        all.into_iter().filter(|(_, given)| *given).map(|(flag, _)| flag).collect()
    }

    /// File name of the first drawing, from which a folder is named.
    pub(crate) fn first_motif(&self) -> Option<&str> {
        self.motifs.first().map(String::as_str)
    }
}

/// A stretch of the hem as typed.
#[derive(Clone, Debug)]
pub(crate) struct FromTo(String, String);

/// Two lengths with "to" between them.
fn keep_out(text: &str) -> Result<FromTo, String> {
    let (from, to) = text.split_once(" to ").ok_or("write from where to where along the hem: \"100mm to 350mm\"")?;
    let checked = |text: &str| length(text.trim()).map_err(|fault| fault.to_string());
    Ok(FromTo(checked(from)?, checked(to)?))
}

/// Refuses at once what is no length, with the flag's name; the words are kept as typed.
pub(super) fn length(text: &str) -> Result<String, length_text::LengthTextError> {
    length_text::parse(text).map(|_| text.to_owned())
}

fn heat(text: &str) -> Result<String, heat_text::HeatTextError> {
    heat_text::parse(text).map(|_| text.to_owned())
}

fn time(text: &str) -> Result<String, time_text::TimeTextError> {
    time_text::parse(text).map(|_| text.to_owned())
}
