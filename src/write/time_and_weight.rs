//! Time and weight of the whole job in a sentence, for the papers and the page.

use super::figures::for_both;
use crate::budget::Budget;
use crate::plan::Plan;

/// `About 555 minutes in all; known weight added to the hem: 27 g.`
pub(crate) fn in_all(plan: &Plan) -> String {
    said(&plan.budget, for_both(plan))
}

fn said(budget: &Budget, whom: &str) -> String {
    let minutes = format!("About {:.0} minutes in all{whom}", budget.total.usual);
    let known = budget.parts.iter().filter(|part| part.grams.is_some()).count();
    match known {
        0 => format!("{minutes}; what this adds to the weight of the hem is not known."),
        all if all == budget.parts.len() => format!("{minutes}; weight added to the hem: {:.0} g{whom}.", budget.grams),
        _ => format!("{minutes}; known weight added to the hem: {:.0} g{whom}.", budget.grams),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::budget::Part;

    #[test]
    fn a_weight_that_nobody_knows_is_not_told_as_none() {
        let part = |grams| Part { what: "braid".to_owned(), grams, working: String::new() };
        let said = |parts: Vec<Part>| {
            let grams = parts.iter().filter_map(|part| part.grams).sum();
            super::said(&Budget { parts, grams, ..Budget::default() }, "")
        };
        assert!(said(vec![part(None)]).ends_with("is not known."));
        assert!(said(vec![part(Some(12.0))]).ends_with("; weight added to the hem: 12 g."));
        assert!(said(vec![part(Some(12.0)), part(None)]).ends_with("known weight added to the hem: 12 g."));
    }
}
