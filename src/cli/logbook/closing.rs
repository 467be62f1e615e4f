//! `hames logbook close-fork` and `accept-loss`: what lies here is shown, then the manager states
//! what becomes of it.

use crate::cli::Status;
use crate::cli::clerk::{Clerk, ForkHistory, one_called};
use crate::cli::command::reason;
use crate::cli::logbook::manager::{Not, Sitting};
use crate::plain::Talk;
use crate::record::{Id, Says};
use crate::store::Local;
use crate::walk::Words;
use std::io;

/// A fork, as typed.
pub(super) struct Fork<'a> {
    pub(super) device: &'a str,
    pub(super) number: u64,
}

/// Shows the histories a manager chooses from, and how the choice is made. It takes nobody's key.
pub(super) fn show_fork(
    clerk: &Clerk<Local>,
    fork: &Fork<'_>,
    talk: &mut Talk<'_>,
) -> Result<Status, Not> {
    let device = id(fork.device)?;
    let histories = clerk.histories(&device, fork.number)?;
    show(&histories, (&device, fork.number), talk)?;
    let first = histories.first().map_or("TRIP", |one| one.name.as_str());
    talk.head(&format!(
        "Ask who walked them. Then a manager says which one {device} goes on by; the others stay to \
         be read. For the first of them:"
    ))?;
    talk.say(&format!(
        "hames logbook close-fork {device} {} --goes-on {first} --why \"…\"",
        fork.number
    ))?;
    Ok(Status::Findings)
}

fn show(
    histories: &[ForkHistory],
    (device, number): (&Id, u64),
    talk: &mut Talk<'_>,
) -> io::Result<()> {
    let many = histories.len();
    talk.head(&format!("Trip {number} of {device} has {many} histories:"))?;
    for history in histories {
        talk.say("")?;
        for line in &history.told {
            talk.say(&format!("  {line}"))?;
        }
    }
    if let [first, others @ ..] = histories {
        for other in others {
            talk.say("")?;
            for line in first.parts_from(other) {
                talk.say(&line)?;
            }
        }
    }
    Ok(())
}

pub(super) fn close_fork(
    sitting: &mut Sitting<'_>,
    fork: &Fork<'_>,
    (goes_on, why): (&str, &str),
) -> Result<Status, Not> {
    let (device, why) = (id(fork.device)?, words(why)?);
    let histories = sitting.clerk.histories(&device, fork.number)?;
    let typed = goes_on;
    let goes_on = &one_called(&histories, typed)?.name;
    show(&histories, (&device, fork.number), &mut sitting.talk)?;
    sitting.talk.head(&format!(
        "{device} goes on by {goes_on}; nothing is removed, and what both say stays to be read."
    ))?;
    let what = format!("to close the fork at trip {} of {device}", fork.number);
    let folder = sitting.sign((&what, Says::FORK_CLOSED), |clerk, who| {
        clerk.close_fork((&device, fork.number, typed), &why, who)
    })?;
    sitting.signed("The fork is closed.", &folder)?;
    let next = if sitting.clerk.device_here().as_ref() == Some(&device) {
        "Walks begin on this laptop again. Take the statement to the other laptops: there say hames \
         logbook merge FOLDER."
            .to_owned()
    } else {
        format!(
            "Take the statement to {device}: there say hames logbook merge FOLDER, and walks begin \
             on it again."
        )
    };
    sitting.talk.say(&next)?;
    sitting.talk.say(&anew(&device))?;
    Ok(Status::Fine)
}

/// What a closed fork leaves to do where two machines have one key; which of the ways it came about,
/// the files do not tell.
pub(in crate::cli) fn anew(device: &Id) -> String {
    format!(
        "Where two machines wrote as {device}, a copied disk or folder, they part again at the next \
         number: on one of them take keys/{device} away, and enrol it by itself before it is walked \
         on: hames crew request"
    )
}

pub(super) fn accept_loss(
    sitting: &mut Sitting<'_>,
    (device, numbers, why): (&str, &str, &str),
) -> Result<Status, Not> {
    let (device, why) = (id(device)?, words(why)?);
    let (from, to) = range(numbers)?;
    let missing = sitting.clerk.missing(&device)?;
    sitting.clerk.may_accept(&missing, (&device, from, to))?;
    sitting.talk.head(&format!("What is known of {device}:"))?;
    for line in &missing.told {
        sitting.talk.say(&format!("  {line}"))?;
    }
    let trips = if from == to {
        format!("trip {from} of {device}")
    } else {
        format!("trips {from} to {to} of {device}")
    };
    sitting.talk.say(&format!(
        "Given up for lost: {trips}. Should they turn up, they can still be merged and are looked \
         at like any other."
    ))?;
    let what = format!("to accept the loss of {trips}");
    let folder = sitting.sign((&what, Says::LOSS_ACCEPTED), |clerk, who| {
        clerk.accept_loss((&device, from, to), &why, who)
    })?;
    sitting.signed("The loss is accepted.", &folder)?;
    Ok(Status::Fine)
}

/// A number, or the first and the last.
fn range(typed: &str) -> Result<(u64, u64), Not> {
    let refused = || {
        Not::usage(&format!(
            "“{}” is no number of a trip. Type one such as 5, or the first and the last such as \
             5..7.",
            typed.escape_debug()
        ))
    };
    let number = |text: &str| text.trim().parse::<u64>().map_err(|_| refused());
    let (from, to) = match typed.split_once("..") {
        Some((from, to)) => (number(from)?, number(to)?),
        None => (number(typed)?, number(typed)?),
    };
    if from == 0 || to < from {
        return Err(refused());
    }
    Ok((from, to))
}

pub(super) fn id(typed: &str) -> Result<Id, Not> {
    Id::read(typed).map_err(|fault| Not::usage(&format!("{fault}.")))
}

/// Words typed behind a flag.
pub(super) fn words(typed: &str) -> Result<Words, Not> {
    reason("--why", typed).map_err(|why| Not::usage(&why))
}
