//! What scale tickets say, as lines of text.

use crate::figures::weighing::{Band, Held, Left, Refused, ShareAsked, Stands, Weighed};
use crate::rig::HitchKind;
use crate::text::{capital, put};
use crate::units::{Exact, Quantity};

/// What is left of the ratings of a rig, where it is known, and what the tickets say of its tongue.
/// What matters most stands last, where a small terminal still shows it.
pub fn report(weighed: &Weighed, kind: HitchKind, left: &[Left]) -> String {
    let mut text = String::new();
    let (step, tenth) = (&weighed.step.value, &tenth());
    if !left.is_empty() {
        put(
            &mut text,
            0,
            "Left of each rating, every reading at its heaviest",
        );
        for one in left {
            rating(&mut text, one, step);
        }
        text.push('\n');
    }
    let heads = ["as read", "at least", "at most"].map(str::to_owned);
    columns(&mut text, "", heads);
    for (what, band, step) in [
        ("tongue weight", &weighed.tongue, step),
        ("trailer weight", &weighed.trailer, step),
        ("share on the ball", &weighed.share, tenth),
    ] {
        let Band { is, least, most } = band.outward(step);
        let ends = [is, least, most].map(|one| one.to_string());
        columns(&mut text, what, ends);
    }
    text.push('\n');
    let spread = format!(
        "A reading is good to half a step of the scale, {}. Many weighings would spread by {} and \
         {} (one standard deviation). What else the scale is off by comes on top.",
        weighed.error, weighed.spread.tongue, weighed.spread.share
    );
    put(&mut text, 0, &spread);
    put(&mut text, 0, &steer(weighed));
    text.push('\n');
    put(&mut text, 0, &verdict(weighed, kind));
    put(&mut text, 4, weighed.asked.source);
    for words in left.iter().filter_map(beyond) {
        put(&mut text, 0, &words);
    }
    text
}

/// What a rating that is not surely kept asks for.
fn beyond(left: &Left) -> Option<String> {
    let Left { what, from, .. } = left;
    let rating = shown(&left.rating);
    match left.stands {
        Stands::Left(_) => None,
        Stands::Over(_) => Some(format!(
            "STOP. More than the rating of the {what}, {rating} ({from}). Take load off, and weigh \
             all tickets again."
        )),
        Stands::CannotTell => Some(format!(
            "These tickets cannot tell whether the {what} keeps its rating of {rating} ({from}). \
             Weigh on a scale of a finer step."
        )),
    }
}

/// Why the tickets are refused, and what to do.
pub fn refused(refused: &[Refused]) -> String {
    let mut text = String::new();
    put(&mut text, 0, "These tickets are refused.");
    for one in refused {
        put(&mut text, 2, &format!("{}.", capital(&one.reason())));
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
        Stands::Over(over) => format!("{} over", whole(over, Exact::up_to)),
        Stands::CannotTell => "cannot tell".to_owned(),
    };
    let (carries, rating) = (left.carries.is.to_string(), shown(&left.rating));
    let row = format!("{:<20}{carries:>9} of {rating:>9}   {stands}", left.what);
    put(text, 2, &row);
    put(text, 6, &left.from);
}

/// A rating in whole numbers of the scale's unit, never more than it is.
fn shown(rating: &Quantity) -> String {
    let whole = rating.value.down_to(&Exact::whole(1));
    let whole = whole.unwrap_or_else(|| rating.value.clone());
    Quantity::new(whole, rating.unit).to_string()
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
