//! Rig files: the demo rigs read without a fault, and a wrong file is told every fault with its
//! place.

use crate::corpus::{self, Wrong};
use hames::document::Fault;
use hames::figures::{Each, Fact, Facts, Figure, NotKnown, Today};
use hames::rig::demo::{JUNIPER, MESQUITE};
use hames::rig::{HitchKind, Instrument, Rig};
use hames::rules::suits;
use hames::units::{Dimension, parse_quantity};
use std::collections::BTreeSet;

/// Its head says how it is written.
const CORPUS: &str = include_str!("../vectors/rig-faults.txt");

fn wrong_files() -> Vec<Wrong> {
    corpus::all(CORPUS, &[("juniper", JUNIPER), ("mesquite", MESQUITE)])
}

fn rig(text: &str) -> Rig {
    Rig::read(text).unwrap_or_else(|faults| panic!("{}", lines(&faults)))
}

fn lines(faults: &[Fault]) -> String {
    let lines: Vec<String> = faults.iter().map(ToString::to_string).collect();
    lines.join("\n")
}

#[test]
fn the_demo_rigs_read_without_a_fault() {
    let juniper = rig(JUNIPER);
    assert_eq!(
        (juniper.id.as_str(), juniper.kind()),
        ("juniper", HitchKind::BumperPull)
    );
    let mesquite = rig(MESQUITE);
    assert_eq!(
        (mesquite.id.as_str(), mesquite.kind()),
        ("mesquite", HitchKind::Gooseneck)
    );
}

/// Everything that can be read of a day, on scales, tape and thermometer.
fn read_today() -> Facts {
    let read = |fact, text| (fact, parse_quantity(text, Fact::dimension(fact)).unwrap());
    let facts = [
        read(Fact::AirTemperature, "41 F"),
        read(Fact::FrontMark, "18 in"),
        read(Fact::Humidity, "62 %"),
        read(Fact::Odometer, "48210 mi"),
        read(Fact::TongueWeight, "720 lb"),
        read(Fact::TrailerWeight, "5600 lb"),
    ];
    facts
        .into_iter()
        .fold(Facts::default(), |facts, (fact, read)| {
            facts.with(fact, read)
        })
}

/// A gooseneck's coupler and chains are over the bed, not over the road.
const NOT_ON_A_GOOSENECK: [Figure; 3] = [
    Figure::ChainLongest,
    Figure::ChainLowPoint,
    Figure::CradleClearance,
];

/// Mesquite's file says neither what its brakes turn with nor how tall its tires stand, so that its
/// lever pull is judged by the rule of thumb.
const NOT_DESCRIBED_OF_MESQUITE: [Figure; 4] = [
    Figure::BreakawayDeceleration,
    Figure::BreakawayGrade,
    Figure::PullDeceleration,
    Figure::PullStopTime,
];

#[test]
fn every_figure_of_the_demo_rigs_is_known_for_every_item_it_belongs_to() {
    for text in [JUNIPER, MESQUITE] {
        let rig = rig(text);
        let facts = &read_today();
        let gooseneck = rig.kind() == HitchKind::Gooseneck;
        let figures = Figure::ALL
            .into_iter()
            .filter(|figure| !(gooseneck && NOT_ON_A_GOOSENECK.contains(figure)))
            .filter(|figure| !(gooseneck && NOT_DESCRIBED_OF_MESQUITE.contains(figure)));
        for figure in figures {
            let items = match figure.each() {
                None => vec![None],
                Some(each) => each.items(&rig).into_iter().map(Some).collect(),
            };
            for item in items {
                let today = Today { rig: &rig, facts };
                let found = match figure.of(today, item.as_ref()) {
                    Ok(found) => found,
                    Err(NotKnown::NotOnThisRig(
                        Figure::AttitudeDrawbarChange | Figure::DrawbarTotal,
                    )) if rig.kind() == HitchKind::Gooseneck => {
                        continue;
                    }
                    Err(missing) => panic!("{}: {missing}", rig.id),
                };
                assert_eq!(found.quantity.dimension(), figure.dimension(), "{figure:?}");
                assert!(!found.from.is_empty(), "{figure:?}");
            }
        }
    }
}

#[test]
fn a_demo_rig_has_an_instrument_of_every_kind_and_a_gauge_that_does_not_suit_its_tires() {
    for text in [JUNIPER, MESQUITE] {
        let rig = rig(text);
        for (word, kind) in hames::rig::InstrumentKind::WORDS {
            assert!(
                rig.instruments.iter().any(|one| one.kind == kind),
                "{}: {word}",
                rig.id
            );
        }
        let wheel = &Each::TrailerWheel.items(&rig)[0];
        let cold = Figure::TireCold.of(&rig, Some(wheel)).unwrap().quantity;
        let gauges: Vec<&Instrument> = rig
            .instruments
            .iter()
            .filter(|one| one.id.starts_with("gauge"))
            .collect();
        let suited: BTreeSet<bool> = gauges
            .iter()
            .map(|gauge| suits(gauge, gauge.kind, cold.dimension(), Some(&cold)).is_ok())
            .collect();
        assert_eq!(suited, BTreeSet::from([false, true]), "{}", rig.id);
    }
}

#[test]
fn values_are_kept_exactly_and_with_their_evidence() {
    let juniper = rig(JUNIPER);
    let size = &juniper.hitch.ball.diameter;
    assert_eq!(
        size.quantity,
        parse_quantity("2-5/16 in", Dimension::Length).unwrap()
    );
    assert_eq!(
        (size.source.by.word(), size.source.at.as_str()),
        ("stamp", "flat on top of the ball")
    );
    let anchor = &juniper.hitch.breakaway.anchor.at;
    assert_eq!(anchor.behind.quantity.to_string(), "-14 in");
    assert_eq!(anchor.above.source, anchor.behind.source);
}

#[test]
fn a_load_in_a_stall_stands_where_the_stall_is() {
    let juniper = rig(JUNIPER);
    let bramble = &juniper.load[0];
    assert_eq!(bramble.stall.as_deref(), Some("left"));
    assert_eq!(bramble.at, juniper.trailer.stalls[0].at);
    assert_eq!(juniper.load[2].stall, None);
}

/// 72 in round and 68 in long: 72 x 72 x 68 / 330 = 1068 lb, of which the last figure is not known.
#[test]
fn a_horse_that_stood_on_no_scale_weighs_what_its_girth_and_length_say() {
    let scale = "weight: { is: 1100 lb, by: scale, at: \"vet clinic, spring\" }";
    let tape = "horse: { girth: { is: 72 in, by: tape, at: barn }, \
                length: { is: 68 in, by: tape, at: barn }, kind: adult }";
    let taped = rig(&JUNIPER.replacen(scale, tape, 1));
    assert_eq!(taped.load[0].weight, None);
    let gross = |rig: &Rig| Figure::TrailerGross.of(rig, None).unwrap().quantity;
    assert_eq!(gross(&rig(JUNIPER)).to_string(), "5667 lb");
    assert_eq!(gross(&taped).to_string(), "5637 lb");
}

#[test]
fn every_wrong_file_is_told_what_is_wrong_at_its_place_and_how_to_mend_it() {
    corpus::hold(&wrong_files(), |text| {
        let faults = Rig::read(text).err().unwrap_or_default();
        faults.iter().map(ToString::to_string).collect()
    });
}

#[test]
fn the_wrong_files_are_many_and_each_is_about_something_else() {
    let wrong = wrong_files();
    let about: BTreeSet<&str> = wrong.iter().map(|wrong| wrong.about.as_str()).collect();
    assert_eq!(about.len(), wrong.len());
    assert!(about.len() > 50, "{}", about.len());
}

#[test]
fn a_trailer_has_one_to_three_axles() {
    let (head, rest) = JUNIPER.split_once("  axles:\n").unwrap();
    let (axles, tail) = rest.split_once("  spare:\n").unwrap();
    let front = axles
        .split_once("    - gawr")
        .map(|(_, axle)| axle)
        .unwrap();
    let front = format!("    - gawr{}", front.split("    - gawr").next().unwrap());
    let with = |list: &str| Rig::read(&format!("{head}  axles:{list}  spare:\n{tail}"));
    let none = lines(&with(" []\n").unwrap_err());
    assert!(
        none.contains("trailer.axles: a trailer has one to three axles, and 0 stand here"),
        "{none}"
    );
    assert_eq!(with(&format!("\n{axles}")).unwrap().trailer.axles.len(), 2);
    let four: String = (0..4)
        .map(|place| front.replace("is: 150 in", &format!("is: {} in", 150 + 33 * place)))
        .collect();
    let four = lines(&with(&format!("\n{four}")).unwrap_err());
    assert!(
        four.contains("one to three axles, and 4 stand here"),
        "{four}"
    );
}

#[test]
fn a_file_wrong_in_many_ways_is_told_all_of_them_in_its_own_order() {
    let text = JUNIPER
        .replace("wheelbase: { is: 145 in", "wheelbase: { is: -145 in")
        .replace("clearance: { is: 10 in", "clearance: { is: 10 lb")
        .replace("kind: agm", "kind: agn")
        .replace("id: gauge-60", "id: gauge-100");
    let told = Rig::read(&text).unwrap_err();
    let paths: Vec<&str> = told.iter().map(|fault| fault.path.as_str()).collect();
    assert_eq!(
        paths,
        [
            "truck.wheelbase.is",
            "hitch.breakaway.battery.kind",
            "hitch.jack.clearance.is",
            "instruments[1].id",
        ]
    );
}

proptest::proptest! {
    #[test]
    fn no_text_makes_the_reader_panic(text in "\\PC{0,80}") {
        let _ = Rig::read(&text);
    }

    /// Any line taken out of a demo rig gives a rig or faults, and every fault has a place in it.
    #[test]
    fn a_rig_file_without_one_of_its_lines_is_read_or_told(at in 0usize..JUNIPER.lines().count()) {
        let mut kept: Vec<&str> = JUNIPER.lines().collect();
        kept.remove(at);
        if let Err(faults) = Rig::read(&kept.join("\n")) {
            proptest::prop_assert!(!faults.is_empty());
            for fault in faults {
                proptest::prop_assert!(fault.place.line <= kept.len() && !fault.fix.is_empty());
            }
        }
    }
}
