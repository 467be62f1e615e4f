//! What can be changed in thought, and what is refused.

use crate::figures::{Dial, Facts, Picture, Toward, WhatIf};
use crate::rig::Rig;
use crate::rig::demo::{JUNIPER, MESQUITE};

fn juniper() -> WhatIf {
    WhatIf::new(Rig::read(JUNIPER).unwrap(), Facts::default())
}

fn shown(whatif: &WhatIf, dial: Dial) -> String {
    whatif.now().shown(dial)
}

#[test]
fn every_value_steps_both_ways_and_comes_back_with_its_evidence() {
    for text in [JUNIPER, MESQUITE] {
        let rig = Rig::read(text).unwrap();
        let mut whatif = WhatIf::new(rig, Facts::default());
        for dial in whatif.dials() {
            if dial == Dial::Air {
                continue;
            }
            let first = match dial {
                // A tire that is as full as its sidewall allows can only be let down.
                Dial::Cold(_) => [Toward::Less, Toward::More],
                _ => [Toward::More, Toward::Less],
            };
            whatif.step(dial, first[0]).unwrap();
            assert!(whatif.is_changed(dial), "{dial:?}");
            whatif.step(dial, first[1]).unwrap();
            assert_eq!(whatif.now(), whatif.before(), "{dial:?}");
        }
    }
}

#[test]
fn what_is_changed_says_so_where_its_evidence_would_stand() {
    let mut whatif = juniper();
    whatif.type_in(Dial::Weight(0), "500 kg").unwrap();
    assert_eq!(shown(&whatif, Dial::Weight(0)), "500 kg");
    let weight = whatif.now().rig.load[0].weight.clone().unwrap();
    assert_eq!(weight.source.at, "changed in thought");
    assert_eq!(whatif.changes(), 1);
    whatif.put_back(Dial::Weight(0));
    assert_eq!(whatif.now(), whatif.before());
}

#[test]
fn what_no_part_can_be_is_refused_and_nothing_changes() {
    let mut whatif = juniper();
    for (dial, typed, refusal) in [
        (
            Dial::Rise,
            "15 in",
            "drawbar rise can be -14 in to 14 in here, and no other.",
        ),
        (
            Dial::Cold(0),
            "70 psi",
            "front tires, cold can be 10 psi to 65 psi here, and no other.",
        ),
        (
            Dial::Weight(1),
            "-1 lb",
            "Thistle, weight can be 0 lb to 4000 lb here, and no other.",
        ),
        (
            Dial::Stall(0),
            "1 in",
            "Bramble, stands is chosen with the left and right arrows.",
        ),
    ] {
        let refused = whatif.type_in(dial, typed).unwrap_err();
        assert_eq!(refused.to_string(), refusal);
    }
    assert!(whatif.type_in(Dial::Rise, "2 lb").is_err());
    assert!(whatif.step(Dial::Cold(1), Toward::More).is_err());
    assert_eq!(whatif.now(), whatif.before());
}

#[test]
fn a_temperature_nobody_read_is_typed_before_it_is_stepped() {
    let mut whatif = juniper();
    assert_eq!(shown(&whatif, Dial::Air), "not read");
    assert!(whatif.step(Dial::Air, Toward::More).is_err());
    whatif.type_in(Dial::Air, "40 F").unwrap();
    whatif.step(Dial::Air, Toward::Less).unwrap();
    assert_eq!(shown(&whatif, Dial::Air), "35 F");
    whatif.put_back(Dial::Air);
    assert_eq!(shown(&whatif, Dial::Air), "not read");
}

#[test]
fn a_horse_led_to_a_stall_that_is_taken_trades_with_the_horse_in_it() {
    let mut whatif = juniper();
    let stands = |whatif: &WhatIf| [0, 1].map(|horse| shown(whatif, Dial::Stall(horse)));
    assert_eq!(stands(&whatif), ["left stall", "right stall"]);
    whatif.step(Dial::Stall(0), Toward::More).unwrap();
    assert_eq!(stands(&whatif), ["right stall", "left stall"]);
    whatif.put_back(Dial::Stall(1));
    assert_eq!(whatif.now(), whatif.before());
}

#[test]
fn without_stalls_horses_trade_the_places_they_have() {
    let mut rig = Rig::read(JUNIPER).unwrap();
    rig.trailer.stalls.clear();
    for load in &mut rig.load {
        load.stall = None;
    }
    let mut whatif = WhatIf::new(rig, Facts::default());
    assert_eq!(shown(&whatif, Dial::Stall(0)), "158 in back, left");
    whatif.step(Dial::Stall(0), Toward::More).unwrap();
    assert_eq!(shown(&whatif, Dial::Stall(0)), "158 in back, right");
    assert_eq!(shown(&whatif, Dial::Stall(1)), "158 in back, left");
}

#[test]
fn a_gooseneck_has_no_drawbar_to_change() {
    let rig = Rig::read(MESQUITE).unwrap();
    let dials = WhatIf::new(rig, Facts::default()).dials();
    assert!(!dials.contains(&Dial::Rise) && !dials.contains(&Dial::Receiver));
}

#[test]
fn a_heavier_horse_moves_the_trailers_weight_and_it_is_told_before_and_now() {
    let mut whatif = juniper();
    let before = Picture::of(whatif.before());
    assert!(before.since(&before).iter().all(|one| !one.is_moved()));
    whatif.type_in(Dial::Weight(0), "2500 lb").unwrap();
    let now = Picture::of(whatif.now());
    let moves = now.since(&before);
    let weight = moves
        .iter()
        .find(|one| one.name == "trailer weight")
        .unwrap();
    assert!(weight.is_moved() && weight.now.is_over() && !weight.before.is_over());
    assert_eq!(weight.before.known().unwrap().to_string(), "5667 lb");
    assert_eq!(weight.now.known().unwrap().to_string(), "7067 lb");
}
