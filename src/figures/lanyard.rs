//! Between which lengths this rig's lanyard works.

use crate::figures::chain_places::{chain, eyes, found, length, place, turn};
use crate::figures::fineness::Fineness;
use crate::figures::gather::Gather;
use crate::figures::{Found, Lacking, Today};
use crate::mechanics::chains::usual::{CLEARANCE_IN, CORD_MARGIN_IN, DROP_LIMIT_IN, PIN_TRAVEL_IN};
use crate::mechanics::chains::{
    LANYARD_WINDOW, LanyardWindow, School, Valid, Window, lanyard_window,
};
use crate::rig::Pulls;
use crate::units::{Quantity, Unit};
use std::cmp::Ordering;

/// The length that the lanyard must have at least.
pub(super) fn least(today: &Today<'_>) -> Result<Found, Lacking> {
    let (window, gather) = both(today, school(today))?;
    let from = match window.school {
        School::BeforeChains => "hangs loose in the sharpest turn".to_owned(),
        School::AfterChains => "hangs loose in every turn and with the chains tight".to_owned(),
    };
    let from = format!("{from}, with {CORD_MARGIN_IN} in to spare");
    found(window.least, from, &LANYARD_WINDOW, gather)
}

/// The length that the lanyard may have at most.
pub(super) fn most(today: &Today<'_>) -> Result<Found, Lacking> {
    most_by(today, school(today))
}

/// The length that it may have at most where it is to pull only when the chains have gone.
pub(super) fn most_after_chains(today: &Today<'_>) -> Result<Found, Lacking> {
    most_by(today, School::AfterChains)
}

fn most_by(today: &Today<'_>, school: School) -> Result<Found, Lacking> {
    let (window, gather) = both(today, school)?;
    let from = match window.school {
        School::BeforeChains => "pulls the pin before the chains are tight".to_owned(),
        School::AfterChains => format!("hangs {CLEARANCE_IN} in off the road"),
    };
    found(window.most, from, &LANYARD_WINDOW, gather)
}

/// The window that both chains leave.
struct Both {
    school: School,
    least: Quantity,
    most: Quantity,
}

/// When this barn's lanyards pull.
fn school(today: &Today<'_>) -> School {
    match today.rig.hitch.breakaway.pulls.unwrap_or_default() {
        Pulls::BeforeChains => School::BeforeChains,
        Pulls::AfterChains => School::AfterChains,
    }
}

fn both(today: &Today<'_>, school: School) -> Result<(Both, Gather), Lacking> {
    let mut gather = Gather::new();
    let windows = windows(today, school, &mut gather)?;
    let longer = |one: f64, other: f64| one.max(other);
    let least = windows
        .iter()
        .map(|window| window.min_length_in)
        .reduce(longer);
    let most = windows
        .iter()
        .map(|window| window.max_length_in)
        .reduce(|one, other| Some(one?.min(other?)))
        .flatten();
    let least = Fineness::TENTH_INCH.up(least.ok_or(Lacking::Absent)?)?;
    let Some(most) = most else {
        return Err(Lacking::NoNumber(
            "the lanyard's anchor or switch is so low that no loop keeps off the road; move them \
             higher"
                .to_owned(),
        ));
    };
    let most = Fineness::TENTH_INCH.down(most)?;
    let valid = windows.iter().all(|window| window.status == Valid::Ok);
    if valid && least.compare(&most) == Some(Ordering::Less) {
        return Ok((
            Both {
                school,
                least,
                most,
            },
            gather,
        ));
    }
    Err(Lacking::NoNumber(none(school, &least, &most)))
}

fn none(school: School, least: &Quantity, most: &Quantity) -> String {
    match school {
        School::BeforeChains => format!(
            "no length works: it must be longer than {least} to hang loose in every turn, and \
             shorter than {most} to pull before the chains are tight; move the anchor nearer to \
             the ball, or fit longer chains"
        ),
        School::AfterChains => format!(
            "no length works: it must be longer than {least} to hang loose until the chains have \
             gone, and shorter than {most} to keep off the road; move the anchor or the switch \
             higher"
        ),
    }
}

fn windows(today: &Today<'_>, school: School, gather: &mut Gather) -> Result<Vec<Window>, Lacking> {
    let hitch = &today.rig.hitch;
    let breakaway = &hitch.breakaway;
    let by = if school == self::school(today) {
        said(today)
    } else {
        "as the checklist asks"
    };
    gather.note("the lanyard pulls", pulls(school).to_owned(), by);
    let lanyard_truck_in = place(gather, "anchor of the lanyard", &breakaway.anchor.at);
    let switch_in = place(gather, "switch", &breakaway.switch);
    let max_yaw_deg = turn(gather, today.rig);
    let pin_travel_in = pin_travel(today, gather);
    let mut windows = Vec::new();
    for index in 0..hitch.chains.len() {
        let (name, chain) = chain(today.rig, index)?;
        let (chain_truck_in, chain_trailer_in) = eyes(gather, name, chain);
        windows.push(lanyard_window(&LanyardWindow {
            lanyard_truck_in,
            switch_in,
            chain_truck_in,
            chain_trailer_in,
            chain_length_in: length(gather, name, chain),
            cord_truck_in: None,
            cord_trailer_in: None,
            max_yaw_deg,
            school,
            margin_in: CORD_MARGIN_IN,
            pin_travel_in,
            drop_limit_in: DROP_LIMIT_IN,
            clearance_in: CLEARANCE_IN,
        })?);
    }
    Ok(windows)
}

fn pulls(school: School) -> &'static str {
    match school {
        School::BeforeChains => "before the chains are tight",
        School::AfterChains => "only when the chains have gone too",
    }
}

fn said(today: &Today<'_>) -> &'static str {
    match today.rig.hitch.breakaway.pulls {
        Some(_) => "this barn, in the rig file",
        None => "taken where the rig file says nothing",
    }
}

/// How far the pin moves, or an inch where nobody measured it.
fn pin_travel(today: &Today<'_>, gather: &mut Gather) -> f64 {
    let what = "travel of the switch's pin";
    if let Some(travel) = &today.rig.hitch.breakaway.pin_travel {
        return gather.number(what, "hitch.breakaway.pin-travel", Some(travel), Unit::Inch);
    }
    gather.note(
        what,
        format!("{PIN_TRAVEL_IN} in"),
        "common practice, no source",
    );
    PIN_TRAVEL_IN
}

#[cfg(test)]
mod tests {
    use crate::figures::{Figure, NotKnown};
    use crate::rig::Rig;
    use crate::rig::demo::{JUNIPER, MESQUITE};
    use std::cmp::Ordering;

    fn of(text: &str) -> Result<[String; 2], NotKnown> {
        let rig = Rig::read(text).unwrap();
        let length = |figure: Figure| Ok(figure.of(&rig, None)?.quantity.to_string());
        Ok([length(Figure::LanyardLeast)?, length(Figure::LanyardMost)?])
    }

    #[test]
    fn the_lanyards_of_the_demo_rigs_lie_in_their_windows() {
        assert_eq!(of(JUNIPER).unwrap(), ["26.6 in", "28.8 in"]);
        for text in [JUNIPER, MESQUITE] {
            let rig = Rig::read(text).unwrap();
            let least = Figure::LanyardLeast.of(&rig, None).unwrap();
            let most = Figure::LanyardMost.of(&rig, None).unwrap();
            let own = &rig.hitch.breakaway.lanyard.quantity;
            assert_eq!(own.compare(&least.quantity), Some(Ordering::Greater));
            assert_eq!(own.compare(&most.quantity), Some(Ordering::Less));
        }
    }

    #[test]
    fn the_other_school_wants_a_lanyard_longer_than_the_chains_let_the_trailer_go() {
        let after = JUNIPER.replace("pulls: before-chains", "pulls: after-chains");
        let [least, most] = of(&after).unwrap();
        assert_eq!([least, most], ["33.3 in", "39.4 in"]);
        for text in [JUNIPER, &after] {
            let rig = Rig::read(text).unwrap();
            let asked = Figure::LanyardMostAfterChains.of(&rig, None).unwrap();
            assert_eq!(asked.quantity.to_string(), "39.4 in");
        }
    }

    #[test]
    fn where_no_length_works_the_sentence_says_what_to_move() {
        let short = JUNIPER.replace("length: { is: 30 in", "length: { is: 26 in");
        let no = of(&short).unwrap_err().to_string();
        assert!(
            no.contains("no length works") && no.contains("longer chains"),
            "{no}"
        );
    }

    #[test]
    fn an_unmeasured_pin_is_taken_by_common_practice_and_said() {
        let silent = JUNIPER.replace("    pin-travel:", "    # pin-travel:");
        let rig = Rig::read(&silent).unwrap();
        let found = Figure::LanyardMost.of(&rig, None).unwrap();
        let inputs = found.working.unwrap().inputs;
        let pin = inputs.iter().find(|input| input.what.contains("pin"));
        assert_eq!(pin.unwrap().from, "common practice, no source");
        assert_eq!(found.quantity.to_string(), "28.2 in");
    }
}
