//! What to do about each thing that verification finds: one sentence with a command for each.

use crate::logbook::order::{Ending, OrderFault};
use crate::record::{Finding, Gone, StatementFault};

/// For a trip.
pub(super) fn for_trip(finding: Finding, place: &str) -> String {
    match finding {
        Finding::UnknownSigner => format!(
            "If a change of the crew has not come here yet, bring it: hames logbook merge FOLDER. \
             Who was in the crew when: hames crew list --all. The whole of it: hames verify {place}"
        ),
        Finding::OtherMode => format!(
            "It belongs into a logbook of its own kind; ask who copied it here: hames verify {place}"
        ),
        _ => format!(
            "See what was changed: hames verify {place}. Where a stick or another laptop has it \
             whole, hames logbook merge FOLDER keeps the whole one beside it; this one stays as it \
             is, and counts for nothing"
        ),
    }
}

/// For the order of a laptop's trips; nothing where the fault says it itself.
pub(super) fn for_order(fault: &OrderFault) -> Option<String> {
    Some(match fault {
        OrderFault::Fork { said, .. } if !said.is_empty() => return None,
        OrderFault::Fork { device, seq, .. } => format!(
            "A manager looks into both and says which goes on: hames logbook close-fork {device} {seq}"
        ),
        OrderFault::Gap {
            device, from, to, ..
        }
        | OrderFault::Unseen {
            device, from, to, ..
        } => {
            let numbers = if from == to {
                from.to_string()
            } else {
                format!("{from}..{to}")
            };
            format!(
                "Bring them from whatever laptop, stick or backup has them: hames logbook merge \
                 FOLDER. What is lost for good, a manager gives up: hames logbook accept-loss \
                 {device} {numbers} --why …"
            )
        }
        OrderFault::Ending { stands, .. } | OrderFault::Pinned { stands, .. } => match stands {
            Ending::Shorter => {
                "Bring the whole of it from whatever laptop, stick or backup has it: \
                                hames logbook merge FOLDER"
                    .to_owned()
            }
            Ending::OtherSeal => format!(
                "Bring the other one: hames logbook merge FOLDER. With both here a manager says \
                 which goes on: hames logbook close-fork {} {}",
                fault.device(),
                fault.numbers().0
            ),
        },
        OrderFault::Branch { .. } => {
            "Bring it from whatever laptop, stick or backup has it: hames logbook merge FOLDER"
                .to_owned()
        }
        OrderFault::Statement { .. } => {
            "Bring what managers stated from a manager's laptop: hames \
                                         logbook merge FOLDER"
                .to_owned()
        }
        OrderFault::TakenOut {
            how: Gone::NotAdded,
            ..
        } => "Ask who is named in it. Where they belong to the crew, a manager lets them in again with \
              the line that hames crew request tells on their laptop: hames crew add --role groom \
              --public FILE, or as what they are. What they signed in between stays as it is told here"
            .to_owned(),
        OrderFault::TakenOut { .. } => "Ask who is named in it; nobody agrees to what such a key \
                                        signed. Who held it when: hames crew list --all"
            .to_owned(),
        OrderFault::Own { device, trip, .. } => {
            format!(
                "Another manager looks at it: hames logbook countersign {device}/{}",
                trip.seq
            )
        }
    })
}

/// For a statement; nothing where the fault says it itself.
pub(super) fn for_statement(fault: &StatementFault) -> Option<String> {
    Some(match fault {
        StatementFault::RosterFork { .. } | StatementFault::Fork { .. } => return None,
        StatementFault::Unreadable { .. }
        | StatementFault::NoSignature { .. }
        | StatementFault::NotSigned { .. }
        | StatementFault::CrewFile { .. } => "Bring it whole from a manager's laptop: hames \
                                              logbook merge FOLDER. This one stays as it is, and \
                                              counts for nothing"
            .to_owned(),
        StatementFault::UnknownCrew { .. }
        | StatementFault::CrewBefore { .. }
        | StatementFault::NotTrusted
        | StatementFault::Gap { .. }
        | StatementFault::Missing { .. } => "Bring what is missing from a manager's laptop: hames \
                                             logbook merge FOLDER"
            .to_owned(),
        StatementFault::OtherMode { .. } => {
            "It belongs into a logbook of its own kind; ask who copied it here".to_owned()
        }
        StatementFault::TakenOut { manager, .. } => format!(
            "Ask {manager} whether they signed it; it counts for nothing. Who held that key when: \
             hames crew list --all"
        ),
    })
}
