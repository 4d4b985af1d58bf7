//! Every rule of heat asked of every closure.

use super::limits::films;
use super::limits::risk::{Meeting, Risks};
use super::plates::laying::LaidOut;
use super::work::order;
use super::{HeatRisk, Inputs};

/// Everything the rules say about what lies under the plates, and about the order of work.
pub(super) fn of(laid_out: &LaidOut, inputs: &Inputs<'_>) -> Vec<HeatRisk> {
    let mut risks = Risks::default();
    let hottest = laid_out.hottest();
    for (index, layer) in laid_out.layers.iter().enumerate() {
        risks.kept_away(layer, hottest);
        for (closure, round) in laid_out.closures.iter().zip(&laid_out.rounds) {
            if laid_out.laid[round.place].meets[index] {
                let (press, classes) = (closure.temperature, round.classes.as_slice());
                risks.meet(Meeting { layer, closure: closure.number, press, classes }, inputs.setup);
            }
        }
    }
    films::check(laid_out, inputs.setup, &mut risks);
    films::against_the_test(laid_out, inputs.setup, &mut risks);
    order::contradictions(laid_out, &mut risks);
    risks.reported()
}
