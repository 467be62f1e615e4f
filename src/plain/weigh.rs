//! The tickets of a truck scale, asked for line by line, with where to park which axle.

use crate::figures::weighing::{Pad, Ticket, Tickets};
use crate::plain::stop::Stop;
use crate::plain::talk::Talk;
use crate::rig::HitchKind;
use crate::units::{Dimension, Exact, Quantity, Unit, parse_quantity};

const HOW: [&str; 2] = [
    "Weigh on a truck scale, with the same people and fuel in the truck and the same load in the \
     trailer each time. Each axle group stops whole on a pad of its own.",
    "Never uncouple with horses in the trailer. Weigh the truck alone before they are loaded.",
];

/// Asks for every ticket. How the ball is carried is asked for where no rig says it.
pub(crate) fn ask_tickets(talk: &mut Talk<'_>, kind: Option<HitchKind>) -> Result<Tickets, Stop> {
    for line in HOW {
        talk.say(line)?;
    }
    let kind = match kind {
        Some(kind) => kind,
        None => one_of(talk, "Which rig?", &HitchKind::WORDS)?,
    };
    let units = [("lb", Unit::Pound), ("kg", Unit::Kilogram)];
    let unit = one_of(talk, "The unit the tickets print?", &units)?;
    let usual = Tickets::usual_step(unit);
    let usual = usual.map_or_else(String::new, |step| {
        format!(
            " Many public scales print every {} {unit}.",
            step.rounded(0)
        )
    });
    let step = amount(
        talk,
        unit,
        &format!("The smallest step between two weights on them?{usual}"),
    )?;
    let loose = match kind {
        HitchKind::BumperPull => " Spring bars, if there are any, loose or off.",
        HitchKind::Gooseneck => "",
    };
    let hitched = pads(talk, unit, Ticket::Hitched, loose)?;
    let alone = pads(talk, unit, Ticket::Alone, " On the same two pads.")?;
    let tight = kind == HitchKind::BumperPull
        && one_of(talk, "Is there a ticket with spring bars tight?", &YES_NO)?;
    let bars = if tight {
        Some(pads(talk, unit, Ticket::Bars, "")?)
    } else {
        None
    };
    let by_itself = "Is there one of the trailer alone, jack and wheels on one pad?";
    let trailer = if one_of(talk, by_itself, &YES_NO)? {
        Some(pads::<1>(talk, unit, Ticket::Trailer, "")?)
    } else {
        None
    };
    Ok(Tickets {
        kind,
        unit,
        step,
        alone,
        hitched,
        bars,
        trailer: trailer.map(|[trailer]| trailer),
    })
}

const YES_NO: [(&str, bool); 2] = [("yes", true), ("no", false)];

/// Asks until one of these words is typed.
fn one_of<T: Copy>(talk: &mut Talk<'_>, question: &str, words: &[(&str, T)]) -> Result<T, Stop> {
    let all: Vec<&str> = words.iter().map(|(word, _)| *word).collect();
    let question = format!("{question} Type {}.", all.join(" or "));
    loop {
        let typed = talk.ask(&question)?.to_lowercase();
        if let Some((_, meant)) = words.iter().find(|(word, _)| *word == typed) {
            return Ok(*meant);
        }
    }
}

/// Asks for every pad of a ticket, and once more where its own total says that one was mistyped.
fn pads<const N: usize>(
    talk: &mut Talk<'_>,
    unit: Unit,
    ticket: Ticket,
    how: &str,
) -> Result<[Exact; N], Stop> {
    loop {
        talk.head(&format!("Ticket: {}.{how}", ticket.word()))?;
        let mut read = Vec::with_capacity(N);
        for pad in ticket.pads() {
            read.push(amount(talk, unit, &asked(*pad))?);
        }
        let sum = read.iter().fold(Exact::zero(), |sum, next| &sum + next);
        if N > 1 {
            let total = if_any(talk, unit, "Total? Type none where the ticket prints none.")?;
            if let Some(total) = total.filter(|total| *total != sum) {
                let [sum, total] = [sum, total].map(|value| Quantity::new(value, unit));
                talk.say(&format!(
                    "These make {sum}, and the total is {total}: one of them is mistyped. Read \
                     this ticket once more."
                ))?;
                continue;
            }
        }
        if let Ok(read) = <[Exact; N]>::try_from(read) {
            return Ok(read);
        }
    }
}

fn asked(pad: Pad) -> String {
    let where_it_stands = match pad {
        Pad::Steer => "front wheels on the first pad",
        Pad::Drive => "rear wheels on the second pad",
        Pad::Trailer => "all its wheels on the third pad",
        Pad::Whole => "jack and wheels on one pad",
    };
    format!("Reading of the {}, {where_it_stands}?", pad.word())
}

/// Asks until a weight is typed.
fn amount(talk: &mut Talk<'_>, unit: Unit, question: &str) -> Result<Exact, Stop> {
    loop {
        let typed = talk.ask(question)?;
        match weight(&typed, unit) {
            Ok(weight) => return Ok(weight),
            Err(why) => talk.say(&why)?,
        }
    }
}

/// The same where there may be none.
fn if_any(talk: &mut Talk<'_>, unit: Unit, question: &str) -> Result<Option<Exact>, Stop> {
    loop {
        let typed = talk.ask(question)?;
        if typed.eq_ignore_ascii_case("none") {
            return Ok(None);
        }
        match weight(&typed, unit) {
            Ok(weight) => return Ok(Some(weight)),
            Err(why) => talk.say(&why)?,
        }
    }
}

/// A weight in the unit of the tickets, which may but need not stand behind it.
fn weight(typed: &str, unit: Unit) -> Result<Exact, String> {
    if let Ok(number) = Exact::parse_decimal(typed) {
        return Ok(number);
    }
    match parse_quantity(typed, Dimension::Mass) {
        Ok(read) if read.unit == unit => Ok(read.value),
        Ok(_) => Err(format!(
            "The tickets print {unit}: type the weight as it stands there."
        )),
        Err(not) => Err(format!(
            "That is no weight: {}. Type it as the ticket prints it.",
            not.reason()
        )),
    }
}
