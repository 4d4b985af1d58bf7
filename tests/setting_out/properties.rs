//! Laws that hold for every hem, motif and wish, tried on thousands of random ones.

use super::*;
use hemwright::hem::{Flare, Godet, GodetPlace, Mark, Middle};
use hemwright::place::{Evenness, KeepOut, Lands, Order, Placement, RowOffset, Rows};
use proptest::prelude::*;

fn measurements() -> impl Strategy<Value = Measurements> {
    let length = |least: f64, most: f64| (least..most).prop_map(mm);
    prop_oneof![
        (0.25..2.0, length(200.0, 1200.0), length(300.0, 1200.0))
            .prop_map(|(fraction, waist, length)| Measurements::Circle { fraction, waist, length }),
        (length(200.0, 1200.0), length(500.0, 1000.0), 0.0..80.0, 0.0..200.0).prop_map(|(waist, side, front, back)| {
            Measurements::Oval { waist, front: side - mm(front), side, back: side + mm(back), tape: None }
        }),
        (length(400.0, 1500.0), 0.6..1.0)
            .prop_map(|(a, ratio)| Measurements::Ellipse { front_back: a * ratio, side_side: a }),
        (length(500.0, 6000.0), -1.0..12.0)
            .prop_map(|(hem, sweep)| Measurements::Measured { hem, flare: Flare::Sweep(sweep) }),
        (length(200.0, 1200.0), length(400.0, 1000.0), 0.0..100.0, 0.0..700.0).prop_map(
            |(waist, front, down, train)| {
                Measurements::Train { waist, front, side: front + mm(down), back: front + mm(down + train) }
            }
        ),
        (length(600.0, 2400.0), 0.6..1.4)
            .prop_map(|(width, ratio)| Measurements::Cloth { width, depth: width * ratio }),
        (length(800.0, 4000.0), length(60.0, 400.0), length(250.0, 500.0)).prop_map(|(hem, width, height)| {
            let marks = [Mark::SideLeft, Mark::SideRight].map(GodetPlace::Mark);
            let godets = marks.map(|at| Godet { at, width, height, keep_clear: mm(12.0) }).to_vec();
            Measurements::Godets { hem: Box::new(Measurements::Straight { length: hem }), godets }
        }),
    ]
}

fn ends() -> impl Strategy<Value = Ends> {
    let clear = || (0.0..40.0).prop_map(mm);
    prop_oneof![
        2 => Just(Ends::Closed),
        1 => (clear(), -0.5..0.5).prop_map(|(keep_clear, share)| Ends::Opening {
            at: if share > 0.2 { Mark::CentreBack } else { Mark::SideLeft },
            underlap: mm(30.0),
            keep_clear,
        }),
        1 => clear().prop_map(|keep_clear| Ends::Open { keep_clear, middle: Middle::CentreFront }),
    ]
}

#[derive(Clone, Debug)]
struct Case {
    hem: HemWish,
    motif: (f64, f64),
    /// One that takes turns with it.
    second: Option<(f64, f64)>,
    band: BandWish,
}

fn case() -> impl Strategy<Value = Case> {
    let seams = prop_oneof![
        Just(vec![]),
        (5.0..25.0).prop_map(|clear| {
            let seam = |(name, at): (&str, Mark)| Seam { name: name.to_owned(), at, keep_clear: mm(clear) };
            [("left", Mark::SideLeft), ("right", Mark::SideRight)].map(seam).to_vec()
        }),
    ];
    let anchor = prop_oneof![Just(Anchor::Motif), Just(Anchor::Gap), Just(Anchor::Best)];
    let hands = prop_oneof![Just(Hands::AsDrawn), Just(Hands::MirroredRight), Just(Hands::Alternating)];
    let rhythm = prop_oneof![
        3 => Just(Rhythm::default()),
        1 => Just(Rhythm { evenness: Evenness::BetweenSeams, ..Rhythm::default() }),
        1 => Just(Rhythm {
            evenness: Evenness::BetweenSeams,
            order: Order::MirroredAboutMiddle,
            sizes: vec![1.3, 1.0],
            ..Rhythm::default()
        }),
        1 => Just(Rhythm { order: Order::MirroredAboutMiddle, sizes: vec![1.3, 1.0], ..Rhythm::default() }),
        1 => (5.0..40.0).prop_map(|rise| Rhythm { wave: Some(mm(rise)), ..Rhythm::default() }),
    ];
    // A pocket anywhere, as deep as the band or wholly above it.
    let pocket = (-0.5..0.45, 20.0..200.0, prop_oneof![3 => Just(0.0), 1 => Just(600.0)], 0.0..25.0);
    let keep_out = prop_oneof![
        3 => Just(None),
        1 => pocket.prop_map(Some),
    ];
    let size = || (40.0..140.0, 20.0..140.0);
    let motif = (size(), prop_oneof![3 => Just(None), 1 => size().prop_map(Some)]);
    (measurements(), ends(), seams, motif, 0.0..150.0, 0.0..80.0, (anchor, hands), (rhythm, keep_out)).prop_map(
        |(measurements, ends, seams, (motif, second), height, gap, (on_cf, hands), (rhythm, pocket))| {
            let hem = HemWish { measurements, ends, seams, hung: vec![] };
            let length = shape(&hem).map_or(Mm::ZERO, |hem| hem.length());
            let open = matches!(hem.ends, Ends::Open { .. });
            let place = |(share, long, from, clear): (f64, f64, f64, f64)| KeepOut {
                name: "pocket".to_owned(),
                along: {
                    let to = length * share + mm(long);
                    (length * share, if open { to.min(length / 2.0) } else { to })
                },
                heights: (mm(from), None),
                clear: mm(clear),
                line: None,
            };
            let keep_out = pocket.map(place).into_iter().collect();
            let band = band("tile", height + 70.0, Spacing::AtLeast(mm(gap)));
            let names = if second.is_some() { vec!["tile", "bud"] } else { vec!["tile"] };
            let motifs = names.into_iter().map(str::to_owned).collect();
            Case { hem, motif, second, band: BandWish { motifs, on_cf, hands, rhythm, keep_out, ..band } }
        },
    )
}

/// A rectangle that has a hand: a twentieth of its width is cut off one corner. Its sides still reach as far as the whole one's.
fn nicked(name: &str, width: f64, height: f64) -> Motif {
    let (x, y, nick) = (width / 2.0, height / 2.0, (width / 20.0).min(height / 2.0));
    let corners = [(-x, -y), (x - nick, -y), (x, nick - y), (x, y), (-x, y)];
    motif(name, Ring::new(corners.map(Point::from)).unwrap())
}

impl Case {
    /// The setting; `None` where the hem or band cannot be had, which other tests look at.
    fn set_out(&self) -> Option<(Hem, BandSetting)> {
        let hem = shape(&self.hem).ok()?;
        let tile = nicked("tile", self.motif.0, self.motif.1);
        let bud = self.second.map(|(width, height)| nicked("bud", width, height));
        let found = try_setting(&hem, &bud.into_iter().chain([tile]).collect::<Vec<_>>(), &self.band).ok()?;
        Some((hem, found.bands.into_iter().next()?))
    }

    /// The same seen in a mirror; seams lie on both sides anyway.
    fn mirrored(&self) -> Self {
        let ends = match self.hem.ends.clone() {
            Ends::Opening { at: Mark::SideLeft, underlap, keep_clear } => {
                Ends::Opening { at: Mark::SideRight, underlap, keep_clear }
            }
            other => other,
        };
        let flipped = |place: &KeepOut| KeepOut { along: (-place.along.1, -place.along.0), ..place.clone() };
        let keep_out = self.band.keep_out.iter().map(flipped).collect();
        let band = BandWish { keep_out, ..self.band.clone() };
        Self { hem: HemWish { ends, ..self.hem.clone() }, band, ..self.clone() }
    }

    fn scaled(&self, factor: f64) -> Self {
        let by = |length: Mm| length * factor;
        let measurements = match self.hem.measurements.clone() {
            Measurements::Circle { fraction, waist, length } => {
                Measurements::Circle { fraction, waist: by(waist), length: by(length) }
            }
            Measurements::Oval { waist, front, side, back, .. } => {
                Measurements::Oval { waist: by(waist), front: by(front), side: by(side), back: by(back), tape: None }
            }
            Measurements::Ellipse { front_back, side_side } => {
                Measurements::Ellipse { front_back: by(front_back), side_side: by(side_side) }
            }
            Measurements::Measured { hem, flare } => Measurements::Measured { hem: by(hem), flare },
            Measurements::Train { waist, front, side, back } => {
                Measurements::Train { waist: by(waist), front: by(front), side: by(side), back: by(back) }
            }
            Measurements::Cloth { width, depth } => Measurements::Cloth { width: by(width), depth: by(depth) },
            Measurements::Godets { hem, godets } => {
                let Measurements::Straight { length } = *hem else { panic!("godets are let into straight hems here") };
                let sized = godets.into_iter().map(|godet| Godet {
                    width: by(godet.width),
                    height: by(godet.height),
                    keep_clear: by(godet.keep_clear),
                    ..godet
                });
                let hem = Box::new(Measurements::Straight { length: by(length) });
                Measurements::Godets { hem, godets: sized.collect() }
            }
            other => other,
        };
        let ends = match self.hem.ends {
            Ends::Closed => Ends::Closed,
            Ends::Opening { at, underlap, keep_clear } => {
                Ends::Opening { at, underlap: by(underlap), keep_clear: by(keep_clear) }
            }
            Ends::Open { keep_clear, middle } => Ends::Open { keep_clear: by(keep_clear), middle },
        };
        let mut seams = self.hem.seams.clone();
        for seam in &mut seams {
            seam.keep_clear = by(seam.keep_clear);
        }
        let rhythm = Rhythm { wave: self.band.rhythm.wave.map(by), ..self.band.rhythm.clone() };
        let mut keep_out = self.band.keep_out.clone();
        for place in &mut keep_out {
            place.along = (by(place.along.0), by(place.along.1));
            place.heights.0 = by(place.heights.0);
            place.clear = by(place.clear);
        }
        let spacing = match self.band.spacing {
            Spacing::AtLeast(gap) => Spacing::AtLeast(by(gap)),
            other => other,
        };
        Self {
            hem: HemWish { measurements, ends, seams, hung: vec![] },
            motif: (self.motif.0 * factor, self.motif.1 * factor),
            second: self.second.map(|(width, height)| (width * factor, height * factor)),
            band: BandWish { height: by(self.band.height), spacing, rhythm, keep_out, ..self.band.clone() },
        }
    }
}

/// As many cases as usual, or as PROPTEST_CASES says.
fn config() -> ProptestConfig {
    ProptestConfig { failure_persistence: None, ..ProptestConfig::default() }
}

/// Eight times as many (2048 in a usual run), where the law is the whole promise of setting out.
fn thousands() -> ProptestConfig {
    let usual = config();
    ProptestConfig { cases: usual.cases * 8, ..usual }
}

/// Length of the line a motif sits on; its row's own is known, and a line costs as much as all else here.
fn length_at(hem: &Hem, found: &BandSetting, placed: &Placement) -> Mm {
    let on_row = (placed.height - found.height).abs().get() < 1e-9;
    if on_row { found.line } else { hem.line_at(placed.height).unwrap().length() }
}

/// What a motif covers of its row's line: one on the upper line of a wave more, by as much as that line is shorter.
fn width(case: &Case, (hem, found): (&Hem, &BandSetting), placed: &Placement) -> f64 {
    let own = length_at(hem, found, placed);
    let drawn = if placed.motif == "bud" { case.second.map_or(0.0, |bud| bud.0) } else { case.motif.0 };
    drawn * placed.scale * (found.line / own)
}

proptest! {
    #![proptest_config(thousands())]

    /// What is promised is kept: count, order, gap, ends, keep-clear or a clash that says it cannot be.
    #[test]
    fn every_setting_keeps_its_word(case in case()) {
        let Some((hem, found)) = case.set_out() else { return Ok(()) };
        prop_assert_eq!(found.count as usize, found.placements.len());
        let line = hem.line_at(found.height).unwrap();
        let (least, greatest) = line.span();
        let Spacing::AtLeast(gap) = case.band.spacing else { return Ok(()) };
        if found.count > 1 {
            prop_assert!(found.gap_along.get() >= gap.get() - 0.0011, "gap {} of {gap}", found.gap_along);
        }
        let width = |placed: &Placement| width(&case, (&hem, &found), placed);
        for pair in found.placements.windows(2) {
            let between = pair[1].s_line - pair[0].s_line - mm((width(&pair[0]) + width(&pair[1])) / 2.0);
            prop_assert!(between.get() >= found.gap_along.get() - 1e-6);
        }
        for placed in &found.placements {
            prop_assert!(placed.s_line >= least - mm(0.01) && placed.s_line <= greatest + mm(0.01));
            prop_assert!((line.to_hem(placed.s_line).get() - placed.s_hem.get()).abs() < 1e-6);
            if let Ends::Open { keep_clear, .. } = case.hem.ends {
                let half = mm(width(placed) / 2.0);
                // One on the upper line of a wave keeps it on that line, where the hem narrows upward more of this one.
                let bare = keep_clear * (found.line / length_at(&hem, &found, placed));
                prop_assert!(placed.s_line - half >= least + bare - mm(0.0011));
                prop_assert!(placed.s_line + half <= greatest - bare + mm(0.0011));
            }
        }
        // Asked stretch by stretch, gaps and not middles are even in each, whatever the widths that take turns.
        if case.band.rhythm.evenness == Evenness::BetweenSeams && found.reasons[0].contains("set out on its own") {
            even_in_stretches(&case, (&hem, &found))?;
        }
        // Brute force over marks and motifs: a motif too near is told, and nothing else is.
        for mark in hem.marks().iter().filter(|mark| !mark.name.contains("end")) {
            let Some(wanted) = mark.keep_clear else { continue };
            let place = line.from_hem(mark.s_hem);
            for placed in &found.placements {
                let apart = (placed.s_line - place).abs().get();
                let apart = if hem.is_closed() { apart.min(line.length().get() - apart) } else { apart };
                let clear = apart - width(placed) / 2.0;
                let told = found.clashes.iter().any(|clash| clash.placement == placed.id && clash.with == mark.name);
                prop_assert!(told == (clear < wanted.get() - 0.001) || (clear - wanted.get()).abs() < 0.002);
            }
        }
        // The same for places to keep out of that the band reaches up to.
        let tallest = case.second.map_or(0.0, |bud| bud.1).max(case.motif.1);
        let top = found.height + mm(tallest * 1.3) + case.band.rhythm.wave.unwrap_or(Mm::ZERO);
        for pocket in case.band.keep_out.iter().filter(|pocket| pocket.heights.0 < top) {
            let (from, to) = (line.from_hem(pocket.along.0).get(), line.from_hem(pocket.along.1).get());
            for placed in &found.placements {
                let apart = (placed.s_line.get() - from.midpoint(to)).abs();
                let round = line.length().get();
                let apart = if hem.is_closed() { (apart - round * (apart / round).round()).abs() } else { apart };
                let clear = apart - width(placed) / 2.0 - (to - from) / 2.0;
                let told = found.clashes.iter().any(|clash| clash.placement == placed.id && clash.with == "pocket");
                prop_assert!(told == (clear < pocket.clear.get() - 0.001) || (clear - pocket.clear.get()).abs() < 0.002);
            }
            // A motif lies in the pocket only where hardly one would find room beside it.
            if found.clashes.iter().any(|clash| clash.with == "pocket") {
                let widest = found.placements.iter().map(width).fold(0.0, f64::max) * 1.3;
                let (low, high) = (from - pocket.clear.get(), to + pocket.clear.get());
                let ends = match case.hem.ends {
                    Ends::Open { keep_clear, .. } => keep_clear.get(),
                    Ends::Closed | Ends::Opening { .. } => 0.0,
                };
                let beside = if hem.is_closed() {
                    line.length().get() - (high - low)
                } else {
                    (low - least.get()).max(greatest.get() - high) - ends
                };
                prop_assert!(beside < 2.0 * widest + 2.0 * gap.get(), "{beside} beside the pocket for {widest}");
            }
        }
        // Every motif stays in its band: its middle square above its foot, at its height.
        let edge = hem.line_at(Mm::ZERO).unwrap();
        for placed in &found.placements {
            let foot = edge.frame_at(placed.s_hem);
            let middle = foot.at + foot.up() * placed.height.get();
            prop_assert!(placed.at.distance(middle) < 1e-5, "{} is {} off", placed.id, placed.at.distance(middle));
        }
        let mut ids: Vec<&str> = found.placements.iter().map(|p| p.id.as_str()).collect();
        ids.sort_unstable();
        ids.dedup();
        prop_assert_eq!(ids.len(), found.placements.len());
        mirrors(&case, &found)?;
    }

}

/// Neighbours without a seam or a pocket between them stand in one stretch; their gaps are alike.
fn even_in_stretches(case: &Case, (hem, found): (&Hem, &BandSetting)) -> Result<(), TestCaseError> {
    let line = hem.line_at(found.height).unwrap();
    let round = line.length().get();
    let keep = |mark: &hemwright::hem::HemMark| mark.keep_clear.map(|_| line.from_hem(mark.s_hem).get());
    let pockets = case.band.keep_out.iter().flat_map(|pocket| [pocket.along.0, pocket.along.1]);
    let bounds: Vec<f64> = hem.marks().iter().filter_map(keep).chain(pockets.map(|s| line.from_hem(s).get())).collect();
    let apart = |from: f64, to: f64| {
        let between = |s: f64| s > from && s < to;
        bounds.iter().any(|s| [-round, 0.0, round].iter().any(|turn| between(s + turn)))
    };
    if bounds.is_empty() {
        return Ok(());
    }
    let mut last: Option<f64> = None;
    for pair in found.placements.windows(2) {
        let (from, to) = (pair[0].s_line.get(), pair[1].s_line.get());
        if apart(from, to) {
            last = None;
            continue;
        }
        let gap = to - from - (width(case, (hem, found), &pair[0]) + width(case, (hem, found), &pair[1])) / 2.0;
        prop_assert!(last.is_none_or(|last| (last - gap).abs() < 1e-6), "{last:?} and {gap} in one stretch");
        last = Some(gap);
    }
    Ok(())
}

/// On a hem that is the same on both sides the left list mirrors the right one; motifs that take turns do not.
fn mirrors(case: &Case, found: &BandSetting) -> Result<(), TestCaseError> {
    let one_sided = matches!(case.hem.ends, Ends::Opening { at: Mark::SideLeft, .. });
    let turns = case.second.is_some() && case.band.rhythm.order == Order::Repeating;
    if one_sided || turns || !case.band.keep_out.is_empty() {
        return Ok(());
    }
    // Mirrored is mirrored about what was asked for on CF, whatever the count.
    if case.band.rhythm.order == Order::MirroredAboutMiddle {
        prop_assert!(found.on_cf != Lands::Between, "{} of {:?}", found.count, case.band.on_cf);
    }
    // The two beside a gap on CF take turns in a wave too, so that no side mirrors the other.
    let one_up = case.band.rhythm.wave.is_some() && found.on_cf == Lands::Gap;
    if one_up || found.on_cf == Lands::Between {
        return Ok(());
    }
    let by_id: BTreeMap<&str, &Placement> = found.placements.iter().map(|p| (p.id.as_str(), p)).collect();
    for left in found.placements.iter().filter(|p| p.id.starts_with('L')) {
        let Some(right) = by_id.get(left.id.replace('L', "R").as_str()) else {
            // A motif within rounding of CB may be counted to one side.
            prop_assert!(found.on_cb != Lands::Motif);
            continue;
        };
        prop_assert!((left.s_line.get() + right.s_line.get()).abs() < 1e-6, "{} of {}", left.id, found.count);
        prop_assert!((left.at.x + right.at.x).abs() < 1e-5 && (left.at.y - right.at.y).abs() < 1e-5);
        prop_assert!(left.motif == right.motif && (left.scale - right.scale).abs() < 1e-12, "{}", left.id);
    }
    Ok(())
}

proptest! {
    #![proptest_config(config())]

    /// All lengths twice as long: the same count, everything twice as far.
    #[test]
    fn scaling_all_lengths_scales_all_distances(case in case(), factor in prop_oneof![Just(2.0), Just(0.5), Just(25.4)]) {
        let (Some((_, small)), Some((_, large))) = (case.set_out(), case.scaled(factor).set_out()) else {
            return Ok(());
        };
        // A count decided by a hair may fall either way, and with it what stands where.
        let same = |(a, b): (&Placement, &Placement)| a.motif == b.motif && a.hand == b.hand && a.scale == b.scale;
        prop_assume!(small.count == large.count && small.on_cf == large.on_cf);
        prop_assume!(small.placements.iter().zip(&large.placements).all(same));
        prop_assert!((small.line.get() * factor - large.line.get()).abs() < 1e-6 * factor.max(1.0));
        prop_assert!((small.gap_along.get() * factor - large.gap_along.get()).abs() < 1e-6 * factor.max(1.0));
        if let (Some(a), Some(b)) = (&small.clear_gap, &large.clear_gap) {
            let (a, b) = (a.least.get() * factor, b.least.get());
            prop_assert!((a - b).abs() < 1e-5 * factor.max(1.0), "clear gaps {a} and {b} of {}", small.count);
        }
    }

    /// Starting anywhere round a ring with nothing to keep clear changes neither count nor gap along the line: the row is the same,
    /// so far along.
    #[test]
    fn where_the_counting_starts_changes_no_gap(case in case(), start in -0.5..0.5) {
        let from = |share: f64| {
            let length = shape(&case.hem).map_or(Mm::ZERO, |hem| hem.length());
            let rhythm = Rhythm { shift: length * share, evenness: Evenness::Gap, ..case.band.rhythm.clone() };
            let band = BandWish { keep_out: vec![], rhythm, ..case.band.clone() };
            let measurements = match case.hem.measurements.clone() {
                // Godets must stay clear themselves.
                Measurements::Godets { hem, .. } => *hem,
                other => other,
            };
            let hem = HemWish { measurements, ends: Ends::Closed, seams: vec![], ..case.hem.clone() };
            Case { hem, band, ..case.clone() }.set_out().map(|(_, found)| (found, length * share))
        };
        let (Some((a, _)), Some((b, by))) = (from(0.0), from(start)) else { return Ok(()) };
        prop_assert_eq!(a.count, b.count);
        prop_assert!((a.gap_along.get() - b.gap_along.get()).abs() < 1e-9);
        for placed in &a.placements {
            let there = |other: &Placement| {
                let apart = other.s_line - placed.s_line - by;
                (apart - a.line * (apart / a.line).round()).abs() < mm(1e-6) && other.motif == placed.motif
            };
            prop_assert!(b.placements.iter().any(there), "{} is not found {by} along", placed.id);
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: config().cases * 2, ..config() })]

    /// The hem, its seams, its opening and its pocket seen in a mirror, walked the other way: the row seen in a mirror.
    #[test]
    fn a_mirrored_hem_gets_the_mirrored_row(case in case()) {
        let second = case.second.is_some() && case.band.rhythm.order == Order::Repeating;
        // What takes turns has a first and a second, which a mirror exchanges.
        if second || case.band.rhythm.wave.is_some() {
            return Ok(());
        }
        let (Some((_, a)), Some((hem, b))) = (case.set_out(), case.mirrored().set_out()) else { return Ok(()) };
        prop_assert_eq!(a.count, b.count);
        prop_assert!((a.gap_along.get() - b.gap_along.get()).abs() < 1e-6);
        let round = if hem.is_closed() { b.line } else { mm(1e9) };
        for placed in &a.placements {
            let there = |other: &Placement| {
                let apart = other.s_line + placed.s_line;
                let apart = apart - round * (apart / round).round();
                apart.abs() < mm(1e-6) && other.motif == placed.motif && other.scale == placed.scale
            };
            prop_assert!(b.placements.iter().any(there), "{} at {} is not found in the mirror", placed.id, placed.s_line);
        }
    }
}

proptest! {
    #![proptest_config(config())]

    /// A count with a gap: what is made smaller to fit keeps that gap in the row that is laid, beside pockets and openings too.
    #[test]
    fn what_is_made_to_fit_keeps_its_gap(case in case(), count in 1_u32..40) {
        let Spacing::AtLeast(gap) = case.band.spacing else { return Ok(()) };
        let band = BandWish { spacing: Spacing::Fit { count, gap }, ..case.band.clone() };
        let Some((_, found)) = (Case { band, ..case.clone() }).set_out() else { return Ok(()) };
        prop_assert_eq!(found.placements.len(), count as usize);
        if count > 1 {
            prop_assert!(found.gap_along.get() >= gap.get() - 0.0011, "gap {} of {gap}", found.gap_along);
        }
        prop_assert!(found.clashes.iter().all(|clash| clash.with != "pocket" && clash.with != "opening"), "{:?}", found.clashes);
        let largest = case.band.rhythm.sizes.first().copied().unwrap_or(1.0);
        prop_assert!(found.placements.iter().all(|placed| placed.scale <= largest + 1e-9));
    }

    /// Several rows: each keeps the gap, and says of itself what it has.
    #[test]
    fn what_rows_say_of_themselves_is_so(case in case(), rows in 2_u32..5, rise in 30.0..160.0, half in proptest::bool::ANY) {
        let offset = if half { RowOffset::HalfRepeat } else { RowOffset::None };
        let rhythm = Rhythm { rows: Rows { count: rows, rise: mm(rise), offset }, ..case.band.rhythm.clone() };
        let band = BandWish { rhythm, ..case.band.clone() };
        let Ok(hem) = shape(&case.hem) else { return Ok(()) };
        let tile = nicked("tile", case.motif.0, case.motif.1);
        let bud = case.second.map(|(width, height)| nicked("bud", width, height));
        let Ok(found) = try_setting(&hem, &bud.into_iter().chain([tile]).collect::<Vec<_>>(), &band) else { return Ok(()) };
        let Spacing::AtLeast(gap) = case.band.spacing else { return Ok(()) };
        prop_assert_eq!(found.bands.len(), rows as usize);
        let first = found.bands[0].count;
        for row in &found.bands {
            prop_assert_eq!(row.count as usize, row.placements.len());
            if row.count > 1 {
                prop_assert!(row.gap_along.get() >= gap.get() - 0.0011, "{}: gap {} of {gap}", row.name, row.gap_along);
            }
        }
        for row in &found.bands[1..] {
            let says = &row.reasons[0];
            let as_said = if says.starts_with("as many as the first row") {
                row.count == first
            } else if says.starts_with("one fewer than the first row") {
                row.count + 1 == first
            } else {
                says.starts_with(&format!("{},", row.count))
            };
            prop_assert!(as_said, "{} of {first}: {says}", row.count);
            let even = says.contains("in each stretch as many as in the first row") && !says.contains("of its own")
                && !says.contains("only the first row has");
            prop_assert!(!even || row.count == first, "{} of {first}: {says}", row.count);
        }
    }
}

proptest! {
    #![proptest_config(config())]

    /// A count, rows and a pocket at any height: every row has the count wherever it fits side by side in what the pocket leaves of its
    /// own line; where it does not, the fewer are told, and no motif stands in the pocket in either case.
    #[test]
    fn every_row_keeps_the_count_where_it_fits(
        (hem, share, long) in (measurements(), -0.5..0.5, 20.0..900.0),
        (width, height, clear) in (20.0..140.0, 20.0..80.0, 0.0..25.0),
        (line, count, rows, rise) in (45.0..120.0, 1_u32..60, 2_u32..4, 30.0..120.0),
        (from, deep) in (0.0..300.0, prop_oneof![Just(None), (20.0..150.0).prop_map(Some)]),
        on_cf in prop_oneof![Just(Anchor::Motif), Just(Anchor::Gap), Just(Anchor::Best)],
    ) {
        let wish = HemWish { measurements: hem, ends: Ends::Closed, seams: vec![], hung: vec![] };
        let Ok(hem) = shape(&wish) else { return Ok(()) };
        // Godets have seams of their own.
        if hem.marks().iter().any(|mark| mark.keep_clear.is_some()) {
            return Ok(());
        }
        let along = (hem.length() * share, hem.length() * share + mm(long));
        let heights = (mm(from), deep.map(|deep| mm(from + deep)));
        let pocket = KeepOut { name: "pocket".to_owned(), along, heights, clear: mm(clear), line: None };
        let rhythm = Rhythm { rows: Rows { count: rows, rise: mm(rise), offset: RowOffset::None }, ..Rhythm::default() };
        let band = BandWish { rhythm, on_cf, keep_out: vec![pocket], ..band("tile", line, Spacing::Count(count)) };
        let Ok(found) = try_setting(&hem, &[rectangle("tile", width, height)], &band) else { return Ok(()) };
        let room = |row: &BandSetting| {
            let (low, high) = (row.height.get() - height / 2.0, row.height.get() + height / 2.0);
            let meets = high > from && deep.is_none_or(|deep| low < from + deep);
            let own = hem.line_at(row.height).unwrap();
            let taken = (own.from_hem(along.1) - own.from_hem(along.0)).get() + 2.0 * clear;
            own.length().get() - if meets { taken } else { 0.0 }
        };
        let wide = f64::from(count) * width;
        let [first, further @ ..] = found.bands.as_slice() else { return Ok(()) };
        prop_assert_eq!(first.count, count);
        // What a hair decides is not looked at; what lies on the middle may not be had in the first row.
        prop_assume!(found.bands.iter().all(|row| (room(row) - wide).abs() > 0.01));
        if room(first) < wide || (on_cf != Anchor::Best && !first.clashes.is_empty()) {
            return Ok(());
        }
        for row in further {
            let told = found.findings.iter().any(|it| it.kind == "fewer-in-row" && it.say.starts_with(&format!("{}:", row.name)));
            prop_assert!(row.clashes.is_empty(), "{}: {:?}", row.name, row.clashes);
            prop_assert_eq!(row.count == count, room(row) > wide, "{} has {} of {} in {}", row.name, row.count, count, room(row));
            prop_assert_eq!(told, row.count < count, "{}: {:?}", row.name, found.findings);
        }
        prop_assert!(first.clashes.is_empty(), "{:?}", first.clashes);
    }

    /// A count round a ring with seams on both sides: it is kept, and no motif lies too near a seam where the two stretches hold them
    /// all; otherwise it is told.
    #[test]
    fn a_count_keeps_clear_of_seams_where_the_stretches_hold_it(
        (length, width, clear) in (600.0..4000.0, 20.0..140.0, 0.0..25.0),
        count in 1_u32..40,
    ) {
        let seam = |(name, at): (&str, Mark)| Seam { name: name.to_owned(), at, keep_clear: mm(clear) };
        let seams = [("left", Mark::SideLeft), ("right", Mark::SideRight)].map(seam).to_vec();
        let ring = hem(Measurements::Straight { length: mm(length) }, Ends::Closed, seams);
        let wish = BandWish { on_cf: Anchor::Best, ..band("tile", 60.0, Spacing::Count(count)) };
        let Ok(found) = try_setting(&ring, &[rectangle("tile", width, 40.0)], &wish) else { return Ok(()) };
        prop_assert_eq!(found.bands[0].count, count);
        let room = length / 2.0 - 2.0 * clear;
        let holds = 2.0 * (room / width).floor();
        prop_assume!((room / width - (room / width).round()).abs() > 1e-3);
        if f64::from(count) <= holds {
            prop_assert!(found.bands[0].clashes.is_empty(), "{:?}", found.bands[0]);
        } else if found.bands[0].clashes.is_empty() {
            // An even row may do where the stretches hold fewer: it stands clear of both seams.
            prop_assert!(found.bands[0].gap_along.get() >= 0.0);
        } else {
            prop_assert!(found.findings.iter().any(|finding| finding.kind == "too-near"));
        }
    }
}
