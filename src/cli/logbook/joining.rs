//! `hames logbook close-fork` of a manager's own statements: what was signed on two laptops apart is shown,
//! then a manager joins it.

use crate::cli::Status;
use crate::cli::clerk::Clerk;
use crate::cli::logbook::closing::{Fork, id, words};
use crate::cli::logbook::manager::{Not, Sitting};
use crate::plain::Talk;
use crate::record::{Id, Says};
use crate::store::Local;

/// What is told before it is signed, and in the shown rows.
const JUDGED: &str = "Nothing is chosen by it: where one side asks about a trip and the other agrees, \
                      the question stands, and a fork that they close in opposite ways stays open, \
                      until the manager says it once more.";

/// Whose statements are meant; nothing where it is a laptop whose trips fork.
pub(super) fn whose(
    clerk: &Clerk<Local>,
    fork: &Fork<'_>,
    (goes_on, join): (bool, bool),
) -> Result<Option<Id>, Not> {
    let who = id(fork.device)?;
    match (clerk.has_stated(&who)?, goes_on, join) {
        (true, true, _) => Err(Not::usage(&format!(
            "{who} is a manager. What a manager signed on two laptops apart all counts: say --join \
             and no --goes-on."
        ))),
        (false, _, true) => Err(Not::usage(&format!(
            "{who} is no manager who has stated anything here. Of two histories of a laptop one \
             goes on: see them with hames logbook close-fork {who} {}",
            fork.number
        ))),
        (true, ..) => Ok(Some(who)),
        (false, ..) => Ok(None),
    }
}

/// Shows what was signed on each, and how it is joined. It takes nobody's key.
pub(super) fn show(
    clerk: &Clerk<Local>,
    of: (&Id, u64),
    talk: &mut Talk<'_>,
) -> Result<Status, Not> {
    tell(clerk, of, talk)?;
    let (manager, number) = of;
    talk.head(&format!(
        "Ask {manager} whether they signed all of it. Where not, somebody has a copy of the key: hames \
         crew revoke {manager} --why WORDS. Where they did, a manager says so:"
    ))?;
    talk.say(&format!(
        "hames logbook close-fork {manager} {number} --join --why \"…\""
    ))?;
    Ok(Status::Findings)
}

fn tell(
    clerk: &Clerk<Local>,
    (manager, number): (&Id, u64),
    talk: &mut Talk<'_>,
) -> Result<(), Not> {
    let rows = clerk.signed_apart(manager, number)?;
    let many = rows.len();
    talk.head(&format!(
        "{manager} signed on {many} laptops that did not know of each other, from statement {number} on:"
    ))?;
    for row in rows {
        talk.say("")?;
        for line in row {
            talk.say(&format!("  {line}"))?;
        }
    }
    Ok(())
}

pub(super) fn join(sitting: &mut Sitting<'_>, of: (&Id, u64), why: &str) -> Result<Status, Not> {
    let (why, (manager, number)) = (words(why)?, of);
    tell(&sitting.clerk, of, &mut sitting.talk)?;
    sitting.talk.head(JUDGED)?;
    let what = format!("to join what {manager} signed apart from statement {number} on");
    let folder = sitting.sign((&what, Says::JOINED), |clerk, who| {
        clerk.join(of, &why, who)
    })?;
    sitting.signed("It is joined.", &folder)?;
    sitting.talk.say(
        "Take the statement to the other laptops before that manager signs on one of them: there say \
         hames logbook merge FOLDER.",
    )?;
    Ok(Status::Fine)
}
