//! Countersigning from the screen: what the clerk refuses and signs, and how the trip stands then.

use crate::cli::Status;
use crate::cli::clerk::{Books, Clerk, LaidOut, Place, Plans, Said, Stock, Trouble};
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

    /// The managers who can countersign an opened trip here, and what those said of it already;
    /// none, and why.
    pub(super) fn managers(&self, open: &Open) -> Result<(Vec<CrewCard>, Vec<String>), String> {
        let told = |trouble: Trouble| trouble.to_string();
        let (clerk, _) = self.clerk().map_err(told)?;
        // Nobody is asked anything by a crew file that is not in force.
        clerk.crew().map_err(told)?;
        let (mut managers, mut already, mut why) = (Vec::new(), Vec::new(), None);
        for manager in clerk.managers().map_err(told)? {
            match self.lay_out(&clerk, (open, &open.trip), &manager) {
                Ok(laid) => {
                    already.extend(laid.said.map(|said| said.told(manager.name.as_str())));
                    managers.push(CrewCard {
                        id: manager.id.to_string(),
                        name: manager.name.to_string(),
                        roles: manager.roles.clone(),
                    });
                }
                Err(trouble) => why = why.or(Some(trouble.to_string())),
            }
        }
        match why {
            Some(why) if managers.is_empty() => Err(why),
            _ => Ok((managers, already)),
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
