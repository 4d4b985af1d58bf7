//! Why a drawing cannot be read at all.

use std::fmt;

use crate::finding::Finding;
use crate::quantity::Mm;

/// Why a drawing cannot be read at all.
///
/// Limits on size and depth are kept against hostile files; a hand-drawn flower stays a thousandfold below them.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum ArtError {
    /// The text is no well-formed XML.
    NotXml {
        /// The drawing's file.
        file: String,
        /// Line of the fault.
        line: u32,
        /// What the parser says about it.
        what: String,
    },
    /// The text is a job file, not a drawing.
    JobFile {
        /// The drawing's file.
        file: String,
    },
    /// The outermost element is not an SVG drawing.
    NotSvg {
        /// The drawing's file.
        file: String,
        /// Name of the outermost element.
        found: String,
    },
    /// Width or height of the drawing is zero, negative or no number.
    BadSize {
        /// The drawing's file.
        file: String,
    },
    /// No physical size in the drawing and none asked for.
    NoSize {
        /// The drawing's file.
        file: String,
    },
    /// No physical size in a drawing whose lines are to be measured.
    NoScale {
        /// The drawing's file.
        file: String,
    },
    /// A width that no motif can have was asked for.
    BadWidth {
        /// The drawing's file.
        file: String,
        /// The width asked for.
        width: Mm,
    },
    /// The motif would be larger than any garment.
    TooLarge {
        /// The drawing's file.
        file: String,
        /// Its larger side.
        side: Mm,
        /// The largest side taken.
        limit: Mm,
    },
    /// Nothing in the drawing can be cut.
    NothingToCut {
        /// The drawing's file.
        file: String,
        /// What was left out, and why.
        left_out: Vec<Finding>,
    },
    /// A point lies beyond any sensible drawing, or is no number.
    OutOfRange {
        /// The drawing's file.
        file: String,
        /// The element.
        element: String,
        /// Its line, where known.
        line: Option<u32>,
    },
    /// A limit kept against hostile files is passed.
    TooMuch {
        /// The drawing's file.
        file: String,
        /// What there is too much of.
        what: Excess,
        /// The most that is taken.
        limit: u64,
    },
    /// The SVG parser refuses the drawing.
    Refused {
        /// The drawing's file.
        file: String,
        /// What the parser says about it.
        what: String,
    },
    /// The parser gave up on the drawing in a way it should not.
    ReaderFailed {
        /// The drawing's file.
        file: String,
    },
}

/// What a drawing has too much of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Excess {
    /// Bytes in the file.
    Bytes,
    /// Elements, with every copy counted.
    Elements,
    /// Attributes on one element.
    Attributes,
    /// Groups within groups, with the chains of copies followed.
    Depth,
    /// Style rules times elements they must be tried on.
    StyleRules,
    /// Points on all outlines.
    Points,
    /// Edges that lie across each other.
    Crossings,
    /// Comparisons between overlapping shapes.
    Overlaps,
}

impl Excess {
    const fn words(self) -> &'static str {
        match self {
            Self::Bytes => "bytes",
            Self::Elements => "elements, copies counted",
            Self::Attributes => "attributes on one element",
            Self::Depth => "groups within groups",
            Self::StyleRules => "style rules times elements",
            Self::Points => "points on its outlines",
            Self::Crossings => "edges lying across each other",
            Self::Overlaps => "shapes lying over each other",
        }
    }
}

/// What the XML reader says, without the place that is told already, and in a maker's words where it means that there is no drawing.
fn plainly(what: &str) -> &str {
    let what = what.rsplit_once(" at ").map_or(what, |(what, _)| what);
    match what {
        "unknown token" => "this is no text of a drawing, which begins with <svg",
        "the document does not have a root node" => "there is nothing of a drawing in it",
        what => what,
    }
}

impl fmt::Display for ArtError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotXml { file, line, what } => {
                write!(f, "{file} is not an SVG drawing: line {line}: {}", plainly(what))
            }
            Self::JobFile { file } => write!(f, "{file} is a job file, not a drawing"),
            Self::NotSvg { file, found } => {
                write!(f, "{file} is not an SVG drawing: its outermost element is <{found}>, not <svg>")
            }
            Self::BadSize { file } => write!(f, "{file} gives its drawing a width or height of nothing"),
            Self::NoSize { file } => write!(f, "{file} states no size in mm, cm or inches, and no width was asked for"),
            Self::NoScale { file } => {
                write!(f, "{file} states no size in mm, cm or inches, so its lines have no length")
            }
            Self::BadWidth { file, width } => write!(f, "{file} cannot be made {width} wide"),
            Self::TooLarge { file, side, limit } => {
                write!(f, "{file} would be {side:.0} on its longer side, more than the {limit:.0} that is taken")
            }
            Self::NothingToCut { file, left_out } => {
                write!(f, "{file} holds nothing that can be cut")?;
                match left_out.len() {
                    0 => Ok(()),
                    1 => write!(f, "; one thing was left out"),
                    many => write!(f, "; {many} things were left out"),
                }
            }
            Self::OutOfRange { file, element, line } => {
                write!(f, "{file}: {element}")?;
                if let Some(line) = line {
                    write!(f, " (line {line})")?;
                }
                f.write_str(" has a point that is no number or lies more than 10 km out")
            }
            Self::TooMuch { file, what, limit } => {
                write!(f, "{file} is too intricate: more than {limit} {}", what.words())
            }
            Self::Refused { file, what } => write!(f, "{file} could not be read: {what}"),
            Self::ReaderFailed { file } => write!(f, "{file} could not be read; the drawing is damaged in a rare way"),
        }
    }
}

impl std::error::Error for ArtError {}

impl ArtError {
    /// What the maker can do.
    #[must_use]
    pub fn hint(&self) -> String {
        match self {
            Self::NotXml { .. } | Self::NotSvg { .. } | Self::Refused { .. } => {
                "export the drawing again as plain SVG from the tool it was drawn in".to_owned()
            }
            Self::JobFile { file } => {
                format!("hemwright plan {file}  plans the job; drawings are the SVG files that it names under art")
            }
            Self::BadSize { .. } => "set the page of the drawing to the finished size and save it again".to_owned(),
            Self::NoSize { .. } => "say how wide the finished motif is, such as 60 mm".to_owned(),
            Self::NoScale { .. } => {
                "give the page a width in millimetres in your drawing tool, and draw full size".to_owned()
            }
            Self::BadWidth { .. } => "give a width above nothing, such as 60 mm".to_owned(),
            Self::TooLarge { .. } => "check the unit of the width; a motif is rarely wider than 500 mm".to_owned(),
            Self::NothingToCut { left_out, .. } => left_out.first().map_or_else(
                || "draw closed shapes filled with the colour of the film".to_owned(),
                |finding| format!("first of what was left out: {} {}", finding.say, finding.advice),
            ),
            Self::OutOfRange { .. } => "delete that shape, or draw it again nearer the page".to_owned(),
            Self::TooMuch { what: Excess::Bytes, .. } => {
                "remove embedded pictures; a motif drawing is rarely larger than 1 MB".to_owned()
            }
            Self::TooMuch { what: Excess::Depth, .. } => {
                "ungroup the drawing once or twice and save it again".to_owned()
            }
            Self::TooMuch { .. } => "simplify the drawing, or draw it again with fewer points".to_owned(),
            Self::ReaderFailed { .. } => {
                "open the drawing in another drawing tool and export it as plain SVG".to_owned()
            }
        }
    }
}
