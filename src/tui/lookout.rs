//! A logbook looked over: a month with the sign of each day's gravest trip, the trips of a day, and
//! one trip opened, which a manager can countersign once everything in it was looked at.

mod calendar;
mod draw;
mod filters;
mod index;
mod legend;
mod list;
mod pages;
mod sign;
mod trends;
mod trip;
mod update;
mod wait;

pub(super) use draw::draw;
pub(super) use legend::told as legend;
pub(super) use pages::body;
pub(super) use trends::{draw as draw_chart, moved, room as chart_room};
pub(super) use update::{act, kept, may, opened, seen, still_to_read};

use crate::desk::{Errand, Lookout};
use crate::record::{Mode, counted};
use crate::review::Filter;
use crate::tui::lookout::filters::Names;
use crate::tui::lookout::index::{Index, month_of};
use crate::tui::lookout::trends::Moving;
use crate::tui::lookout::trip::{Remembered, Trip};
use crate::tui::text::{escaped, wrap};
use crate::tui::theme::Ink;
use crate::tui::{Action, Context};
use chrono::NaiveDate;
use std::collections::BTreeMap;

/// Below so many columns the heading leaves away what can be told from the rest.
const NARROW: u16 = 60;

/// From so many rows on there is room for a third line of it.
const ROOMY: u16 = 20;

/// A logbook being looked over.
#[derive(Clone, Debug)]
pub(super) struct Looking {
    pub(super) mode: Mode,
    /// The trips; nothing until they have come.
    lookout: Option<Lookout>,
    /// Whom and what they can be asked for by.
    names: Names,
    filter: Filter,
    index: Index,
    /// The first and the last day with a trip, whatever the filters take.
    whole: Option<(NaiveDate, NaiveDate)>,
    /// The month that is shown, by its first day.
    month: NaiveDate,
    /// The day that was chosen.
    day: Option<NaiveDate>,
    /// The marked trip, where the list is gone through.
    marked: Option<usize>,
    /// The page that lies over the month.
    over: Option<Over>,
    /// What is asked for as soon as all trips were read.
    wanted: Option<Errand>,
    /// How many trips there are in all, where not all of them were read at once.
    all: usize,
    /// What was opened of trips that were left, by the names of their folders.
    remembered: BTreeMap<String, Remembered>,
    pub(super) scroll: usize,
}

/// A page over the month.
#[derive(Clone, Debug)]
enum Over {
    /// The trips that cannot be looked at.
    Closed,
    /// A trip, opened.
    Trip(Box<Trip>),
    /// How readings move.
    Trends(Box<Moving>),
}

impl Looking {
    /// Before anything has come.
    pub(super) fn awaiting(mode: Mode, filter: Filter) -> Self {
        Self {
            mode,
            lookout: None,
            names: Names::default(),
            filter,
            index: Index::default(),
            whole: None,
            month: NaiveDate::default(),
            day: None,
            marked: None,
            over: None,
            wanted: None,
            all: 0,
            remembered: BTreeMap::new(),
            scroll: 0,
        }
    }

    /// Takes in the trips: the newest month that has any is shown first. Where the newest were here
    /// before, nothing that was chosen moves.
    fn take(&mut self, lookout: Lookout) {
        if self.lookout.is_some() {
            self.take_all(lookout);
            return;
        }
        self.all = lookout.unread;
        self.mode = lookout.mode;
        self.names = Names::of(&lookout);
        self.whole = Index::of(&lookout.trips, &Filter::default()).span_of_all();
        self.index = Index::of(&lookout.trips, &self.filter);
        let newest = self.index.span_of_all().or(self.whole);
        self.month = newest.map_or(self.month, |(_, day)| month_of(day));
        self.lookout = Some(lookout);
    }

    /// Takes in all trips in the place of the newest.
    fn take_all(&mut self, lookout: Lookout) {
        let marked = self.marked_trip().map(|trip| trip.folder.clone());
        self.mode = lookout.mode;
        self.names = Names::of(&lookout);
        self.whole = Index::of(&lookout.trips, &Filter::default()).span_of_all();
        self.index = Index::of(&lookout.trips, &self.filter);
        self.lookout = Some(lookout);
        let Some(folder) = marked else { return };
        let place = |place: &usize| self.trip(*place).is_some_and(|trip| trip.folder == folder);
        let at = self.listed().iter().position(place);
        // What cannot be looked at after all is in no list.
        self.marked = at.or((!self.listed().is_empty()).then_some(0));
    }

    /// A sentence where what was asked for behind the command is in none of the trips, once all of
    /// them were read.
    fn unknown(&self) -> Option<String> {
        let lookout = self.lookout.as_ref()?;
        let is_whole = lookout.unread == 0;
        self.names.unknown(&self.filter).filter(|_| is_whole)
    }

    /// What is to be asked of the world while no key comes.
    pub(super) fn meanwhile(&self) -> Option<Errand> {
        let unread = self.lookout.as_ref()?.unread;
        (unread > 0).then_some(Errand::ReadOn)
    }

    pub(super) fn context(&self) -> Context {
        match (&self.over, self.marked) {
            (Some(Over::Closed), _) => Context::ClosedTrips,
            (Some(Over::Trip(trip)), _) => trip.context(),
            (Some(Over::Trends(moving)), _) => moving.context(),
            (None, Some(_)) => Context::Trips,
            (None, None) => Context::Days,
        }
    }

    pub(super) fn paste(&mut self, text: &str) {
        if let Some(Over::Trip(trip)) = &mut self.over
            && let Some(signing) = &mut trip.signing
        {
            signing.paste(text);
        }
    }

    /// Whether a page of words lies over the month.
    pub(super) fn is_page(&self) -> bool {
        self.over.is_some()
    }

    pub(super) fn offers(&self, action: Action) -> bool {
        let Some(lookout) = &self.lookout else {
            return matches!(
                action,
                Action::Quit | Action::Help | Action::Colours | Action::Big
            );
        };
        match &self.over {
            Some(Over::Trip(trip)) => return trip.offers(action),
            Some(Over::Trends(moving)) => return moving.offers(action),
            Some(Over::Closed) | None => {}
        }
        match action {
            Action::RigFilter => self.names.rigs.len() > 1 || self.filter.rig.is_some(),
            Action::PersonFilter => !self.names.people.is_empty(),
            Action::AllTrips => self.filter != Filter::default(),
            Action::Matters => !lookout.closed.is_empty() && self.over.is_none(),
            Action::LeastFilter
            | Action::OpenFilter
            | Action::AskedFilter
            | Action::Trends
            | Action::Less
            | Action::More => !lookout.trips.is_empty(),
            Action::Choose => !self.listed().is_empty(),
            _ => true,
        }
    }

    /// The trips of the chosen day, or of the month where none is chosen, in order.
    fn listed(&self) -> &[usize] {
        match self.day {
            Some(day) => self.index.day(day),
            None => self.index.month(self.month),
        }
    }

    /// Month, filters, and what cannot be looked at, in a window of this size.
    pub(super) fn heading(&self, (width, height): (u16, u16)) -> Vec<(Ink, String)> {
        match &self.over {
            Some(Over::Trip(trip)) => return trip.heading(),
            Some(Over::Trends(moving)) => return moving.heading(),
            Some(Over::Closed) | None => {}
        }
        let Some(lookout) = &self.lookout else {
            return vec![(Ink::Title, "The logbook".to_owned())];
        };
        let (all, taken) = (lookout.trips.len(), self.index.len());
        let month = if all == 0 {
            "No trip can be looked at".to_owned()
        } else {
            let counts = index::counts(&self.index.of_month(self.month));
            format!("{}: {counts}", self.month.format("%B %Y"))
        };
        let name = if width < NARROW { "" } else { "Logbook, " };
        let closed = match (lookout.unread, lookout.closed.len()) {
            (0, 0) => None,
            (0, more) => Some(format!("{more} cannot be looked at: w")),
            (unread, _) if width < NARROW => Some(format!("{unread} still to read")),
            (unread, _) => Some(format!("of the whole logbook {unread} are still to read")),
        };
        let filters = escaped(&self.filter.told().join(", "));
        let mut lines = vec![(Ink::Strong, format!("{name}{month}"))];
        if filters.is_empty() {
            let all = match lookout.unread {
                0 => format!("{} in all", counted(all, "trip")),
                _ if width < NARROW => format!("Newest {all} of {}", self.all),
                _ => format!("The newest {all} of {}", counted(self.all, "trip")),
            };
            let told = std::iter::once(all).chain(closed);
            lines.push((Ink::Body, told.collect::<Vec<_>>().join("; ")));
            return lines;
        }
        let told = format!("{taken} of {}: {filters}", counted(all, "trip"));
        let told = wrap(&told, usize::from(width)).into_iter();
        lines.extend(told.map(|line| (Ink::Body, line)));
        if height >= ROOMY {
            lines.extend(closed.map(|told| (Ink::Body, told)));
        }
        lines
    }
}
