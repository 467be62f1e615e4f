//! The start menu: what was not finished first.

use crate::desk::earlier::{self, FROM_PAPER};
use crate::desk::{Approval, Barn, Errand, Reply, TripCard};
use crate::plain::Left;
use crate::plain::choose::pick;
use crate::plain::going::{Going, Session};
use crate::plain::stop::Stop;
use crate::record::Mode;

/// A row of the start menu.
enum Row {
    TakeUp(String),
    Begin,
    Read,
}

impl Session<'_> {
    /// The whole conversation.
    pub(super) fn start(&mut self) -> Result<Left, Stop> {
        let Some(barn) = self.look()? else {
            return Ok(Left::NoLogbook);
        };
        self.talk
            .head(&format!("Hames, line by line. {}", barn.name))?;
        self.talk
            .say(&format!("Everything is written to {}", barn.folder))?;
        self.notice(&barn.notices)?;
        if self.options.begin {
            self.begin_at_once(&barn)?;
            return Ok(if self.refused {
                Left::Refused
            } else {
                Left::ByChoice
            });
        }
        if let Some(why) = &barn.no_walk {
            self.talk.say(why)?;
        }
        self.menu(barn)
    }

    fn menu(&mut self, mut barn: Barn) -> Result<Left, Stop> {
        loop {
            let rows = self.say_menu(&barn)?;
            let typed = self.talk.ask("Type its number, or quit.")?;
            match pick(&typed, rows.len()).and_then(|at| rows.get(at)) {
                Some(Row::TakeUp(trip)) => self.take_up(trip.clone())?,
                Some(Row::Begin) => self.begin(&barn)?,
                Some(Row::Read) => self.read_record(&barn)?,
                None if matches!(typed.as_str(), "quit" | "q") => return Err(Stop::Left),
                None => self.no_choice(&typed, rows.len())?,
            }
            self.talk.mark = mark(barn.mode, false, &Approval::Shipped);
            match self.look_around()? {
                Some(changed) => barn = changed,
                None => return Ok(Left::NoLogbook),
            }
        }
    }

    fn say_menu(&mut self, barn: &Barn) -> Result<Vec<Row>, Stop> {
        self.talk.head("What next?")?;
        let mut choices: Vec<String> = barn.unfinished.iter().map(take_up_line).collect();
        let mut rows: Vec<Row> = barn
            .unfinished
            .iter()
            .map(|card| Row::TakeUp(card.trip.clone()))
            .collect();
        choices.push("Begin a walk".to_owned());
        rows.push(Row::Begin);
        if !(barn.finished.is_empty() && barn.unfinished.is_empty()) {
            choices.push("Read a record".to_owned());
            rows.push(Row::Read);
        }
        self.number(&choices)?;
        Ok(rows)
    }

    /// The logbook as it is now, with what is new to know; nothing when it cannot be opened, which
    /// is said.
    pub(super) fn look_around(&mut self) -> Result<Option<Barn>, Stop> {
        let barn = self.look()?;
        if let Some(barn) = &barn {
            self.notice(&barn.notices)?;
        }
        Ok(barn)
    }

    fn look(&mut self) -> Result<Option<Barn>, Stop> {
        match (self.perform)(Errand::LookAround) {
            Reply::Barn(barn) => {
                if self.talk.mark.is_empty() {
                    self.talk.mark = mark(barn.mode, false, &Approval::Shipped);
                }
                Ok(Some(barn))
            }
            other => self.cannot(other).map(|()| None),
        }
    }

    /// Says each thing to know once.
    fn notice(&mut self, notices: &[String]) -> Result<(), Stop> {
        for notice in notices {
            if !self.noticed.contains(notice) {
                self.talk.say(notice)?;
                self.noticed.push(notice.clone());
            }
        }
        Ok(())
    }

    pub(super) fn take_up(&mut self, trip: String) -> Result<(), Stop> {
        let reply = (self.perform)(Errand::TakeUp { trip });
        self.walk_on(reply)
    }

    /// Goes on with the walk of a reply.
    pub(super) fn walk_on(&mut self, reply: Reply) -> Result<(), Stop> {
        let Reply::Walking {
            walk,
            trip,
            mode,
            standing,
            notices,
            barn,
            ..
        } = reply
        else {
            self.refused = true;
            return self.cannot(reply);
        };
        self.refused = false;
        self.talk.mark = mark(mode, walk.paper().is_some(), &standing);
        self.talk.head(&format!(
            "Trip {trip}. {} reads and types, {} does the work.",
            walk.reader(),
            walk.doer()
        ))?;
        self.foretell(&notices)?;
        for caution in &walk.plan().checklist().cautions {
            self.talk.say(&format!("Caution: {caution}"))?;
        }
        if let Some(carried) = earlier::carried_in(walk.plan()) {
            self.talk.say(&format!("Left open before: {carried}."))?;
        }
        for left in walk.plan().left() {
            self.talk.say(&format!(
                "Left out: {}, because {}.",
                left.step, left.because
            ))?;
        }
        let again: Vec<String> = walk
            .to_look_at_again()
            .filter_map(|index| Some(walk.step(index)?.0.name()))
            .collect();
        if !again.is_empty() {
            self.talk
                .say(&format!("To look at again: {}.", again.join("; ")))?;
        }
        self.talk
            .say("At every prompt: help lists the words, unsure stops, hold leaves.")?;
        self.go(Going::new(*walk, trip, barn))
    }

    fn read_record(&mut self, barn: &Barn) -> Result<(), Stop> {
        let cards: Vec<&TripCard> = barn.unfinished.iter().chain(&barn.finished).collect();
        let choices: Vec<String> = cards.iter().map(|card| trip_line(card)).collect();
        let chosen = self.choose("Which trip", &choices)?;
        match chosen.and_then(|at| cards.get(at)) {
            Some(card) => self.show(&card.trip),
            None => Ok(()),
        }
    }
}

pub(super) fn take_up_line(card: &TripCard) -> String {
    let what = if card.goes_on {
        "Go on with"
    } else {
        "Take up, to end or sign it:"
    };
    format!("{what} {}", trip_line(card))
}

fn trip_line(card: &TripCard) -> String {
    format!(
        "{}, {}, {}: {}",
        card.rig, card.checklist, card.last, card.stands
    )
}

/// What stands at every prompt: whether it counts, whether it is entered from paper, and whether
/// nobody stands behind the checklist.
fn mark(mode: Mode, paper: bool, standing: &Approval) -> String {
    let mode = match mode {
        Mode::Real => "",
        Mode::Demo => "DEMO",
        Mode::Drill => "DRILL",
    };
    let words = [mode, if paper { FROM_PAPER } else { "" }, standing.mark()];
    let words: Vec<&str> = words.into_iter().filter(|word| !word.is_empty()).collect();
    words.join(" ")
}
