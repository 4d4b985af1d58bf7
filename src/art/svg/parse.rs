//! The text parsed, with nothing outside it touched.

use crate::art::error::ArtError;
use crate::art::labels::Labelled;
use crate::art::{Excess, hostile};
use usvg::{ImageHrefResolver, Options, Tree};

pub(super) fn parse(labelled: &Labelled, file: &str) -> Result<Tree, ArtError> {
    let document = hostile::parse(&labelled.svg, file)?;
    let options = Options {
        image_href_resolver: ImageHrefResolver {
            resolve_data: Box::new(|_, _, _| None),
            resolve_string: Box::new(|_, _| None),
        },
        ..Options::default()
    };
    Tree::from_xmltree(&document, &options).map_err(|error| match error {
        usvg::Error::InvalidSize => ArtError::BadSize { file: file.to_owned() },
        usvg::Error::ElementsLimitReached => hostile::excess(file, Excess::Elements, hostile::MOST_ELEMENTS.into()),
        // Copies that lead back to themselves by a detour are followed until the parser's own limit on depth.
        usvg::Error::ParsingFailed(roxmltree::Error::NodesLimitReached) => {
            hostile::excess(file, Excess::Depth, hostile::DEEPEST.into())
        }
        other => ArtError::Refused { file: file.to_owned(), what: other.to_string() },
    })
}
