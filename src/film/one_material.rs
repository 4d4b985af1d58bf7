//! One name, one material: a film of the job is film or cloth, never both.
//!
//! Pieces of one name lie on the same sheets. Were some of them film and some cloth, they could not be cut from one sheet,
//! and some of them would be reversed there and some not.

use super::{CutWish, FilmError, LayerName, Method, Travels};

/// Every use of a name that is film in one place and cloth in another, each as an error of its own.
#[must_use]
pub fn two_materials(cuts: &[CutWish]) -> Vec<FilmError> {
    let uses: Vec<(LayerName, &str, Method)> = cuts
        .iter()
        .flat_map(|cut| cut.layers.iter().map(move |layer| (cut, layer)))
        .map(|(cut, layer)| {
            (LayerName { motif: cut.motif.clone(), colour: layer.colour }, layer.film.as_str(), layer.method)
        })
        .collect();
    let mut told: Vec<FilmError> = Vec::new();
    for (layer, film, method) in &uses {
        let unlike = |other: &&(LayerName, &str, Method)| other.1 == *film && other.2.travels() != method.travels();
        let Some((other, _, _)) = uses.iter().find(unlike) else { continue };
        let cloth = method.travels() == Travels::Singly;
        // Once for each motif is enough to find the line.
        let same = |known: &FilmError| {
            matches!(known, FilmError::TwoMaterials { film: of, layer: at, cloth: is, .. }
                if of == film && at.motif == layer.motif && *is == cloth)
        };
        if !told.iter().any(same) {
            told.push(FilmError::TwoMaterials {
                film: (*film).to_owned(),
                layer: layer.clone(),
                cloth,
                other: other.clone(),
            });
        }
    }
    told
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
mod tests {
    use std::collections::BTreeMap;

    use crate::job::read;
    use crate::plan::{Error, set_out};

    const TILE: &str = r##"<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="60mm" viewBox="0 0 60 60"><path fill="#2e7d32" d="M0 0H60V60H0Z"/><path fill="#c62828" d="M15 15H45V45H15Z"/></svg>"##;

    /// What is said of a job of two motifs, with the line of the job file it is about.
    fn told(band: &str, motifs: &str) -> Vec<(String, usize)> {
        let text =
            format!("[hem.straight]\nlength = \"1 m\"\n[[band]]\ncount = 4\nmotifs = [{band}]\n{motifs}[film.main]\n");
        let art = BTreeMap::from([("tile.svg".to_owned(), TILE.to_owned())]);
        let faults = set_out(&read(&text).unwrap(), &art).err().map(Error::each).unwrap_or_default();
        let line = |fault: &Error| 1 + text[..fault.place_in(&text).unwrap().start].matches('\n').count();
        faults.iter().map(|fault| (fault.to_string(), line(fault))).collect()
    }

    #[test]
    fn one_name_for_film_and_cloth_is_refused_at_both_its_lines() {
        let motifs = "[motif.ell]\nart = \"tile.svg\"\nfilm = \"main\"\nmethod = \"turned on right\"\n\
                      [motif.tri]\nart = \"tile.svg\"\nfilm = \"main\"\n";
        let said = told("\"ell\", \"tri\"", motifs);
        assert_eq!(said.len(), 2, "{said:?}");
        assert!(said[0].0.starts_with("\"main\" is cloth for #2e7d32 of \"ell\", but film for"), "{}", said[0].0);
        assert!(said[1].0.starts_with("\"main\" is film for #2e7d32 of \"tri\", but cloth for"), "{}", said[1].0);
        assert_eq!((said[0].1, said[1].1), (8, 12), "{said:?}");
        // What is in no band is not cut.
        assert_eq!(told("\"tri\"", motifs), []);
        // Within one motif, at the line of the colour.
        let own = "[motif.tri]\nart = \"tile.svg\"\nfilm = \"main\"\n\
                   colours = { \"#c62828\" = { film = \"main\", method = \"fused traced\" } }\n";
        let said = told("\"tri\"", own);
        assert!(said.len() == 2 && said.iter().any(|(_, line)| *line == 9), "{said:?}");
    }

    /// A colour that is film for one motif and cloth for another gets one of each.
    #[test]
    fn what_the_job_leaves_unnamed_is_kept_apart() {
        let motifs = "[motif.ell]\nart = \"tile.svg\"\nmethod = \"turned on wrong\"\n[motif.tri]\nart = \"tile.svg\"\n\
                      [motif.bar]\nart = \"tile.svg\"\nmethod = \"fused backed\"\n";
        assert_eq!(told("\"ell\", \"tri\", \"bar\"", motifs), []);
    }
}
