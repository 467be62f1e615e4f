//! A manager's acts: who signs, what is shown before, and the passphrase last.

use crate::cli::Status;
use crate::cli::args::ManagerCommand;
use crate::cli::clerk::{Books, Clerk, Place, Stock, Trouble, one_manager};
use crate::cli::command::says_nothing;
use crate::cli::logbook::shelf::Failed;
use crate::cli::logbook::{AboutLogbook, assign, closing, countersign, joining, prune};
use crate::cli::sitting::options;
use crate::desk::Consent;
use crate::plain::{Stop, Talk};
use crate::record::{Mode, Signer, crew_meaning};
use crate::store::{Local, StatementFolder, StoreFault};
use crate::walk::Words;
use crate::world::{Agent, Machine};
use std::io::{self, Write};

/// How often a passphrase is asked for, where the one typed does not open the key.
const TRIES: usize = 3;

/// The word that leaves without signing, at every question.
const LEAVE: &str = "leave";

/// Why an act was not done.
pub(super) enum Not {
    /// A sentence, and the status to end with.
    Said(Status, String),
    /// It was left, or the input ended.
    Left,
    /// The output or the input failed.
    Output(io::Error),
}

/// A logbook opened at the desk, before it is asked who signs.
struct Desk<'a> {
    clerk: Clerk<Local>,
    books: Books<Local>,
    talk: Talk<'a>,
}

/// A manager at the desk.
pub(super) struct Sitting<'a> {
    pub(super) clerk: Clerk<Local>,
    pub(super) books: Books<Local>,
    pub(super) manager: Signer,
    pub(super) talk: Talk<'a>,
}

/// Does what the manager asked for.
pub(super) fn act(
    about: &AboutLogbook,
    what: &ManagerCommand,
    out: &mut dyn Write,
) -> Result<Status, Failed> {
    let input = io::stdin();
    let mut input = input.lock();
    let talk = Talk::new(&mut input, out, options(about.look, false));
    sit_and_act(about, what, talk).map_err(|not| match not {
        Not::Said(status, sentence) => Failed::Said(status, sentence),
        Not::Left => Failed::Said(Status::Usage, "Left. Nothing was signed.".to_owned()),
        Not::Output(error) => Failed::Output(error),
    })
}

fn sit_and_act(about: &AboutLogbook, what: &ManagerCommand, talk: Talk<'_>) -> Result<Status, Not> {
    let mut desk = Desk::open(about, talk)?;
    // A signed statement asks for it already: it takes nobody's key.
    if let ManagerCommand::Prune { trips, before, .. } = what
        && trips.is_empty()
        && before.is_none()
    {
        prune::finish_alone(&desk.clerk, &mut desk.talk)?;
        return Ok(Status::Fine);
    }
    if let ManagerCommand::CloseFork {
        device,
        number,
        goes_on,
        join,
        why,
        by,
    } = what
    {
        let number = *number;
        let fork = closing::Fork { device, number };
        let said = why.as_deref();
        if let Some(manager) = joining::whose(&desk.clerk, &fork, (goes_on.is_some(), *join))? {
            return match said {
                None => joining::show(&desk.clerk, (&manager, number), &mut desk.talk),
                Some(why) => {
                    let mut sitting = desk.sit_while_forked(by.as_deref())?;
                    joining::join(&mut sitting, (&manager, number), why)
                }
            };
        }
        if said.is_none() {
            return closing::show_fork(&desk.clerk, &fork, &mut desk.talk);
        }
    }
    // A slip in a name is told before anything is asked.
    let named = match what {
        ManagerCommand::Countersign { trips, .. } | ManagerCommand::Prune { trips, .. } => trips,
        ManagerCommand::Assign(_)
        | ManagerCommand::CloseFork { .. }
        | ManagerCommand::AcceptLoss { .. } => &Vec::new(),
    };
    let mut trips = Vec::new();
    for typed in named {
        let trip = desk.books.trip(typed)?;
        // Named twice, by whichever of its names, it is one trip.
        if !trips.contains(&trip) {
            trips.push(trip);
        }
    }
    if matches!(what, ManagerCommand::Countersign { .. }) {
        desk.books.are_not_pruned(&trips)?;
    }
    let asked = match what {
        ManagerCommand::Prune {
            before,
            why,
            even_so,
            ..
        } => {
            let said = (before.as_deref(), why.as_deref());
            let today = desk.clerk.today();
            Some(prune::Asked::read(trips.clone(), said, *even_so, today)?)
        }
        _ => None,
    };
    let by = match what {
        ManagerCommand::Countersign { by, .. }
        | ManagerCommand::CloseFork { by, .. }
        | ManagerCommand::AcceptLoss { by, .. }
        | ManagerCommand::Prune { by, .. } => by.as_deref(),
        ManagerCommand::Assign(asked) => asked.by.as_deref(),
    };
    let mut sitting = desk.sit(by)?;
    match what {
        ManagerCommand::Assign(asked) => assign::assign(&mut sitting, asked),
        ManagerCommand::Countersign { .. } => countersign::countersign(&mut sitting, &trips),
        ManagerCommand::CloseFork {
            device,
            number,
            goes_on,
            why,
            ..
        } => {
            let number = *number;
            let fork = closing::Fork { device, number };
            // The arguments have both or none.
            let (goes_on, why) = (goes_on.as_deref(), why.as_deref());
            let said = (goes_on.unwrap_or_default(), why.unwrap_or_default());
            closing::close_fork(&mut sitting, &fork, said)
        }
        ManagerCommand::AcceptLoss {
            device,
            numbers,
            why,
            ..
        } => closing::accept_loss(&mut sitting, (device, numbers, why)),
        ManagerCommand::Prune { .. } => {
            asked.map_or(Ok(Status::Fine), |asked| prune::prune(&mut sitting, &asked))
        }
    }
}

impl<'a> Desk<'a> {
    fn open(about: &AboutLogbook, mut talk: Talk<'a>) -> Result<Self, Not> {
        let [root] = about.places.as_slice() else {
            return Err(Not::usage("Name one logbook with --logbook DIR."));
        };
        let books = Books::open(&Local, root)?;
        let mode = books.mode();
        if mode != Mode::Real {
            talk.mark = mode.word().to_uppercase();
        }
        let place = Place {
            root: root.clone(),
            mode,
        };
        let agent = about.agent.clone().map(Agent::at);
        let clerk = Clerk::new(Local, Machine::this(), place, Stock::default()).with_agent(agent);
        Ok(Self { clerk, books, talk })
    }

    /// Finds the manager who signs: the one named, or the only one with a key here.
    fn sit(self, by: Option<&str>) -> Result<Sitting<'a>, Not> {
        // Nobody is asked anything by a crew file that is not in force.
        self.clerk.crew()?;
        self.sit_while_forked(by)
    }

    /// The same, also while two changes of the crew wait to be settled.
    fn sit_while_forked(self, by: Option<&str>) -> Result<Sitting<'a>, Not> {
        let managers = self.clerk.managers()?;
        let manager = one_manager(&managers, by).map_err(|sentence| Not::usage(&sentence))?;
        Ok(Sitting {
            clerk: self.clerk,
            books: self.books,
            manager,
            talk: self.talk,
        })
    }
}

impl Sitting<'_> {
    /// Asks until one of these words is typed; Enter alone says nothing.
    pub(super) fn word(&mut self, question: &str, words: &[&str]) -> Result<String, Not> {
        loop {
            let typed = self.talk.ask(question)?.to_lowercase();
            if typed == LEAVE {
                return Err(Not::Left);
            }
            if words.contains(&typed.as_str()) {
                return Ok(typed);
            }
            let said = if typed.is_empty() {
                "Enter alone says nothing.".to_owned()
            } else {
                format!("“{typed}” is none of the words.")
            };
            let words = words.join(", ");
            self.talk
                .say(&format!("{said} Type {words}, or {LEAVE}."))?;
        }
    }

    /// Asks for words; nothing where nothing is typed.
    pub(super) fn words(&mut self, question: &str) -> Result<Option<Words>, Not> {
        loop {
            let typed = self.talk.ask(question)?;
            if typed.is_empty() {
                return Ok(None);
            }
            if typed == LEAVE {
                return Err(Not::Left);
            }
            match Words::read(&typed) {
                Ok(words) if says_nothing(words.as_str()) => {
                    let told = format!("“{typed}” says nothing. Type words of your own.");
                    self.talk.say(&told)?;
                }
                Ok(words) => return Ok(Some(words)),
                Err(fault) => self.talk.say(&format!("Not taken: {fault}."))?,
            }
        }
    }

    /// Says what who signs states, asks for the signature and has it made.
    pub(super) fn sign(
        &mut self,
        (what, meaning): (&str, &str),
        make: impl Fn(&Clerk<Local>, (&Signer, &Consent)) -> Result<StatementFolder, Trouble>,
    ) -> Result<StatementFolder, Not> {
        self.talk
            .head(&format!("Whoever signs states this: {meaning}"))?;
        if !self.clerk.has_roster()? {
            self.talk.say(&comes_first())?;
        }
        let (mode, what) = (self.books.mode(), format!(", {what}"));
        for _ in 0..TRIES {
            let lies = self.clerk.key_lies(&self.manager)?;
            let who = (self.manager.name.as_str(), what.as_str());
            let why = match self.talk.consent(lies, who, mode)? {
                Ok(consent) => match make(&self.clerk, (&self.manager, &consent)) {
                    Ok(folder) => return Ok(folder),
                    Err(Trouble::Said(why)) => why,
                    Err(other) => return Err(other.into()),
                },
                Err(why) => why,
            };
            self.talk.say(&why)?;
        }
        Err(Not::usage("Nothing was signed."))
    }

    /// Says that it is signed, and where it lies.
    pub(super) fn signed(&mut self, what: &str, folder: &StatementFolder) -> Result<(), Not> {
        self.talk.head(what)?;
        let folder = folder.path.display();
        Ok(self.talk.say(&format!("Kept in {folder}"))?)
    }
}

/// What is said where no manager has signed for the crew file yet.
pub(super) fn comes_first() -> String {
    format!(
        "No manager has signed for the crew file of this logbook yet, so this comes first: {}",
        crew_meaning()
    )
}

impl Not {
    pub(super) fn usage(sentence: &str) -> Self {
        Self::Said(Status::Usage, sentence.to_owned())
    }
}

impl From<io::Error> for Not {
    fn from(error: io::Error) -> Self {
        Self::Output(error)
    }
}

impl From<Stop> for Not {
    fn from(stop: Stop) -> Self {
        match stop {
            Stop::Broken(error) => Self::Output(error),
            Stop::Left | Stop::InputEnded | Stop::DiskFailed => Self::Left,
        }
    }
}

impl From<StoreFault> for Not {
    fn from(fault: StoreFault) -> Self {
        Self::Said(Status::Store, fault.to_string())
    }
}

impl From<Failed> for Not {
    fn from(failed: Failed) -> Self {
        match failed {
            Failed::Said(status, sentence) => Self::Said(status, sentence),
            Failed::Output(error) => Self::Output(error),
        }
    }
}

impl From<Trouble> for Not {
    fn from(trouble: Trouble) -> Self {
        Self::Said(trouble.status(), trouble.to_string())
    }
}
