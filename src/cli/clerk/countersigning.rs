//! Countersigning: a manager states to have looked at one trip, as it was sealed.

use crate::cli::clerk::{Books, Clerk, Plans, TripRead, Trouble};
use crate::desk::{Consent, Exception, Tale, told};
use crate::logbook::order::{Order, OrderFault};
use crate::logbook::{Answers, Barred, is_news, may_countersign, opinions};
use crate::record::{Countersigned, Id, Opinion, Says, Signer, Statements, Verified};
use crate::store::{Disk, StatementFolder, TripFolder};
use crate::walk::{Event, Walk, Words};
use chrono::{DateTime, FixedOffset};

/// What a manager says to a trip.
#[derive(Clone, Debug)]
pub struct Said {
    /// The opinion.
    pub opinion: Opinion,
    /// What was looked at.
    pub opened: Vec<Words>,
    /// Remarks, or the question.
    pub remarks: Option<Words>,
    /// Milliseconds it took from the laying out to this.
    pub took_ms: u64,
}

/// A trip laid out for a manager to look at.
#[derive(Clone, Debug)]
pub struct LaidOut {
    /// The trip as read.
    pub read: TripRead,
    /// Its record, told.
    pub tale: Tale,
    /// The sections that were stated to be complete.
    pub passed: Vec<String>,
    /// What in it is not as expected.
    pub exceptions: Vec<Exception>,
    /// What this manager last said of it and need not say again, and in which statement.
    pub said: Option<Already>,
}

/// What a manager said of a trip and need not say again.
#[derive(Clone, Debug)]
pub struct Already {
    /// The word that is refused by now.
    pub opinion: Opinion,
    /// In which of their statements.
    pub number: u64,
    /// When.
    pub at: DateTime<FixedOffset>,
}

impl Already {
    /// It, and what is left to say: of “You”, or of a manager by name.
    pub fn told(&self, who: &str) -> String {
        let at = self.at.format("%Y-%m-%d %H:%M");
        let in_which = format!("on {at}, in statement {}", self.number);
        match self.opinion {
            Opinion::Agreed => format!(
                "{who} agreed to this trip {in_which}. Agreeing once more would add nothing and is \
                 refused; what is left to say is a question, if there is one."
            ),
            Opinion::Asked => format!(
                "{who} asked about this trip {in_which}, and no answer has come. Asking once more is \
                 refused until one does; what is left to say is to agree to it."
            ),
        }
    }
}

impl LaidOut {
    /// Whether it is news that the manager has this opinion of it.
    ///
    /// # Errors
    /// A sentence, where it was said already.
    pub fn is_news(&self, opinion: Opinion) -> Result<(), Trouble> {
        match self.said {
            Some(Already {
                opinion: last,
                number,
                ..
            }) if last == opinion => Err(barred(&self.read, &Barred::Said(opinion, number))),
            _ => Ok(()),
        }
    }
}

impl<D: Disk> Clerk<D> {
    /// Lays a trip out for a manager to countersign it, given what in it and beside it is not as
    /// expected, and what is wrong with the order of its laptop's trips.
    ///
    /// # Errors
    /// A sentence, where it may not be.
    pub fn lay_out(
        &self,
        (device, folder): &(Id, TripFolder),
        manager: &Signer,
        (exceptions, order): (Vec<Exception>, &[OrderFault]),
        answers: &Answers,
    ) -> Result<LaidOut, Trouble> {
        let books = self.books()?;
        let mut plans = Plans::of_stock(&self.stock);
        let read = books.read(device, folder, &mut plans)?;
        let statements = books.statements()?;
        books.may_countersign(&read, manager, &statements)?;
        let walk = read.walk()?;
        counts(&read, order)?;
        Ok(LaidOut {
            tale: super::telling::tale(&read, &books),
            passed: passed(&read, &walk),
            said: said(&read, (&statements, answers), manager),
            exceptions,
            read,
        })
    }

    /// Signs and keeps what a manager says to a trip.
    ///
    /// # Errors
    /// A sentence with its next step. Nothing was stated then.
    pub fn countersign(
        &self,
        (device, folder): &(Id, TripFolder),
        (manager, consent): (&Signer, &Consent),
        said: Said,
    ) -> Result<StatementFolder, Trouble> {
        self.countersign_as_shown((device, folder), (manager, consent), said, None)
    }

    /// The same, refused where what was shown beside the trip is not what stands there now: what is
    /// wrong with the order of its laptop's trips, and what was answered about it.
    ///
    /// # Errors
    /// A sentence with its next step. Nothing was stated then.
    pub fn countersign_as_shown(
        &self,
        (device, folder): (&Id, &TripFolder),
        (manager, consent): (&Signer, &Consent),
        said: Said,
        shown: Option<(&[OrderFault], &Answers)>,
    ) -> Result<StatementFolder, Trouble> {
        let books = self.books()?;
        // What was shown may have been changed since: it is all looked at again.
        let mut plans = Plans::of_stock(&self.stock);
        let read = books.read(device, folder, &mut plans)?;
        let statements = books.statements()?;
        books.may_countersign(&read, manager, &statements)?;
        let (order, answers) = books.order(&statements, &mut plans)?;
        counts(&read, &order)?;
        let trip = read.trip().and_then(|trip| Some((trip, trip.sealed()?)));
        let (trip, sealed) = trip.ok_or_else(|| barred(&read, &Barred::Finding(read.finding())))?;
        is_news(
            (&statements, &answers),
            &sealed.hash,
            &manager.id,
            said.opinion,
        )
        .map_err(|why| barred(&read, &why))?;
        if let Some((shown, answered)) = shown {
            let mut now = order.iter().filter(|fault| fault.device() == device);
            let same = now.all(|fault| shown.contains(fault))
                && answers.about(&sealed.hash) == answered.about(&sealed.hash);
            if !same {
                return Err(Trouble::Said(format!(
                    "Trip {} is not countersigned: what stands beside it has changed since it was \
                     opened. Open it again and look at what is new.",
                    super::around::trip_name(&read.folder)
                )));
            }
        }
        let says = Says::Countersigned(Countersigned {
            trip: trip.begun().trip.clone(),
            device: trip.begun().device.clone(),
            seq: trip.begun().seq,
            seal: sealed.hash,
            opinion: said.opinion,
            opened: said.opened,
            remarks: said.remarks,
            took_ms: Some(said.took_ms),
        });
        self.state((manager, consent), says)
    }
}

impl<D: Disk> Books<D> {
    /// Whether this manager may countersign the trip; and nothing that was seen before may be
    /// missing from the logbook, since the statement says again how far each laptop has come.
    fn may_countersign(
        &self,
        read: &TripRead,
        manager: &Signer,
        statements: &Statements,
    ) -> Result<(), Trouble> {
        may_countersign((read.trip(), read.finding()), manager)
            .map_err(|why| barred(read, &why))?;
        if let Some(named) = self.named_like(read, manager) {
            return Err(barred(read, &Barred::CouldBe(named, manager.name.clone())));
        }
        self.may_state(statements)
    }

    /// Refuses to state how far each laptop has come where that is less than was seen before.
    ///
    /// # Errors
    /// A sentence with everything that is missing.
    pub(super) fn may_state(&self, statements: &Statements) -> Result<(), Trouble> {
        let unmet = self.unmet(statements, None)?;
        if unmet.is_empty() {
            return Ok(());
        }
        let told: Vec<String> = unmet.iter().map(ToString::to_string).collect();
        Err(Trouble::Said(format!(
            "Nothing is signed: it would state how far each laptop has come, and that is less \
             here than was seen before.\n  {}.\nBring it here with hames logbook merge FOLDER, or, \
             where it is lost for good, say so with hames logbook accept-loss DEVICE FROM..TO --why …",
            told.join(".\n  ")
        )))
    }

    /// What is wrong with the order of all trips, and what is answered in them.
    pub(super) fn order(
        &self,
        statements: &Statements,
        plans: &mut Plans,
    ) -> Result<(Vec<OrderFault>, Answers), Trouble> {
        let (mut order, mut answers) = (Order::new(statements), Answers::of(statements));
        for (of, folder) in self.trips()? {
            let read = self.read(&of, &folder, plans)?;
            answers.take((&of, folder.seq), &read.examined, read.finding());
            if let Some(trip) = read.trip() {
                order.take(trip);
            }
        }
        let faults = order.judge().faults;
        answers.settle(&faults);
        Ok((faults, answers))
    }
}

/// Whether the keys it is signed with count: nobody agrees to what a key signed that had left the
/// crew.
fn counts(read: &TripRead, order: &[OrderFault]) -> Result<(), Trouble> {
    let trip = read.trip().map(|trip| &trip.begun().trip);
    let mut out = order.iter().filter(|fault| fault.is_of_a_key_of(trip));
    out.next().map_or(Ok(()), |fault| {
        let why = barred(read, &Barred::Key(Box::new(fault.clone())));
        Err(Trouble::Found(fault.finding(), why.to_string()))
    })
}

/// What this manager last said of the trip.
fn said(
    read: &TripRead,
    (statements, answers): (&Statements, &Answers),
    manager: &Signer,
) -> Option<Already> {
    let seal = read.trip()?.sealed()?.hash;
    let own = opinions(statements, &seal).filter(|one| *one.manager == manager.id);
    let last = own.max_by_key(|one| one.number)?;
    // Where the same word is worth saying again, nothing stands in its way.
    let again = is_news((statements, answers), &seal, &manager.id, last.opinion).is_ok();
    (!again).then_some(Already {
        opinion: last.opinion,
        number: last.number,
        at: last.at,
    })
}

fn passed(read: &TripRead, walk: &Walk) -> Vec<String> {
    let entries = read.trip().map(Verified::entries).unwrap_or_default();
    let closed = entries
        .iter()
        .filter(|entry| matches!(entry.event, Event::SectionClosed { .. }));
    closed
        .map(|entry| told::happened(&entry.event, walk.plan()).0)
        .collect()
}

fn barred(read: &TripRead, why: &Barred) -> Trouble {
    Trouble::Said(format!(
        "Trip {} is not countersigned: {why}.",
        super::around::trip_name(&read.folder)
    ))
}
