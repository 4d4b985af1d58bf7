//! From one garment to all that are made: the only place where trims are taken more than once.
//!
//! Every kind works its trim out for one garment. Each garment's trim is joined by itself, so strips round up to whole ones
//! for each; what is bought is bought together and rounded up once.

use super::buy::{Buy, Goods};
use super::need::{Labour, TrimNeed};
use super::strips::Strips;
use crate::place::Garments;

/// The trim of one garment as that of all: strips, purchases, price, weight and work. Lengths, edges and pleats stay those
/// of each.
pub(super) fn for_all(one: &TrimNeed, garments: Garments) -> TrimNeed {
    let (count, times) = (garments.count(), f64::from(garments.count()));
    let mut all = TrimNeed {
        garments,
        strips: one.strips.map(|strips| strips.times(count)),
        edges_to_finish: one.edges_to_finish.map(|edges| edges * times),
        grams: one.grams.map(|grams| grams * times),
        labour: one.labour.iter().map(|labour| Labour { amount: labour.amount * times, ..*labour }).collect(),
        ..one.clone()
    };
    all.buy = one.buy.iter().map(|buy| buy.needing(needed(&all, buy, times))).collect();
    all.cost = all.buy.iter().map(|buy| buy.cost).sum();
    if let Some(strips) = all.strips.filter(|_| garments != Garments::One) {
        all.working.push(cut(&strips, garments));
    }
    let bought: Vec<String> = one.buy.iter().zip(&all.buy).map(|(one, all)| bought(one, all, garments)).collect();
    all.working.extend(bought);
    all
}

/// What all garments need of one purchase: cloth as their strips lie on it, everything else so many times.
fn needed(all: &TrimNeed, buy: &Buy, times: f64) -> crate::quantity::Mm {
    match (buy.goods, all.strips) {
        (Goods::Cloth, Some(strips)) => strips.cloth,
        (Goods::Cloth | Goods::Trim | Goods::Cord, _) => buy.needed * times,
    }
}

/// `for both: 24 strips, 24 joins, 1440.0 mm of cloth`
fn cut(strips: &Strips, garments: Garments) -> String {
    let joins = if strips.joins == 1 { "join" } else { "joins" };
    format!("{}: {} strips, {} {joins}, {} of cloth", garments.words(), strips.count, strips.joins, strips.cloth)
}

/// `to buy: 5270.6 mm, so 5.3 m`, `to buy for both: 2 x 3067.3 mm = 6134.6 mm, so 6.2 m`
fn bought(one: &Buy, all: &Buy, garments: Garments) -> String {
    let what = match all.goods {
        Goods::Trim => "to buy",
        Goods::Cloth => "cloth to buy",
        Goods::Cord => "cord to buy",
    };
    let metres = all.metres();
    match (garments, all.goods) {
        (Garments::One, _) => format!("{what}: {}, so {metres}", all.needed),
        (_, Goods::Cloth) => format!("{what} {}: {}, so {metres}", garments.words(), all.needed),
        (_, Goods::Trim | Goods::Cord) => {
            let count = garments.count();
            format!("{what} {}: {count} x {:.2} = {:.2}, so {metres}", garments.words(), one.needed, all.needed)
        }
    }
}
