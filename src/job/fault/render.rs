//! Faults as text, at their lines of the file.

use std::ops::Range;

use annotate_snippets::{AnnotationKind, Level, Renderer, Snippet};

use super::Fault;

/// How messages are rendered.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Look {
    /// For a file or pipe.
    Plain,
    /// For a terminal.
    Coloured,
}

impl Look {
    pub(super) fn renderer(self) -> Renderer {
        match self {
            Self::Plain => Renderer::plain(),
            Self::Coloured => Renderer::styled(),
        }
    }
}

pub(super) fn render_fault(renderer: &Renderer, file: &str, text: &str, fault: &Fault) -> String {
    rendered(renderer, (file, text), fault.at.clone(), &fault.kind.to_string(), fault.kind.hint().as_deref())
}

fn rendered(
    renderer: &Renderer,
    (file, text): (&str, &str),
    at: Option<Range<usize>>,
    say: &str,
    hint: Option<&str>,
) -> String {
    let title = Level::ERROR.primary_title(say);
    let hint = hint.map(|hint| Level::NOTE.with_name("hint").message(hint));
    match at.and_then(|at| on_one_line(text, at)) {
        Some(at) => {
            let snippet = Snippet::source(text).path(file).annotation(AnnotationKind::Primary.span(at));
            renderer.render(&[title.element(snippet).elements(hint)])
        }
        None => {
            let origin = annotate_snippets::Origin::path(file);
            renderer.render(&[title.element(origin).elements(hint)])
        }
    }
}

/// The part of a span that lies on its first line and on character borders: a table's fault points at its heading.
fn on_one_line(text: &str, at: Range<usize>) -> Option<Range<usize>> {
    let from = text.get(at.start..)?;
    let line = from.find(['\n', '\r']).unwrap_or(from.len());
    let end = at.end.clamp(at.start, at.start + line);
    text.is_char_boundary(end).then_some(at.start..end)
}
