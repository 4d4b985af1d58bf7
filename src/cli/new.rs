//! `hemwright new`: writes a commented job file from flags, or from a few plain questions.

use std::io::{self, BufRead, IsTerminal as _, Write};
use std::path::{Path, PathBuf};

use hemwright::job::{self, Draft, HemDraft};
use hemwright::quantity::length_text;

use super::args::NewArgs;
use super::trouble::Trouble;
use super::{folder, input, say};

pub(crate) fn run(args: &NewArgs) -> Result<(), Trouble> {
    if std::fs::symlink_metadata(&args.file).is_ok() {
        return Err(Trouble::FileThere { path: args.file.clone() });
    }
    let mut draft = match args.draft.draft() {
        Ok(draft) => draft,
        Err(wanting) if !can_ask() => return Err(wanting),
        Err(_) => ask(args.draft.part(), &mut io::stdin().lock(), &mut io::stderr())?,
    };
    for art in &mut draft.art {
        input::read_drawing(Path::new(art))?;
        *art = beside(&args.file, art)?;
    }
    let text = draft.to_toml();
    job::read(&text)
        .map_err(|fault| Trouble::Job { rendered: fault.render(input::FROM_FLAGS, &text, input::look()) })?;
    folder::write_new(&args.file, text.as_bytes())?;
    let file = args.file.display();
    say::out(&format!("Wrote {file}. Change it as you like; next:  hemwright plan {file}\n"))
}

/// Questions make sense only where someone can read and answer them.
fn can_ask() -> bool {
    io::stdin().is_terminal() && io::stderr().is_terminal()
}

/// A drawing's name as seen from the job file: as typed when both lie here, otherwise in full.
fn beside(job: &Path, art: &str) -> Result<String, Trouble> {
    let here = job.parent().is_none_or(|folder| folder.as_os_str().is_empty());
    if here || Path::new(art).is_absolute() {
        return Ok(art.to_owned());
    }
    let path = std::path::absolute(art).map_err(|fault| Trouble::NotReadable { path: PathBuf::from(art), fault })?;
    Ok(path.to_string_lossy().into_owned())
}

/// Asks for what the flags left open.
fn ask(mut draft: Draft, answers: &mut impl BufRead, questions: &mut impl Write) -> Result<Draft, Trouble> {
    let mut desk = Desk { answers, questions };
    if draft.art.is_empty() {
        draft.art = vec![desk.word("Drawing of the motif, an SVG file", "flower.svg")?];
    }
    if draft.width.is_none() {
        draft.width = Some(desk.length("Finished width of the motif", "60 mm")?);
    }
    if draft.hem.is_none() {
        draft.hem = Some(desk.hem(&draft)?);
    }
    if draft.gap.is_none() && draft.count.is_none() {
        draft.gap = Some(desk.length("Smallest gap you like between two motifs", "40 mm")?);
    }
    if draft.cloth.is_none() {
        let question = "Cloth of the garment, as \"hemwright materials\" lists it; Enter when not sure";
        draft.cloth = desk.sound(question, |cloth| Draft { cloth, ..draft.clone() })?;
    }
    Ok(draft)
}

/// What is wrong with a draft, each fault with what to do.
fn faults(draft: &Draft) -> Vec<String> {
    let Err(error) = job::read(&draft.to_toml()) else { return Vec::new() };
    let say = |fault: &job::Fault| {
        let hint = fault.kind.hint().map_or_else(String::new, |hint| format!("; {hint}"));
        format!("{}{hint}", fault.kind)
    };
    error.faults().iter().map(say).collect()
}

/// Where questions are put and answered.
struct Desk<'a, A, Q> {
    answers: &'a mut A,
    questions: &'a mut Q,
}

impl<A: BufRead, Q: Write> Desk<'_, A, Q> {
    /// One line, without what surrounds it.
    fn line(&mut self) -> Result<String, Trouble> {
        let mut line = String::new();
        let read = self.answers.read_line(&mut line).map_err(|fault| Trouble::Output { fault })?;
        if read == 0 { Err(Trouble::Stopped) } else { Ok(line.trim().to_owned()) }
    }

    fn put(&mut self, question: &str) -> Result<(), Trouble> {
        write!(self.questions, "{question}: ")
            .and_then(|()| self.questions.flush())
            .map_err(|fault| Trouble::Output { fault })
    }

    fn optional(&mut self, question: &str) -> Result<String, Trouble> {
        self.put(question)?;
        self.line()
    }

    /// Asks until the answer is empty or adds no fault to the draft it is put into.
    fn sound(&mut self, question: &str, put: impl Fn(Option<String>) -> Draft) -> Result<Option<String>, Trouble> {
        let without = faults(&put(None));
        loop {
            let answer = Some(self.optional(question)?).filter(|answer| !answer.is_empty());
            let mut own = faults(&put(answer.clone()));
            own.retain(|fault| !without.contains(fault));
            if own.is_empty() {
                return Ok(answer);
            }
            for fault in own {
                writeln!(self.questions, "  {fault}").map_err(|fault| Trouble::Output { fault })?;
            }
        }
    }

    fn word(&mut self, question: &str, example: &str) -> Result<String, Trouble> {
        loop {
            let answer = self.optional(&format!("{question} (for instance {example})"))?;
            if !answer.is_empty() {
                return Ok(answer);
            }
        }
    }

    /// Asks until the answer is a length above zero.
    fn length(&mut self, question: &str, example: &str) -> Result<String, Trouble> {
        loop {
            let answer = self.word(question, example)?;
            let why = match length_text::parse(&answer) {
                Ok(length) if length.get() > 0.0 => return Ok(answer),
                Ok(length) => format!("{length} is not more than zero"),
                Err(fault) => fault.to_string(),
            };
            writeln!(self.questions, "  {why}").map_err(|fault| Trouble::Output { fault })?;
        }
    }

    /// The shape of the hem; `so_far` is the draft it belongs to.
    fn hem(&mut self, so_far: &Draft) -> Result<HemDraft, Trouble> {
        loop {
            let kind = self.optional(
                "Is the skirt part of a circle (c), its hem measured by tape (t), or the band straight (s)? c, t or s",
            )?;
            match kind.to_lowercase().as_str() {
                "c" => {
                    let waist = self.length("Finished waist", "72 cm")?;
                    let length = self.length("From waist to hem", "70 cm")?;
                    let with = |fraction| HemDraft::Circle { waist: waist.clone(), length: length.clone(), fraction };
                    let question =
                        "Part of a circle: full, 3/4, half, third, quarter, double, or a number; Enter for full";
                    let fraction =
                        self.sound(question, |fraction| Draft { hem: Some(with(fraction)), ..so_far.clone() })?;
                    return Ok(with(fraction));
                }
                "t" => {
                    let hem = self.length("Length of the finished hem by tape", "5118 mm")?;
                    return Ok(HemDraft::Measured { hem, sweep: None });
                }
                "s" => return Ok(HemDraft::Straight { length: self.length("Length of the band", "2400 mm")? }),
                _ => {}
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn asked(answers: &str) -> (Result<Draft, Trouble>, String) {
        let mut questions = Vec::new();
        let draft = ask(Draft::default(), &mut answers.as_bytes(), &mut questions);
        (draft, String::from_utf8(questions).unwrap())
    }

    #[test]
    fn plain_answers_make_a_job() {
        let (draft, questions) = asked("flower.svg\n60\n60 mm\nc\n72 cm\n70 cm\n40mm\nhalf\n40mm\n\n");
        assert!(questions.contains("60 has no unit"), "{questions}");
        assert!(questions.contains("\"40mm\" is not a part of a circle"), "{questions}");
        let draft = draft.unwrap();
        let hem = HemDraft::Circle { waist: "72 cm".into(), length: "70 cm".into(), fraction: Some("half".into()) };
        assert_eq!(draft.hem, Some(hem));
        assert!(job::read(&draft.to_toml()).is_ok());
    }

    #[test]
    fn answers_that_end_early_write_nothing() {
        assert!(matches!(asked("flower.svg\n").0, Err(Trouble::Stopped)));
    }

    #[test]
    fn the_shape_is_asked_for_again_until_it_is_one() {
        let (draft, questions) = asked("flower.svg\n6 cm\nround\nt\n5 m\n4 cm\nsilk-dupian\nsilk-dupion\n");
        assert_eq!(questions.matches("part of a circle (c)").count(), 2);
        assert!(questions.contains("did you mean"), "{questions}");
        assert_eq!(draft.unwrap().cloth.as_deref(), Some("silk-dupion"));
    }
}
