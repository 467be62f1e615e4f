//! Everything a screen can show.

use crate::desk::{Barn, CrewCard, Errand};
use crate::record::Mode;
use crate::tui::help::Help;
use crate::tui::lookout::Looking;
use crate::tui::record::Reading;
use crate::tui::room::{Drills, Room};
use crate::tui::seal::Sealing;
use crate::tui::start::Start;
use crate::tui::walk::Walking;
use crate::tui::whatif::Trying;
use crate::tui::{Action, Context, Look};
use crate::walk::{Moment, Walk};

/// What the screens know. It changes in [`update`](crate::tui::update) and nowhere else.
#[derive(Clone, Debug)]
pub struct Model {
    /// The logbook, as last looked at.
    pub(super) barn: Option<Barn>,
    /// The drill room, as last looked at, where the program was begun with it.
    pub(super) drills: Option<Drills>,
    /// What is shown.
    pub(super) screen: Screen,
    /// The list of keys, where it lies over the screen.
    pub(super) help: Option<Help>,
    pub(super) look: Look,
    pub(super) now: Moment,
    pub(super) size: (u16, u16),
    /// A sentence about the last key, a refusal or a result.
    pub(super) said: Option<String>,
    /// Why nothing can be recorded any more.
    pub(super) read_only: Option<String>,
    /// What is being done that may take long, as a word on the screen.
    pub(super) busy: Option<&'static str>,
    /// What has just come was waited for: keys pressed meanwhile were meant for what was there
    /// before.
    pub(super) is_deaf: bool,
    pub(super) over: bool,
}

/// The screens.
#[derive(Clone, Debug)]
pub(super) enum Screen {
    Start(Start),
    Drills(Box<Room>),
    Walk(Box<Walking>),
    Seal(Box<Sealing>),
    Record(Reading),
    WhatIf(Box<Trying>),
    Lookout(Box<Looking>),
}

impl Model {
    /// Screens with nothing on them yet.
    pub(super) fn new(look: Look, now: Moment) -> Self {
        Self {
            barn: None,
            drills: None,
            screen: Screen::Start(Start::default()),
            help: None,
            look,
            now,
            size: (80, 24),
            said: None,
            read_only: None,
            busy: None,
            is_deaf: false,
            over: false,
        }
    }

    /// The same screens, drawn otherwise.
    #[must_use]
    pub fn looking(mut self, look: Look) -> Self {
        self.look = look;
        self
    }

    /// The walk on the screen, where one is.
    pub fn walk(&self) -> Option<&Walk> {
        match &self.screen {
            Screen::Walk(walking) => Some(&walking.walk),
            Screen::Seal(sealing) => Some(&sealing.walk),
            Screen::Start(_)
            | Screen::Drills(_)
            | Screen::Record(_)
            | Screen::WhatIf(_)
            | Screen::Lookout(_) => None,
        }
    }

    /// Whether the program is to end.
    pub fn is_over(&self) -> bool {
        self.over
    }

    /// Why nothing can be recorded any more, if so.
    pub fn read_only(&self) -> Option<&str> {
        self.read_only.as_deref()
    }

    /// The sentence about the last key, a refusal or a result.
    pub fn said(&self) -> Option<&str> {
        self.said.as_deref()
    }

    /// What is being done that may take long.
    pub fn busy(&self) -> Option<&'static str> {
        self.busy
    }

    /// Whether keys that are pressed already were meant for what was there before.
    pub fn is_deaf(&self) -> bool {
        self.is_deaf
    }

    /// What is to be asked of the world while no key comes.
    pub fn meanwhile(&self) -> Option<Errand> {
        match &self.screen {
            Screen::Lookout(looking) => looking.meanwhile(),
            _ => None,
        }
    }

    /// What has been typed into the field on the screen. A passphrase is not told.
    pub fn typed(&self) -> &str {
        match &self.screen {
            Screen::Walk(walking) => walking.typed(),
            Screen::Start(start) => start.typed(),
            Screen::Drills(room) => room.typed(),
            Screen::WhatIf(trying) => trying.typed(),
            Screen::Seal(_) | Screen::Record(_) | Screen::Lookout(_) => "",
        }
    }

    /// What the screen waits for.
    pub fn context(&self) -> Context {
        if self.help.is_some() {
            return Context::Help;
        }
        self.context_below()
    }

    /// What the screen below the list of keys waits for.
    pub(super) fn context_below(&self) -> Context {
        match &self.screen {
            Screen::Start(start) => start.context(self.barn.as_ref()),
            Screen::Drills(room) => room.context(),
            Screen::Walk(walking) => walking.context(),
            Screen::Seal(sealing) => sealing.context(),
            Screen::Record(_) => Context::Record,
            Screen::WhatIf(trying) => trying.context(),
            Screen::Lookout(looking) => looking.context(),
        }
    }

    /// Whether an action that its context has in general is valid at this very place, below the
    /// list of keys.
    pub(super) fn offers(&self, action: Action) -> bool {
        match &self.screen {
            Screen::Walk(walking) => walking.offers(action, &self.now),
            Screen::Start(start) => start.offers(action, self.barn.as_ref()),
            Screen::Drills(room) => room.offers(action, self.drills.as_ref()),
            Screen::WhatIf(trying) => trying.offers(action),
            Screen::Lookout(looking) => looking.offers(action),
            Screen::Seal(_) | Screen::Record(_) => true,
        }
    }

    /// What kind of walk this is about: it marks every frame.
    pub(super) fn mode(&self) -> Option<Mode> {
        match &self.screen {
            Screen::Walk(walking) => Some(walking.mode),
            Screen::Drills(_) => Some(Mode::Drill),
            Screen::Seal(sealing) => Some(sealing.mode),
            Screen::WhatIf(trying) => Some(trying.mode),
            Screen::Lookout(looking) => Some(looking.mode),
            Screen::Start(_) | Screen::Record(_) if self.drills.is_some() => Some(Mode::Drill),
            Screen::Start(_) | Screen::Record(_) => self.barn.as_ref().map(|barn| barn.mode),
        }
    }

    /// Everyone who may sign.
    pub(super) fn crew(&self) -> &[CrewCard] {
        let learners = || self.drills.as_ref().map_or(&[][..], |drills| &drills.crew);
        self.barn.as_ref().map_or_else(learners, |barn| &barn.crew)
    }

    /// Goes to the screen the program was begun with, and hands out what it asks.
    pub(super) fn go_home(&mut self) -> Vec<Errand> {
        if self.drills.is_some() {
            self.screen = Screen::Drills(Box::default());
            return vec![Errand::LookAtDrills];
        }
        self.screen = Screen::Start(Start::default());
        vec![Errand::LookAround]
    }
}
