//! How readings move: a list of series over the month, those with something to ask first, and the
//! chart of one of them.

mod chart;
mod words;

pub(in crate::tui) use chart::{draw, room};
pub(super) use words::body;

use crate::desk::trend as said;
use crate::review::trend::{RigTrends, Series};
use crate::text::capital;
use crate::tui::lookout::{Looking, Over};
use crate::tui::model::Screen;
use crate::tui::text::escaped;
use crate::tui::theme::Ink;
use crate::tui::{Action, Context, Model};

/// The word shown while they are gathered.
pub(super) const GATHERING: &str = "laying the readings side by side";

const NOTHING: &str = "No reading of these trips is followed. What is: pressures of tires, the \
                       breakaway battery, torque of nuts, hub temperatures, brake pull, tread.";

/// The series there are, and where among them one is.
#[derive(Clone, Debug)]
pub(super) struct Moving {
    /// Each with the id of its rig, in the order they are listed.
    listed: Vec<(String, Series)>,
    marked: usize,
    /// Whether the marked one is shown by itself.
    is_open: bool,
    /// Whether the series are of one rig alone.
    of_one: bool,
}

/// Takes in the trends: of all rigs, or of the one that is filtered by.
pub(in crate::tui) fn moved(model: &mut Model, rigs: Vec<RigTrends>) {
    let Screen::Lookout(looking) = &mut model.screen else {
        return;
    };
    let wanted = looking.filter.rig.as_ref();
    let moving = Moving::of(rigs, wanted);
    if moving.listed.is_empty() {
        model.said = Some(NOTHING.to_owned());
    } else if looking.over.is_none() {
        model.is_deaf = true;
        looking.over = Some(Over::Trends(Box::new(moving)));
        looking.scroll = 0;
    }
}

impl Moving {
    fn of(rigs: Vec<RigTrends>, wanted: Option<&String>) -> Self {
        let rigs = rigs.into_iter();
        let rigs = rigs.filter(|one| wanted.is_none_or(|wanted| *wanted == one.rig));
        let listed = rigs.flat_map(|one| {
            let rig = one.rig;
            let series = one.series.into_iter();
            series.map(move |series| (rig.clone(), series))
        });
        let mut listed: Vec<_> = listed.collect();
        listed.sort_by_key(|(_, series)| series.ask.is_none());
        Self {
            listed,
            marked: 0,
            is_open: false,
            of_one: wanted.is_some(),
        }
    }

    /// How many have something to ask.
    fn asks(&self) -> usize {
        let asks = self.listed.iter().filter(|(_, one)| one.ask.is_some());
        asks.count()
    }

    /// The series that is shown by itself.
    pub(super) fn charted(&self) -> Option<&Series> {
        let (_, series) = self.listed.get(self.marked).filter(|_| self.is_open)?;
        Some(series)
    }

    pub(super) fn context(&self) -> Context {
        if self.is_open {
            Context::Chart
        } else {
            Context::Series
        }
    }

    pub(super) fn offers(&self, action: Action) -> bool {
        let backwards = matches!(action, Action::Less | Action::PageUp);
        let onwards = matches!(action, Action::More | Action::PageDown);
        let last = self.listed.len().saturating_sub(1);
        !self.is_open || !(backwards && self.marked == 0 || onwards && self.marked == last)
    }

    pub(super) fn heading(&self) -> Vec<(Ink, String)> {
        let (all, asks) = (self.listed.len(), self.asks());
        let Some((rig, series)) = self.listed.get(self.marked).filter(|_| self.is_open) else {
            let of = self.listed.first().filter(|_| self.of_one);
            let of = of.map_or_else(String::new, |(rig, _)| format!(" of {}", escaped(rig)));
            let asks = match asks {
                0 => format!("Nothing to ask about any of {all}"),
                asks => format!("{all} in all, {asks} with something to ask"),
            };
            let title = format!("How readings{of} move");
            return vec![(Ink::Strong, title), (Ink::Body, asks)];
        };
        let name = format!("{}: {}", escaped(rig), escaped(&series.name()));
        let asked = match series.ask {
            Some(_) => said::question(series.kind),
            None => "Nothing to ask about it.",
        };
        let asked = capital(asked);
        let place = format!("{} of {all}. {asked}", self.marked + 1);
        vec![(Ink::Strong, name), (Ink::Body, place)]
    }

    /// Does what a key means; whether the page stays.
    pub(super) fn act(&mut self, action: Action, page: usize) -> bool {
        let last = self.listed.len().saturating_sub(1);
        let page = if self.is_open { 1 } else { (page / 2).max(1) };
        self.marked = match action {
            Action::Up if !self.is_open => self.marked.saturating_sub(1),
            Action::Down if !self.is_open => (self.marked + 1).min(last),
            Action::Less => self.marked.saturating_sub(1),
            Action::More => (self.marked + 1).min(last),
            Action::PageUp => self.marked.saturating_sub(page),
            Action::PageDown => (self.marked + page).min(last),
            Action::Top => 0,
            Action::Bottom => last,
            _ => self.marked,
        };
        match action {
            Action::Choose => self.is_open = true,
            Action::Back if !self.is_open => return false,
            Action::Back => self.is_open = false,
            _ => {}
        }
        true
    }
}

impl Looking {
    /// The series whose chart is on the screen.
    pub(in crate::tui) fn charted(&self) -> Option<&Series> {
        match &self.over {
            Some(Over::Trends(moving)) => moving.charted(),
            _ => None,
        }
    }
}
