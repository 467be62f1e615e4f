//! Countersigning from the screen: what the clerk refuses and signs, and how the trip stands then.

use crate::cli::Status;
use crate::cli::clerk::{Already, Books, Clerk, LaidOut, Place, Plans, Said, Stock, Trouble};
use crate::cli::logbook::known::Known;
use crate::cli::logbook::look::screen::name;
use crate::cli::logbook::manager::comes_first;
use crate::cli::logbook::shelf::Failed;
use crate::cli::logbook::show::Open;
use crate::desk::{Consent, Countersigning, CrewCard, Reply, SeenTrip};
use crate::logbook::thought_of;
use crate::record::{Finding, Id, Opinion, Signer, counted};
use crate::review::Glance;
use crate::store::{Local, TripFolder};
use crate::world::{Agent, Machine};
use std::path::{Path, PathBuf};

/// The desk at which a logbook is countersigned.
pub(super) struct Desk<'r> {
    pub(super) place: &'r Path,
    /// Where the ssh-agent is, where there is one.
    pub(super) agent: Option<&'r PathBuf>,
    pub(super) known: &'r mut Known,
}

/// Who can countersign a trip here.
#[derive(Default)]
pub(super) struct Able {
    pub(super) managers: Vec<CrewCard>,
    /// Each of them by name, and what they said of it and need not say again.
    said: Vec<(String, Option<Already>)>,
}

impl Able {
    /// What they said already, in words.
    pub(super) fn already(&self) -> Vec<String> {
        let said = self.said.iter();
        said.filter_map(|(who, said)| Some(said.as_ref()?.told(who)))
            .collect()
    }

    /// The words that each of them would be refused for.
    pub(super) fn refused(&self) -> Vec<Opinion> {
        let mut words = vec![Opinion::Agreed, Opinion::Asked];
        words.retain(|word| {
            let mut all = self.said.iter();
            all.all(|(_, said)| said.as_ref().is_some_and(|said| said.opinion == *word))
        });
        words
    }
}

impl Desk<'_> {
    fn clerk(&self) -> Result<(Clerk<Local>, Books<Local>), Trouble> {
        let books = Books::open(&Local, self.place)?;
        let place = Place {
            root: self.place.to_owned(),
            mode: books.mode(),
        };
        let clerk = Clerk::new(Local, Machine::this(), place, Stock::default());
        let agent = self.agent.cloned().map(Agent::at);
        Ok((clerk.with_agent(agent), books))
    }

    /// Who can countersign an opened trip here; why where nobody can.
    pub(super) fn managers(&self, open: &Open) -> Result<Able, String> {
        let told = |trouble: Trouble| trouble.to_string();
        let (clerk, _) = self.clerk().map_err(told)?;
        // Nobody is asked anything by a crew file that is not in force.
        clerk.crew().map_err(told)?;
        let (mut able, mut why) = (Able::default(), None);
        for manager in clerk.managers().map_err(told)? {
            match self.lay_out(&clerk, (open, &open.trip), &manager) {
                Ok(laid) => {
                    able.managers.push(CrewCard {
                        id: manager.id.to_string(),
                        name: manager.name.to_string(),
                        roles: manager.roles.clone(),
                    });
                    able.said.push((manager.name.to_string(), laid.said));
                }
                Err(trouble) => why = why.or(Some(trouble.to_string())),
            }
        }
        match why {
            Some(why) if able.managers.is_empty() => Err(why),
            _ => Ok(able),
        }
    }

    fn lay_out(
        &self,
        clerk: &Clerk<Local>,
        (open, trip): (&Open, &(Id, TripFolder)),
        manager: &Signer,
    ) -> Result<LaidOut, Trouble> {
        let order = self.known.order_of(&trip.0);
        let beside = (open.told.exceptions.clone(), order.as_slice());
        clerk.lay_out(trip, manager, beside, &self.known.answers)
    }

    /// Whether a manager may say this of a trip, and where their key lies.
    pub(super) fn may(
        &self,
        open: &Open,
        manager: &str,
        opinion: Opinion,
    ) -> Result<Reply, Failed> {
        let (clerk, _) = self.clerk()?;
        let signer = signer(&clerk, manager)?;
        let laid = self.lay_out(&clerk, (open, &open.trip), &signer)?;
        // Refused before a passphrase is typed for it.
        laid.is_news(opinion)?;
        let first = (!clerk.has_roster()?).then(comes_first);
        Ok(Reply::MayCountersign {
            lies: clerk.key_lies(&signer)?,
            manager: manager.to_owned(),
            first,
        })
    }

    /// Signs what a manager says to a trip; how it stands now.
    pub(super) fn sign(
        &mut self,
        open: &Open,
        what: Countersigning,
        consent: &Consent,
    ) -> Result<Reply, Failed> {
        let (clerk, books) = self.clerk()?;
        let signer = signer(&clerk, &what.manager)?;
        let exceptions = open.told.exceptions.iter();
        let left = exceptions.filter(|one| !what.opened.contains(&one.named));
        let left = left.count();
        if left > 0 && what.opinion == Opinion::Agreed {
            let left = counted(left, "thing");
            return Err(Failed::Said(
                Status::Findings,
                format!("{left} not opened, so it cannot be agreed to; a question can be put."),
            ));
        }
        let said = Said {
            opinion: what.opinion,
            opened: what.opened,
            remarks: what.remarks,
            took_ms: what.took_ms,
        };
        let (device, folder) = &open.trip;
        let order = self.known.order_of(device);
        let shown = Some((order.as_slice(), &self.known.answers));
        let trip = (device, folder);
        let kept = clerk.countersign_as_shown(trip, (&signer, consent), said, shown)?;
        let statements = books.statements()?;
        let thought = thought_of(&statements);
        self.known.restate(statements, folder, what.opinion);
        let read = books.read(device, folder, &mut Plans::default())?;
        let finding = self.known.finding(folder, read.finding());
        let (Some(trip), Ok(walk)) = (read.trip(), read.walk()) else {
            return Err(Failed::Said(
                Status::Verified(Finding::Altered),
                format!("It is signed, and kept in {}.", kept.path.display()),
            ));
        };
        let seal = trip.sealed().map(|sealed| sealed.hash);
        let said = seal.and_then(|seal| thought.get(&seal).copied());
        let seen = SeenTrip {
            glance: Glance {
                doubts: self.known.doubts(&trip.begun().trip),
                ..Glance::of((trip, &walk), finding, said)
            },
            folder: name(&folder.path),
        };
        drop(walk);
        Ok(Reply::Countersigned {
            seen: Box::new(seen),
            folder: kept.path.display().to_string(),
        })
    }
}

/// The manager with this id, whose key is within reach.
fn signer(clerk: &Clerk<Local>, id: &str) -> Result<Signer, Failed> {
    let managers = clerk.managers()?;
    let found = managers.into_iter().find(|one| one.id.as_str() == id);
    found.ok_or_else(|| {
        Failed::Said(
            Status::Usage,
            format!("“{}” is no manager whose key is here.", id.escape_debug()),
        )
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cli::logbook::look::screen::what_next;

    fn said(who: &str, opinion: Option<Opinion>) -> (String, Option<Already>) {
        let at = "2026-11-04T19:10:00-05:00".parse().unwrap();
        let said = opinion.map(|opinion| Already {
            opinion,
            number: 5,
            at,
        });
        (who.to_owned(), said)
    }

    #[test]
    fn a_word_is_offered_as_long_as_one_manager_here_would_not_be_refused_for_it() {
        let refused = |all: &[Option<Opinion>]| {
            let able = Able {
                managers: Vec::new(),
                said: all.iter().map(|one| said("Odile Marsh", *one)).collect(),
            };
            able.refused()
        };
        let (agreed, asked) = (Some(Opinion::Agreed), Some(Opinion::Asked));
        assert_eq!(refused(&[None]), []);
        assert_eq!(refused(&[agreed]), [Opinion::Agreed]);
        assert_eq!(refused(&[asked, asked]), [Opinion::Asked]);
        assert_eq!(refused(&[agreed, None]), []);
        assert_eq!(refused(&[agreed, asked]), []);
        assert!(!what_next(&[Opinion::Agreed]).contains("agrees to"));
        assert!(!what_next(&[Opinion::Asked]).contains("puts a question"));
    }
}
