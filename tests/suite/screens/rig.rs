//! The rig in thought, played by keys.

use crate::screens::bench::Bench;
use hames::checklist::{Checklist, Plan};
use hames::desk::{Errand, Reply};
use hames::figures::Facts;
use hames::record::Mode;
use hames::rig::{Rig, demo::JUNIPER};
use hames::tui::{Context, Key, Msg, first_rig, update};

/// Sizes at which the whole screen is there, and one at which only a sentence is.
const SIZES: [(u16, u16); 4] = [(40, 12), (80, 24), (120, 40), (30, 8)];

/// The start screen with another rig.
fn with_rig(change: impl Fn(&mut Rig)) -> Bench {
    let mut rig = Rig::read(JUNIPER).unwrap();
    change(&mut rig);
    let list = Checklist::read(include_str!("../../vectors/screens.yaml")).unwrap();
    Bench::with(Plan::lay(list, rig).unwrap())
}

#[test]
fn every_frame_of_a_changed_rig_says_what_if_and_none_of_it_reaches_the_world() {
    let bench = Bench::new().play("r");
    let says = |bench: &Bench, (columns, rows): (u16, u16)| {
        bench.text(columns, rows).starts_with("DEMO WHAT IF")
            || bench.text(columns, rows).starts_with("DEMO. WHAT IF.")
    };
    assert!(!SIZES.iter().any(|size| says(&bench, *size)));
    let bench = bench.play("→");
    assert!(SIZES.iter().all(|size| says(&bench, *size)));
    let bench = bench.play("⇥=");
    assert_eq!(bench.model.context(), Context::Why);
    assert!(SIZES.iter().all(|size| says(&bench, *size)));
    let bench = bench.play("q⇥⇥r");
    assert!(!SIZES.iter().any(|size| says(&bench, *size)));
    let bench = bench.play("q");
    assert_eq!(bench.model.context(), Context::RigPage);
    assert_eq!(bench.desk.journal.len(), 0);
    assert!(bench.desk.walk.is_none());
}

#[test]
fn an_arrow_held_down_steps_on_and_a_refusal_says_how_far_it_goes() {
    let mut bench = Bench::new().play("r");
    for _ in 0..60 {
        let (key, repeat) = (Key::Right, true);
        bench.tell(Msg::Press { key, repeat });
    }
    assert!(bench.text(80, 24).contains("-2 -> 14 in"));
    assert_eq!(
        bench.model.said(),
        Some("drawbar rise can be -14 in to 14 in here, and no other.")
    );
    let bench = bench.play("←");
    assert_eq!(bench.model.said(), None);
}

#[test]
fn a_value_is_typed_in_any_unit_and_stays_in_its_field_when_it_is_none() {
    let bench = Bench::new().play("r↓↓⏎9 horses⏎");
    assert_eq!(
        (bench.model.context(), bench.model.typed()),
        (Context::RigValue, "9 horses")
    );
    assert!(bench.model.said().is_some());
    let bench = bench.play("⌫⌫⌫⌫⌫⌫⌫⌫700 kg⏎");
    assert_eq!(bench.model.context(), Context::RigValues);
    assert!(bench.text(80, 24).contains("1100 lb -> 700 kg"));
    let bench = bench.play("a");
    assert!(bench.text(80, 24).contains("as described"));
}

#[test]
fn more_than_a_rating_is_said_by_word_and_sign_beside_bar_and_number() {
    let bench = Bench::new().play("r↓↓⏎3500 lb⏎");
    for (columns, rows) in [(60, 20), (80, 24), (120, 40)] {
        let shown = bench.text(columns, rows);
        let bars = shown.lines().filter(|line| line.contains(" %  (!) OVER"));
        assert!(bars.count() > 0, "{shown}");
    }
    assert!(bench.text(120, 40).contains("of 7000 lb (!) OVER"));
}

#[test]
fn what_moves_is_told_before_and_now_and_a_swing_only_as_more_or_less() {
    let described = Bench::new().play("r").text(120, 40);
    assert!(described.contains("a swing") && !described.contains("as before"));
    let shown = Bench::new().play("r→→→→").text(120, 40);
    for name in [
        "tongue weight",
        "pitch, nose up",
        "ball height",
        "truck rear",
    ] {
        let line = shown.lines().find(|line| line.contains(name)).unwrap();
        assert!(line.contains(" -> "), "{line}");
    }
    assert!(
        shown.contains("damped") && !shown.contains("mph"),
        "{shown}"
    );
}

#[test]
fn what_is_not_described_is_said_and_the_rest_works() {
    let bench = with_rig(|rig| rig.truck.springs = None).play("r");
    for (columns, rows) in [(80, 24), (120, 40)] {
        let shown = bench.text(columns, rows);
        assert!(
            shown.contains("Not described: truck.springs.front"),
            "{shown}"
        );
        assert!(shown.contains("not known, of 3500 lb"), "{shown}");
    }
    assert!(bench.text(120, 40).contains("5667 of 7000 lb"));
    let why = bench.play("⇥=").text(80, 24);
    assert!(why.contains("truck.springs.rear"), "{why}");
}

#[test]
fn each_view_is_one_key_away_and_a_rating_marks_its_part() {
    let bench = Bench::new().play("r");
    let views = ["", "s", "ss", "sss"].map(|keys| {
        bench
            .clone_with(crate::screens::bench::LOOK)
            .play(keys)
            .text(80, 24)
    });
    assert_ne!(views[0], views[1]);
    assert_ne!(views[1], views[2]);
    assert_eq!(views[0], views[3]);
    let shown = bench.play("⇥⇥").text(80, 24);
    assert!(
        shown.contains("weakest: ") && shown.contains("TRUCK"),
        "{shown}"
    );
}

#[test]
fn begun_with_a_rig_alone_the_program_ends_with_its_screen() {
    let now = Bench::new().desk.now;
    let (mut model, asked) = first_rig(crate::screens::bench::LOOK, now, "juniper".to_owned());
    assert!(matches!(&asked[..], [Errand::LookAtRig { rig }] if rig == "juniper"));
    let reply = Reply::Rig {
        rig: Box::new(Rig::read(JUNIPER).unwrap()),
        facts: Facts::default(),
        mode: Mode::Real,
    };
    update(&mut model, Msg::Reply(reply));
    for (key, over) in [(Key::Right, false), (Key::Char('q'), true)] {
        let asked = update(&mut model, Msg::Press { key, repeat: false });
        assert!(asked.is_empty());
        assert_eq!(model.is_over(), over);
    }
}
