//! `hames logbook close-fork` and `accept-loss`: what lies here is shown, then the manager states
//! what becomes of it.

use crate::cli::Status;
use crate::cli::clerk::one_called;
use crate::cli::logbook::manager::{Not, Sitting};
use crate::record::{Id, Says};
use crate::walk::Words;

/// A fork and how it is closed, as typed.
pub(super) struct Fork<'a> {
    pub(super) device: &'a str,
    pub(super) number: u64,
    pub(super) goes_on: &'a str,
    pub(super) why: &'a str,
}

pub(super) fn close_fork(sitting: &mut Sitting<'_>, fork: &Fork<'_>) -> Result<Status, Not> {
    let (device, why) = (id(fork.device)?, words(fork.why)?);
    let histories = sitting.clerk.histories(&device, fork.number)?;
    let goes_on = one_called(&histories, fork.goes_on);
    let goes_on = &goes_on
        .map_err(|trouble| Not::usage(&trouble.to_string()))?
        .name;
    let many = histories.len();
    sitting.talk.head(&format!(
        "Trip {} of {device} has {many} histories:",
        fork.number
    ))?;
    for history in &histories {
        sitting.talk.say("")?;
        for line in &history.told {
            sitting.talk.say(&format!("  {line}"))?;
        }
    }
    if let [first, others @ ..] = histories.as_slice() {
        for other in others {
            sitting.talk.say("")?;
            for line in first.parts_from(other) {
                sitting.talk.say(&line)?;
            }
        }
    }
    sitting.talk.head(&format!(
        "{device} goes on by {goes_on}; nothing is removed, and what both say stays to be read."
    ))?;
    let what = format!("to close the fork at trip {} of {device}", fork.number);
    let folder = sitting.sign((&what, Says::FORK_CLOSED), |clerk, who| {
        clerk.close_fork((&device, fork.number, fork.goes_on), &why, who)
    })?;
    sitting.signed("The fork is closed.", &folder)?;
    Ok(Status::Fine)
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

fn id(typed: &str) -> Result<Id, Not> {
    Id::read(typed).map_err(|fault| Not::usage(&format!("{fault}.")))
}

/// Words typed behind a flag.
pub(super) fn words(typed: &str) -> Result<Words, Not> {
    Words::read(typed).map_err(|fault| Not::usage(&format!("The words behind --why: {fault}.")))
}
