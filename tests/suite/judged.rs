//! Published limits and worked examples, judged through the public functions.
//!
//! `tests/vectors/judged.csv` says of each what goes in, what must come out and where it is
//! written; every row can fail on its own.

mod table;

use hames::figures::{Each, Figure, Today};
use hames::mechanics::strength::{ChainRule, breaking_by_table, lowest, working_load_limit};
use hames::rig::demo::{JUNIPER, MESQUITE};
use hames::rig::{Grade, Instrument, InstrumentKind, Rig};
use hames::rules::{
    Authority, Basis, Bound, Limit, Outcome, Side, Unsuitable, Verdict, doubt, judge, suits,
};
use hames::units::{Dimension, Exact, Quantity, Unit, parse_quantity};
use std::cmp::Ordering;
use std::sync::LazyLock;
use table::{Row, rows, word};

/// Holds every row of a table to what `found` makes of it.
#[track_caller]
fn check(name: &str, found: impl Fn(&Row) -> String, expected: impl Fn(&Row) -> String) {
    let rows = rows(name);
    assert!(!rows.is_empty(), "no table {name}");
    let wrong: Vec<String> = rows
        .iter()
        .map(|row| (row, found(row), expected(row)))
        .filter(|(_, found, expected)| found != expected)
        .map(|(row, found, expected)| {
            format!(
                "{}: {expected}, but found {found} ({})",
                row.id(),
                row.get("source")
            )
        })
        .collect();
    assert!(wrong.is_empty(), "\n{}\n", wrong.join("\n"));
}

#[test]
fn published_readings_are_judged_as_published() {
    check(
        "judged",
        |row| {
            let reading = row.quantity("reading");
            let instrument = row.some("with").map(bench);
            let limits: Vec<Limit> = row
                .get("limits")
                .split(", ")
                .map(|written| limit(written, row.dimension()))
                .collect();
            let judged = judge(&reading, instrument, &limits);
            let outcome = match judged.outcome {
                Outcome::Again => "again",
                Outcome::Judged(verdict) => verdict.word(),
            };
            let decided = judged.deciding().is_some();
            assert_eq!(
                decided,
                outcome != "ok",
                "{}: a reason for all but ok",
                row.id()
            );
            let ends =
                [("low", &judged.band.low), ("high", &judged.band.high)].map(|(end, found)| {
                    let written = row.quantity(end);
                    if nearly(found, &written) {
                        row.get(end).to_owned()
                    } else {
                        found.to_string()
                    }
                });
            format!("{outcome} in {} to {}", ends[0], ends[1])
        },
        |row| {
            format!(
                "{} in {} to {}",
                row.get("gives"),
                row.get("low"),
                row.get("high")
            )
        },
    );
}

#[test]
fn instruments_suit_what_their_range_holds() {
    check(
        "suited",
        |row| {
            let kind = word(&InstrumentKind::WORDS, row.get("kind"));
            let target = row.quantity("target");
            match suits(bench(row.get("with")), kind, row.dimension(), Some(&target)) {
                Ok(()) => "suits".to_owned(),
                Err(Unsuitable::OtherKind { .. }) => "other kind".to_owned(),
                Err(Unsuitable::OtherScale { .. }) => "other scale".to_owned(),
                Err(Unsuitable::OutsideRange { low, high, .. }) => format!("{low} to {high}"),
            }
        },
        |row| row.get("gives").to_owned(),
    );
}

#[test]
fn slips_of_the_finger_are_asked_again_with_the_unit_perhaps_meant() {
    check(
        "doubted",
        |row| {
            let reading = row.quantity("reading");
            let plausible = (row.quantity("low"), row.quantity("high"));
            match doubt(&reading, &plausible).map(|doubt| doubt.perhaps) {
                None => "no doubt".to_owned(),
                Some(None) => "nothing".to_owned(),
                Some(Some(unit)) => Quantity::new(reading.value, unit).to_string(),
            }
        },
        |row| row.get("perhaps").to_owned(),
    );
}

#[test]
fn quantities_compare_exactly_across_units() {
    check(
        "compared",
        |row| {
            let order = row.quantity("one").compare(&row.quantity("other")).unwrap();
            match order {
                Ordering::Less => "less",
                Ordering::Equal => "equal",
                Ordering::Greater => "more",
            }
            .to_owned()
        },
        |row| row.get("is").to_owned(),
    );
}

#[test]
fn quantities_round_to_the_figures_printed() {
    check(
        "rounded",
        |row| {
            let unit = Unit::named(row.get("unit"), row.dimension()).unwrap();
            let places = row.get("places").parse().unwrap();
            row.quantity("from").in_unit(unit).unwrap().shown(places)
        },
        |row| row.get("gives").to_owned(),
    );
}

#[test]
fn bounds_follow_the_figures_of_the_rig() {
    check(
        "bounds",
        |row| {
            let text = if row.get("rig") == "juniper" {
                JUNIPER
            } else {
                MESQUITE
            };
            let rig = Rig::read(text).unwrap();
            let figure = Figure::from_word(row.get("figure")).unwrap();
            let item = row.some("item").map(|id| {
                let items = Each::TrailerWheel.items(&rig).into_iter();
                items.into_iter().find(|item| item.id == id).unwrap()
            });
            let plus = row
                .some("plus")
                .map(|text| parse_quantity(text, figure.dimension()).unwrap());
            let share = Exact::parse_decimal(row.get("share")).unwrap();
            let bound = Bound::Of {
                figure,
                share,
                plus,
                or: None,
            };
            let drawn = bound.on(&Today::from(&rig), item.as_ref()).unwrap();
            assert!(
                drawn.derivation.unwrap().contains(figure.label()),
                "{}",
                row.id()
            );
            drawn.at.shown(6)
        },
        |row| row.get("gives").to_owned(),
    );
}

#[test]
fn chain_holds_and_breaks_as_tabled() {
    check(
        "chains",
        |row| {
            let grade = row
                .some("grade")
                .map(|mark| word(&Grade::WORDS, mark).number());
            let size = parse_quantity(row.get("size"), Dimension::Length).unwrap();
            let shown =
                |found: Option<Quantity>| found.map_or("none".to_owned(), |found| found.shown(5));
            format!(
                "{}, breaks at {}",
                shown(working_load_limit(grade, &size)),
                shown(breaking_by_table(grade, &size))
            )
        },
        |row| {
            let breaking = row.some("breaking").map_or("none".to_owned(), |text| {
                parse_quantity(text, Dimension::Force).unwrap().shown(5)
            });
            format!("{}, breaks at {breaking}", row.get("limit"))
        },
    );
}

#[test]
fn an_assembly_is_as_strong_as_its_weakest_part() {
    check(
        "assemblies",
        |row| lowest(&row.forces("parts")).unwrap().to_string(),
        |row| row.get("lowest").to_owned(),
    );
}

#[test]
fn the_rules_for_two_chains_differ_and_each_says_its_own() {
    check(
        "rules",
        |row| {
            let chains: [Quantity; 2] = row.forces("assemblies").try_into().unwrap();
            let trailer = parse_quantity(row.get("trailer"), Dimension::Mass).unwrap();
            let rule = word(&ChainRule::WORDS, row.get("rule"));
            let holds = rule.holds(&chains, &trailer).unwrap();
            if holds { "holds" } else { "fails" }.to_owned()
        },
        |row| row.get("gives").to_owned(),
    );
}

#[test]
fn every_row_has_a_name_of_its_own_and_a_source() {
    let rows = table::all();
    assert!(rows.len() >= 150, "{}", rows.len());
    for (at, row) in rows.iter().enumerate() {
        assert!(row.get("source").len() > 10, "{}: no source", row.id());
        let twice = rows[..at].iter().any(|other| other.id() == row.id());
        assert!(!twice, "{} stands there twice", row.id());
    }
}

/// The instruments of `tests/vectors/bench.yaml`, read as a rig file reads them.
static BENCH: LazyLock<Rig> = LazyLock::new(|| {
    let (rig, _) = JUNIPER.split_once("\ninstruments:\n").unwrap();
    let bench = include_str!("../vectors/bench.yaml");
    Rig::read(&format!("{rig}\ninstruments:\n{bench}")).unwrap()
});

fn bench(id: &str) -> &'static Instrument {
    let found = BENCH.instrument(id);
    found.unwrap_or_else(|| panic!("no instrument {id} on the bench"))
}

/// `stop below 62 psi`.
fn limit(written: &str, dimension: Dimension) -> Limit {
    let (verdict, rest) = written.split_once(' ').unwrap();
    let (side, bound) = rest.split_once(' ').unwrap();
    Limit {
        verdict: word(&Verdict::WORDS, verdict),
        side: word(&Side::WORDS, side),
        bound: parse_quantity(bound, dimension).unwrap(),
        derivation: None,
        basis: Basis {
            authority: Authority::Law,
            source: "as the row says".to_owned(),
        },
        branch: None,
    }
}

/// Whether two quantities agree to seven places in the written one's unit.
fn nearly(found: &Quantity, written: &Quantity) -> bool {
    let found = found.in_unit(written.unit).unwrap();
    found.value.rounded(7) == written.value.rounded(7)
}
