//! What holds of every judgement, whatever the reading, the error and the limits.

use hames::rig::demo::JUNIPER;
use hames::rig::{ErrorRule, Instrument, InstrumentKind, Rig};
use hames::rules::{Authority, Basis, Limit, Outcome, Side, Verdict, judge};
use hames::units::{Exact, Quantity, Unit};
use proptest::prelude::*;

/// Tenths of a psi.
fn psi(tenths: i64) -> Quantity {
    Quantity::new(Exact::ratio(tenths.into(), 10).unwrap(), Unit::Psi)
}

fn limit(verdict: Verdict, side: Side, bound: Quantity) -> Limit {
    Limit {
        verdict,
        side,
        bound,
        derivation: None,
        basis: Basis {
            authority: Authority::Default,
            source: "a test".to_owned(),
        },
        branch: None,
    }
}

/// A gauge wrong by the same everywhere.
fn gauge(error: Quantity) -> Instrument {
    Instrument {
        id: "gauge".to_owned(),
        name: "gauge".to_owned(),
        kind: InstrumentKind::PressureGauge,
        span: Some((psi(0), psi(1000))),
        error: ErrorRule::Fixed(error),
        step: psi(1),
        calibrated: None,
    }
}

fn outcome(reading: i64, error: i64, limits: &[Limit]) -> Outcome {
    judge(&psi(reading), Some(&gauge(psi(error))), limits).outcome
}

#[test]
fn at_its_bound_a_limit_takes_what_its_word_says_and_a_hair_beside_it_decides() {
    let hair = Exact::ratio(1, 1_000_000_000_000).unwrap();
    let bound = psi(650);
    let at = |value: Exact| Quantity::new(value, Unit::Psi);
    for (side, under, exact, over) in [
        (Side::Below, true, false, false),
        (Side::AtOrBelow, true, true, false),
        (Side::Above, false, false, true),
        (Side::AtOrAbove, false, true, true),
    ] {
        let limits = [limit(Verdict::Stop, side, bound.clone())];
        for (reading, taken) in [
            (at(&bound.value - &hair), under),
            (bound.clone(), exact),
            (at(&bound.value + &hair), over),
        ] {
            let verdict = if taken { Verdict::Stop } else { Verdict::Ok };
            let judged = judge(&reading, None, &limits);
            assert_eq!(
                judged.outcome,
                Outcome::Judged(verdict),
                "{side:?} {reading}"
            );
            assert_eq!(judged.decided_by.is_some(), taken, "{side:?} {reading}");
        }
    }
}

#[test]
fn the_same_amount_in_another_unit_is_exactly_at_the_limit() {
    let limits = [limit(Verdict::Stop, Side::Below, psi(650))];
    let bar = psi(650).in_unit(Unit::Bar).unwrap();
    assert_eq!(
        judge(&bar, None, &limits).outcome,
        Outcome::Judged(Verdict::Ok)
    );
}

#[test]
fn a_limit_of_another_dimension_never_lets_a_reading_pass() {
    let torque = Quantity::whole(90, Unit::FootPound);
    let limits = [limit(Verdict::Stop, Side::Below, torque)];
    assert_eq!(judge(&psi(650), None, &limits).outcome, Outcome::Again);
}

#[test]
fn an_instrument_on_another_scale_never_lets_a_reading_pass() {
    let rig = Rig::read(JUNIPER).unwrap();
    let limits = [limit(Verdict::Stop, Side::Below, psi(1))];
    let judged = judge(&psi(650), rig.instrument("wrench-150"), &limits);
    assert_eq!(
        (judged.outcome, judged.decided_by),
        (Outcome::Again, Some(0))
    );
}

fn sides() -> impl Strategy<Value = Side> {
    prop::sample::select(Side::WORDS.map(|(_, side)| side).to_vec())
}

fn bad() -> impl Strategy<Value = Verdict> {
    prop::sample::select(vec![Verdict::Note, Verdict::Fix, Verdict::Stop])
}

prop_compose! {
    fn some_limits()(
        drawn in prop::collection::vec((bad(), sides(), 500i64..700), 0..5)
    ) -> Vec<Limit> {
        drawn
            .into_iter()
            .map(|(verdict, side, bound)| limit(verdict, side, psi(bound)))
            .collect()
    }
}

proptest! {
    #[test]
    fn a_finer_instrument_never_overturns_a_verdict(
        limits in some_limits(), reading in 450i64..750, error in 0i64..60, coarser in 0i64..60,
    ) {
        let coarse = outcome(reading, error + coarser, &limits);
        if let Outcome::Judged(_) = coarse {
            prop_assert_eq!(outcome(reading, error, &limits), coarse);
        }
    }

    #[test]
    fn a_verdict_holds_at_every_value_the_reading_may_stand_for(
        limits in some_limits(), reading in 450i64..750, error in 0i64..60, share in -10i64..=10,
    ) {
        let true_value = psi(reading).value;
        let shift = Exact::ratio((error * share).into(), 100).unwrap();
        let elsewhere = Quantity::new(&true_value + &shift, Unit::Psi);
        if let Outcome::Judged(verdict) = outcome(reading, error, &limits) {
            let there = judge(&elsewhere, None, &limits).outcome;
            prop_assert_eq!(there, Outcome::Judged(verdict));
        }
    }

    #[test]
    fn without_error_every_reading_has_a_verdict_which_is_the_worst_limit_that_takes_it(
        limits in some_limits(), reading in 450i64..750,
    ) {
        let judged = judge(&psi(reading), None, &limits);
        let worst = limits
            .iter()
            .filter(|limit| limit.side.takes(psi(reading).compare(&limit.bound).unwrap()))
            .map(|limit| limit.verdict)
            .max()
            .unwrap_or(Verdict::Ok);
        prop_assert_eq!(judged.outcome, Outcome::Judged(worst));
        prop_assert_eq!(judged.deciding().map_or(Verdict::Ok, |limit| limit.verdict), worst);
    }

    #[test]
    fn one_more_limit_never_makes_a_judgement_milder(
        limits in some_limits(), reading in 450i64..750, error in 0i64..60,
        verdict in bad(), side in sides(), bound in 500i64..700,
    ) {
        let before = outcome(reading, error, &limits);
        let mut more = limits;
        more.push(limit(verdict, side, psi(bound)));
        match (before, outcome(reading, error, &more)) {
            (Outcome::Judged(before), Outcome::Judged(after)) => prop_assert!(after >= before),
            (Outcome::Again, Outcome::Judged(after)) => prop_assert_eq!(after, verdict),
            (_, Outcome::Again) => {}
        }
    }

    #[test]
    fn the_order_of_the_limits_does_not_matter(
        limits in some_limits(), reading in 450i64..750, error in 0i64..60,
    ) {
        let reversed: Vec<Limit> = limits.iter().rev().cloned().collect();
        prop_assert_eq!(outcome(reading, error, &limits), outcome(reading, error, &reversed));
    }

    #[test]
    fn the_unit_a_reading_is_typed_in_does_not_matter(
        limits in some_limits(), reading in 450i64..750, error in 0i64..60,
    ) {
        let gauge = gauge(psi(error));
        for unit in [Unit::Bar, Unit::Kilopascal] {
            let typed = psi(reading).in_unit(unit).unwrap();
            let judged = judge(&typed, Some(&gauge), &limits).outcome;
            prop_assert_eq!(judged, outcome(reading, error, &limits));
        }
    }

    #[test]
    fn a_reading_is_never_asked_again_without_a_limit_inside_its_band(
        limits in some_limits(), reading in 450i64..750, error in 0i64..60,
    ) {
        let judged = judge(&psi(reading), Some(&gauge(psi(error))), &limits);
        if judged.outcome == Outcome::Again {
            let held = &judged.held[judged.decided_by.unwrap()];
            prop_assert!(held.inside && !held.crossed);
        }
    }
}

#[test]
fn the_nearest_limit_is_the_one_the_reading_would_come_to_first() {
    let limits = [
        limit(Verdict::Stop, Side::AtOrBelow, psi(520)),
        limit(Verdict::Fix, Side::Below, psi(617)),
        limit(Verdict::Fix, Side::Above, psi(682)),
    ];
    for (reading, nearest) in [(620, 617), (649, 617), (651, 682), (530, 520)] {
        let judged = judge(&psi(reading), Some(&gauge(psi(1))), &limits);
        assert_eq!(judged.nearest().unwrap().bound, psi(nearest), "{reading}");
    }
    assert_eq!(judge(&psi(650), None, &[]).nearest(), None);
}
