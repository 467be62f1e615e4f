//! What scale tickets say, as lines of text.

use crate::figures::weighing::{Band, Held, Left, Refused, ShareAsked, Stands, Weighed};
use crate::plain::lines::put;
use crate::rig::HitchKind;
use crate::units::{Exact, Quantity};

/// What the tickets say of a rig, and what is left of its ratings where it is known.
pub fn report(weighed: &Weighed, kind: HitchKind, left: &[Left]) -> String {
    let mut text = String::new();
    columns(
        &mut text,
        "",
        ["as read", "at least", "at most"].map(str::to_owned),
    );
    let (step, tenth) = (&weighed.step.value, &tenth());
    for (what, band, step) in [
        ("tongue weight", &weighed.tongue, step),
        ("trailer weight", &weighed.trailer, step),
        ("share on the ball", &weighed.share, tenth),
    ] {
        let Band { is, least, most } = band.outward(step);
        columns(
            &mut text,
            what,
            [is, least, most].map(|one| one.to_string()),
        );
    }
    text.push('\n');
    put(
        &mut text,
        0,
        &format!(
            "A reading is good to half a step of the scale, {}. Many weighings would spread by {} \
             and {} (one standard deviation). What else the scale is off by comes on top.",
            weighed.error, weighed.spread.tongue, weighed.spread.share
        ),
    );
    put(&mut text, 0, &steer(weighed));
    text.push('\n');
    put(&mut text, 0, &verdict(weighed, kind));
    put(&mut text, 4, weighed.asked.source);
    if !left.is_empty() {
        text.push('\n');
        put(
            &mut text,
            0,
            "Left of each rating, every reading at its heaviest",
        );
        for one in left {
            rating(&mut text, one, step);
        }
    }
    text
}

/// Why the tickets are refused, and what to do.
pub fn refused(refused: &[Refused]) -> String {
    let mut text = String::new();
    put(&mut text, 0, "These tickets are refused.");
    for one in refused {
        put(&mut text, 2, &format!("{}.", sentence(&one.reason())));
        put(&mut text, 4, one.next());
    }
    text
}

/// A verdict in a word, and what it rests on.
fn verdict(weighed: &Weighed, kind: HitchKind) -> String {
    let ShareAsked { least, most, .. } = weighed.asked;
    let rig = kind.word().replace('-', " ");
    let asked = format!("the {least} to {most} % asked of a {rig}");
    match (weighed.held, kind) {
        (Held::Within, _) => format!("OK. All of the band lies within {asked}."),
        (Held::Below, HitchKind::BumperPull) => format!(
            "STOP. All of the band lies below {asked}. A light tongue lets the trailer swing. Move \
             load forward, and weigh all tickets again."
        ),
        (Held::Below, HitchKind::Gooseneck) => format!(
            "FIX. All of the band lies below {asked}. Move load forward, and weigh all tickets \
             again."
        ),
        (Held::Above, _) => format!(
            "FIX. All of the band lies above {asked}. A heavy tongue overloads the truck's rear \
             axle. Move load back, and weigh all tickets again."
        ),
        (Held::CannotTell, _) => format!(
            "These tickets cannot tell. A part of the band lies within {asked}, and a part does \
             not. Weigh on a scale of a finer step, or weigh the tongue by itself."
        ),
    }
}

fn steer(weighed: &Weighed) -> String {
    let change = &weighed.steer_change;
    let size = Quantity::new(change.value.magnitude(), change.unit);
    let moved = if change.value.is_zero() {
        "The trailer leaves the steer axle as heavy as it was.".to_owned()
    } else if change.value.is_negative() {
        format!("The trailer takes {size} off the steer axle.")
    } else {
        format!("The trailer puts {size} on the steer axle.")
    };
    match &weighed.restored {
        None => moved,
        Some(band) => {
            let Band { is, least, most } = band.outward(&Exact::whole(1));
            format!("{moved} Tight bars give back {is} of that, from {least} to {most}.")
        }
    }
}

fn rating(text: &mut String, left: &Left, step: &Exact) {
    let whole = |of: &Quantity, to: fn(&Exact, &Exact) -> Option<Exact>| {
        let value = to(&of.value, step).unwrap_or_else(|| of.value.clone());
        Quantity::new(value, of.unit)
    };
    let stands = match &left.stands {
        Stands::Left(left) => format!("{} left", whole(left, Exact::down_to)),
        Stands::Over(over) => format!("STOP: {} over", whole(over, Exact::up_to)),
        Stands::CannotTell => "cannot tell".to_owned(),
    };
    let rating = left.rating.value.down_to(&Exact::whole(1));
    let rating = rating.map_or_else(
        || left.rating.clone(),
        |value| Quantity::new(value, left.rating.unit),
    );
    let (carries, rating) = (left.carries.is.to_string(), rating.to_string());
    put(
        text,
        2,
        &format!("{:<20}{carries:>9} of {rating:>9}   {stands}", left.what),
    );
    put(text, 6, &left.from);
}

/// A row of a label and three columns.
fn columns(text: &mut String, label: &str, values: [String; 3]) {
    let [is, least, most] = values;
    let line = format!("{label:<20}{is:>10}{least:>12}{most:>12}");
    text.push_str(line.trim_end());
    text.push('\n');
}

fn tenth() -> Exact {
    Exact::ratio(1, 10).unwrap_or_else(Exact::zero)
}

/// With a capital letter at its start.
fn sentence(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}
