//! What the keys do while a logbook is looked over.

use crate::desk::{CrewCard, Errand, KeyLies, Lookout, OpenedTrip, SeenTrip};
use crate::record::Opinion;
use crate::review::Filter;
use crate::tui::keys::Key;
use crate::tui::lookout::filters::{graver, turned};
use crate::tui::lookout::index::{Index, month_of};
use crate::tui::lookout::sign::{self, Done};
use crate::tui::lookout::trip::{Shown, Trip};
use crate::tui::lookout::{Looking, Over, trends, wait};
use crate::tui::model::Screen;
use crate::tui::view::{most_scroll, rows};
use crate::tui::{Action, Context, Model};
use crate::walk::Moment;
use chrono::{Days, Months, NaiveDate};

/// The word shown while a trip is read.
const OPENING: &str = "opening the trip";

/// What is said first, since the bottom line has no room for it.
const HOW_TO_CHOOSE: &str = "Arrows choose a day, PgUp and PgDn a month, Esc the whole month.";

/// Days of a week, and rows of the calendar between them.
const WEEK: i64 = 7;

/// Takes the trips in; asks for what waited for all of them.
pub(in crate::tui) fn seen(model: &mut Model, lookout: Lookout) -> Vec<Errand> {
    if let Screen::Lookout(looking) = &mut model.screen {
        let first = looking.lookout.is_none();
        looking.take(lookout);
        if looking.whole.is_none() {
            return Vec::new();
        }
        let unknown = looking.unknown();
        if unknown.is_some() || first {
            model.said = unknown.or_else(|| Some(HOW_TO_CHOOSE.to_owned()));
        }
    }
    what_waited(model)
}

/// Takes in that so many trips are still to be read; asks for what waited for all of them.
pub(in crate::tui) fn still_to_read(model: &mut Model, unread: usize) -> Vec<Errand> {
    if let Screen::Lookout(looking) = &mut model.screen
        && let Some(lookout) = &mut looking.lookout
    {
        lookout.unread = unread;
    }
    what_waited(model)
}

fn what_waited(model: &mut Model) -> Vec<Errand> {
    let Screen::Lookout(looking) = &mut model.screen else {
        return Vec::new();
    };
    let waits = looking.waits();
    if let Some(errand) = looking.wanted() {
        return ask(model, errand);
    }
    wait::tell(model, waits);
    Vec::new()
}

/// Asks for a trip or for the trends, with a word for what is waited for.
fn ask(model: &mut Model, errand: Errand) -> Vec<Errand> {
    model.said = None;
    model.busy = Some(match errand {
        Errand::LookAtTrends => trends::GATHERING,
        _ => OPENING,
    });
    vec![errand]
}

/// Takes in the trip that was asked for.
pub(in crate::tui) fn opened(
    model: &mut Model,
    told: OpenedTrip,
    next: String,
    managers: Vec<CrewCard>,
) {
    let now = model.now.clone();
    let Screen::Lookout(looking) = &mut model.screen else {
        return;
    };
    if let Some(seen) = looking.marked_trip().cloned() {
        let remembered = looking.remembered.get(&seen.folder);
        let trip = Trip::new(
            (told, next, managers),
            (seen.glance, seen.folder),
            &remembered.cloned().unwrap_or_default(),
            now,
        );
        looking.over = Some(Over::Trip(Box::new(trip)));
        looking.scroll = 0;
        model.is_deaf = true;
    }
}

/// A manager may say what was chosen of the opened trip.
pub(in crate::tui) fn may(model: &mut Model, id: String, lies: KeyLies, first: Option<String>) {
    if let Screen::Lookout(looking) = &mut model.screen
        && let Some(Over::Trip(trip)) = &mut looking.over
    {
        sign::may(trip, id, lies, first);
    }
}

/// The opened trip is countersigned, and the statement is on the disk.
pub(in crate::tui) fn kept(model: &mut Model, seen: SeenTrip, folder: String) {
    let now = model.now.clone();
    let Screen::Lookout(looking) = &mut model.screen else {
        return;
    };
    if let Some(Over::Trip(trip)) = &mut looking.over {
        sign::kept(trip, &seen, folder, now);
    }
    looking.see(seen);
}

/// Does what a key means.
pub(in crate::tui) fn act(model: &mut Model, action: Action, key: Key) -> Vec<Errand> {
    let now = model.now.clone();
    let (page, end) = (rows(model).saturating_sub(1), most_scroll(model));
    let Screen::Lookout(looking) = &mut model.screen else {
        return Vec::new();
    };
    if let Some(word) = looking.act_waiting(action) {
        model.said = Some(word);
        return Vec::new();
    }
    match (&mut looking.over, action) {
        (Some(Over::Trip(trip)), action) if trip.signing.is_some() => {
            if trip.context() == Context::Countersigned && action == Action::Back {
                looking.leave(&now);
                return Vec::new();
            }
            let done = sign::act(trip, action, key);
            looking.scroll = scrolled(looking.scroll, action, (page, end));
            match done {
                Done::Nothing => {}
                Done::Said(sentence) => model.said = Some(sentence),
                Done::Asked(waiting, errand) => {
                    model.busy = Some(waiting);
                    return vec![errand];
                }
            }
            return Vec::new();
        }
        (Some(Over::Trip(trip)), Action::Agree | Action::Ask) => {
            let opinion = match action {
                Action::Agree => Opinion::Agreed,
                _ => Opinion::Asked,
            };
            sign::begin(trip, opinion, &now);
            looking.scroll = 0;
            return Vec::new();
        }
        (Some(Over::Trends(moving)), action) => {
            let scrolls = matches!(action, Action::Up | Action::Down);
            looking.scroll = if scrolls && moving.charted().is_some() {
                scrolled(looking.scroll, action, (page, end))
            } else {
                0
            };
            if !moving.act(action, page) {
                looking.over = None;
            }
            return Vec::new();
        }
        (None, Action::Trends) => {
            let asked = looking.once_read(Errand::LookAtTrends);
            return asked_or_waits(model, asked);
        }
        _ => {}
    }
    match &mut looking.over {
        Some(Over::Trip(trip)) if trip.shown == Shown::Things => {
            let at = trip.marked;
            match action {
                Action::Up => trip.mark(at.saturating_sub(1)),
                Action::Down => trip.mark(at + 1),
                Action::Choose => trip.look(),
                Action::OtherList => trip.shown = Shown::Rest,
                Action::Back => looking.leave(&now),
                _ => {}
            }
            looking.scroll = 0;
        }
        Some(over) => match (action, over) {
            (Action::Back | Action::OtherList, Over::Trip(trip)) => {
                trip.shown = Shown::Things;
                looking.scroll = 0;
            }
            (Action::Back, Over::Closed) => {
                looking.over = None;
                looking.scroll = 0;
            }
            (action, _) => looking.scroll = scrolled(looking.scroll, action, (page, end)),
        },
        None => {
            model.said = None;
            let asked = match looking.marked {
                Some(at) => looking.go(at, action, page),
                None => looking.turn(action).map(|()| None),
            };
            match asked {
                Ok(None) => {}
                Ok(Some(errand)) => {
                    let asked = looking.once_read(errand);
                    return asked_or_waits(model, asked);
                }
                Err(sentence) => model.said = Some(sentence.to_owned()),
            }
        }
    }
    Vec::new()
}

fn asked_or_waits(model: &mut Model, asked: Option<Errand>) -> Vec<Errand> {
    match asked {
        Some(errand) => ask(model, errand),
        None => what_waited(model),
    }
}

fn scrolled(at: usize, action: Action, (page, end): (usize, usize)) -> usize {
    match action {
        Action::Up => at.saturating_sub(1),
        Action::Down => at + 1,
        Action::PageUp => at.saturating_sub(page),
        Action::PageDown => at + page,
        Action::Top => 0,
        Action::Bottom => end,
        _ => at,
    }
}

impl Looking {
    /// Leaves the opened trip; what was opened of it is remembered.
    fn leave(&mut self, now: &Moment) {
        if let Some(Over::Trip(trip)) = self.over.take() {
            let remembered = trip.remembered(now);
            self.remembered.insert(trip.folder.clone(), remembered);
        }
        self.scroll = 0;
    }

    /// Takes in how a trip stands now. The marked one stays marked, or the one that took its place.
    fn see(&mut self, seen: SeenTrip) {
        let Some(lookout) = &mut self.lookout else {
            return;
        };
        if let Some(known) = lookout
            .trips
            .iter_mut()
            .find(|one| one.folder == seen.folder)
        {
            *known = seen;
        }
        self.index = Index::of(&lookout.trips, &self.filter);
        let last = self.listed().len().checked_sub(1);
        self.marked = self.marked.and_then(|marked| Some(marked.min(last?)));
    }

    /// The trip at this place of the logbook.
    pub(super) fn trip(&self, place: usize) -> Option<&SeenTrip> {
        self.lookout.as_ref()?.trips.get(place)
    }

    pub(super) fn marked_trip(&self) -> Option<&SeenTrip> {
        let place = self.listed().get(self.marked?)?;
        self.trip(*place)
    }

    /// In the month: a day, a week, a month on or back, into the list, or another filter.
    fn turn(&mut self, action: Action) -> Result<(), &'static str> {
        match action {
            Action::Less => self.step(-1),
            Action::More => self.step(1),
            Action::Up => self.step(-WEEK),
            Action::Down => self.step(WEEK),
            Action::PageUp => self.show_month(self.month.checked_sub_months(Months::new(1))),
            Action::PageDown => self.show_month(self.month.checked_add_months(Months::new(1))),
            Action::Top => self.show_month(self.span().map(|(first, _)| first)),
            Action::Bottom => self.show_month(self.span().map(|(_, last)| last)),
            Action::Back => {
                self.day = None;
                Ok(())
            }
            Action::Choose if self.listed().is_empty() => Err("No trip here. Choose another day."),
            Action::Choose => {
                self.marked = Some(0);
                Ok(())
            }
            action => self.other(action),
        }
    }

    /// In the list: another trip, open it, back to the month, or another filter.
    fn go(
        &mut self,
        at: usize,
        action: Action,
        page: usize,
    ) -> Result<Option<Errand>, &'static str> {
        let last = self.listed().len().saturating_sub(1);
        let page = (page / 2).max(1);
        let to = match action {
            Action::Up => at.saturating_sub(1),
            Action::Down => at + 1,
            Action::PageUp => at.saturating_sub(page),
            Action::PageDown => at + page,
            Action::Top => 0,
            Action::Bottom => last,
            Action::Back => {
                self.marked = None;
                return Ok(None);
            }
            Action::Choose => {
                let trip = self.marked_trip().map(|trip| trip.folder.clone());
                return Ok(trip.map(|trip| Errand::OpenTrip { trip }));
            }
            action => {
                self.other(action)?;
                self.marked = (!self.listed().is_empty()).then_some(0);
                return Ok(None);
            }
        };
        self.marked = Some(to.min(last));
        Ok(None)
    }

    /// What is the same in the month and the list: filters, and what cannot be looked at.
    fn other(&mut self, action: Action) -> Result<(), &'static str> {
        let (filter, names) = (&mut self.filter, &self.names);
        match action {
            Action::RigFilter => filter.rig = turned(filter.rig.as_ref(), &names.rigs),
            Action::PersonFilter => filter.person = turned(filter.person.as_ref(), &names.people),
            Action::LeastFilter => filter.least = graver(filter.least),
            Action::OpenFilter => filter.open = !filter.open,
            Action::AskedFilter => filter.asked = !filter.asked,
            Action::AllTrips => *filter = Filter::default(),
            Action::Matters => {
                self.over = Some(Over::Closed);
                self.scroll = 0;
                return Ok(());
            }
            _ => return Ok(()),
        }
        if let Some(lookout) = &self.lookout {
            self.index = Index::of(&lookout.trips, &self.filter);
        }
        if self.index.len() == 0 {
            return Err("No trip is like this. c shows all trips again.");
        }
        Ok(())
    }

    /// The first and the last month with trips that are shown, else with any.
    fn span(&self) -> Option<(NaiveDate, NaiveDate)> {
        let (first, last) = self.index.span_of_all().or(self.whole)?;
        Some((month_of(first), month_of(last)))
    }

    /// Goes so many days on. Where no day was chosen, the first or last one with trips is.
    fn step(&mut self, days: i64) -> Result<(), &'static str> {
        let Some(day) = self.day else {
            let of_month = self.index.of_month(self.month);
            let found = if days > 0 {
                of_month.first()
            } else {
                of_month.last()
            };
            self.day = Some(found.map_or(self.month, |day| day.date));
            return Ok(());
        };
        let count = Days::new(days.unsigned_abs());
        let to = if days > 0 {
            day.checked_add_days(count)
        } else {
            day.checked_sub_days(count)
        };
        let to = to.ok_or(NO_FURTHER)?;
        if month_of(to) != self.month {
            self.show_month(Some(month_of(to)))?;
        }
        self.day = Some(to);
        Ok(())
    }

    /// Shows another month, with no day chosen in it.
    fn show_month(&mut self, month: Option<NaiveDate>) -> Result<(), &'static str> {
        let month = month.ok_or(NO_FURTHER)?;
        let (first, last) = self.whole.ok_or(NO_FURTHER)?;
        if month < month_of(first) || month > month_of(last) {
            return Err(NO_FURTHER);
        }
        self.month = month;
        self.day = None;
        Ok(())
    }
}

const NO_FURTHER: &str = "There is no trip further on this way.";
