//! A message in; the model changed and errands out.

use crate::desk::{DrillWanted, Errand, Reply, told};
use crate::record::Mode;
use crate::review::Filter;
use crate::tui::drill;
use crate::tui::help::{self, Help};
use crate::tui::keys::{Key, meant};
use crate::tui::lookout::{self, Looking};
use crate::tui::model::Screen;
use crate::tui::record::{self, Reading};
use crate::tui::room::{self, Room};
use crate::tui::seal::{self, Sealing};
use crate::tui::start;
use crate::tui::walk::{self, Walking};
use crate::tui::whatif::{self, Trying};
use crate::tui::{Action, Look, Model, Msg, view};
use crate::walk::Moment;

/// An absence longer than this is told, with how to have the steps looked at again; the walk
/// itself reopens steps after a hold of the same length.
const SHORT_ABSENCE_MS: u64 = 120_000;

/// The words shown until a logbook has come.
const READING_ALL: &str = "reading every trip of the logbook";
const MAKING: &str = "making the year of an invented barn: this is done once, and takes a while";

/// The screens as they begin, and the first thing they ask.
pub fn first(look: Look, now: Moment) -> (Model, Vec<Errand>) {
    (Model::new(look, now), vec![Errand::LookAround])
}

/// The screen of a rig to look at as it begins, and the first thing it asks.
pub fn first_rig(look: Look, now: Moment, rig: String) -> (Model, Vec<Errand>) {
    (Model::new(look, now), vec![Errand::LookAtRig { rig }])
}

/// A logbook to look over as it begins, filtered so, and the first thing it asks. Of a demo whose
/// year is still to be made it is said that this takes a while.
pub fn first_lookout(
    look: Look,
    now: Moment,
    (mode, filter): (Mode, Filter),
    to_make: bool,
) -> (Model, Vec<Errand>) {
    let mut model = Model::new(look, now);
    model.screen = Screen::Lookout(Box::new(Looking::awaiting(mode, filter)));
    model.busy = Some(if to_make { MAKING } else { READING_ALL });
    (model, vec![Errand::LookOver])
}

/// The drill room as it begins, with what was asked for, and the first thing it asks.
pub fn first_drills(look: Look, now: Moment, wanted: DrillWanted) -> (Model, Vec<Errand>) {
    let mut model = Model::new(look, now);
    model.screen = Screen::Drills(Box::new(Room::wanting(wanted)));
    (model, vec![Errand::LookAtDrills])
}

/// What is said of keys that were pressed while something was waited for.
const UNHEARD: &str = "What was typed while this was waited for did nothing.";

/// Takes a message in. What the world is asked is handed out; nothing is shown as done before its
/// reply has come.
pub fn update(model: &mut Model, msg: Msg) -> Vec<Errand> {
    match msg {
        Msg::Clock(now) => model.now = now,
        Msg::Resized(columns, rows) => model.size = (columns, rows),
        Msg::Press { key, repeat } => return press(model, key, repeat),
        Msg::Unheard(keys) => {
            model.is_deaf = false;
            if keys > 0 {
                model.said = Some(UNHEARD.to_owned());
            }
        }
        Msg::Paste(text) => paste(model, &text),
        Msg::Away(ms) => away(model, ms),
        Msg::Reply(reply) => return replied(model, reply),
    }
    Vec::new()
}

fn press(model: &mut Model, key: Key, repeat: bool) -> Vec<Errand> {
    let Some(row) = meant(model, key) else {
        if !repeat && key != Key::Other {
            model.said = Some(model.context().hint().to_owned());
        }
        return Vec::new();
    };
    let moves_or_writes = matches!(
        row.action,
        Action::Type
            | Action::Erase
            | Action::Up
            | Action::Down
            | Action::Less
            | Action::More
            | Action::PageUp
            | Action::PageDown
    );
    if repeat && !moves_or_writes {
        return Vec::new();
    }
    // While one types, a refusal stays to be read.
    if !moves_or_writes {
        model.said = None;
    }
    let asked = act(model, row.action, key);
    stay_on_page(model);
    permitted(model, asked)
}

/// Nothing is scrolled further than its last line.
fn stay_on_page(model: &mut Model) {
    let most = view::most_scroll(model);
    let scroll = match &mut model.screen {
        Screen::Start(start) => match &mut start.read {
            Some(scroll) => scroll,
            None => return,
        },
        Screen::Drills(room) => &mut room.scroll,
        Screen::Walk(walking) => &mut walking.scroll,
        Screen::Seal(sealing) => &mut sealing.scroll,
        Screen::Record(reading) => &mut reading.scroll,
        Screen::WhatIf(trying) => &mut trying.scroll,
        Screen::Lookout(looking) => &mut looking.scroll,
    };
    *scroll = (*scroll).min(most);
}

/// Does what a key means.
pub(super) fn act(model: &mut Model, action: Action, key: Key) -> Vec<Errand> {
    if model.help.is_some() {
        return help::act(model, action, key);
    }
    match action {
        Action::Help => model.help = Some(Help::default()),
        Action::Colours => {
            model.look.theme = model.look.theme.next();
            model.said = Some(format!("Colours: {}.", model.look.theme.word()));
        }
        Action::Big => model.look.big = !model.look.big,
        Action::Quit => model.over = true,
        Action::ToStart => {
            model.said = drill::left(model);
            return model.go_home();
        }
        _ => {
            return match &mut model.screen {
                Screen::Start(_) => start::act(model, action, key),
                Screen::Drills(_) => room::act(model, action, key),
                Screen::Walk(_) => walk::act(model, action, key),
                Screen::Seal(_) => seal::act(model, action, key),
                Screen::Record(_) => record::act(model, action),
                Screen::WhatIf(_) => whatif::act(model, action, key),
                Screen::Lookout(_) => lookout::act(model, action, key),
            };
        }
    }
    Vec::new()
}

/// Once the disk has failed nothing that writes is asked any more.
fn permitted(model: &mut Model, asked: Vec<Errand>) -> Vec<Errand> {
    let Some(reason) = &model.read_only else {
        return asked;
    };
    let reads = |errand: &Errand| {
        matches!(
            errand,
            Errand::LookAround
                | Errand::LookAtDrills
                | Errand::Show { .. }
                | Errand::LookAtRig { .. }
                | Errand::LookOver
                | Errand::ReadOn
                | Errand::LookAtTrends
                | Errand::OpenTrip { .. }
        )
    };
    if asked.iter().all(reads) {
        return asked;
    }
    // Leaving has to work although the hold cannot be written.
    if asked
        .iter()
        .any(|errand| matches!(errand, Errand::Record(crate::walk::Act::Hold { .. })))
    {
        return model.go_home();
    }
    model.busy = None;
    model.said = Some(format!("Nothing can be recorded: {reason}"));
    Vec::new()
}

fn paste(model: &mut Model, text: &str) {
    if let Some(help) = &mut model.help {
        return help.paste(text);
    }
    match &mut model.screen {
        Screen::Start(start) => start.paste(text),
        Screen::Drills(room) => room::paste(room, text),
        Screen::Walk(walking) => walking.paste(text),
        Screen::Seal(sealing) => sealing.paste(text),
        Screen::WhatIf(trying) => trying.paste(text),
        Screen::Lookout(looking) => looking.paste(text),
        Screen::Record(_) => {}
    }
}

fn away(model: &mut Model, ms: u64) {
    let walking = matches!(&model.screen, Screen::Walk(walking) if walking.walk.held().is_none());
    if walking && ms > SHORT_ABSENCE_MS {
        model.said = Some(format!(
            "Away for {}. Press Tab to hold and Enter to take up: what may have changed is then \
             looked at again.",
            told::span(ms)
        ));
    }
}

fn replied(model: &mut Model, reply: Reply) -> Vec<Errand> {
    let busy = model.busy.take();
    match reply {
        Reply::Barn(barn) => model.barn = Some(barn),
        Reply::Walking {
            walk,
            trip,
            mode,
            standing,
            notices,
            barn,
            now,
        } => {
            if !notices.is_empty() {
                model.said = Some(notices.join(" "));
            }
            let taken_up = busy == Some(start::TAKING_UP);
            model.now = now;
            let walking = Walking {
                barn,
                taken_up,
                ..Walking::new(*walk, trip, mode, standing)
            };
            model.screen = match walking.walk.ended() {
                Some(_) => Screen::Seal(Box::new(Sealing::new(&walking))),
                None => Screen::Walk(Box::new(walking)),
            };
        }
        Reply::Drilling {
            run,
            trip,
            notices,
            barn,
            now,
            is_signed,
        } => {
            model.said = Some(notices.join(" ")).filter(|said| !said.is_empty());
            let taken_up = busy == Some(start::TAKING_UP);
            model.now = now;
            model.screen = Screen::Walk(Box::new(Walking {
                taken_up: taken_up && run.walk().ended().is_none(),
                ..Walking::of_drill(*run, trip, is_signed, barn)
            }));
        }
        Reply::DrillRoom(seen) => return room::seen(model, *seen),
        Reply::Drilled(line) => {
            if let Screen::Walk(walking) = &mut model.screen {
                walking.drilled(&line);
            }
        }
        Reply::Recorded(entry) => {
            if let Screen::Walk(walking) = &mut model.screen {
                model.said = walking.recorded(&entry);
                if walking.is_to_be_signed() {
                    model.screen = Screen::Seal(Box::new(Sealing::new(walking)));
                }
            }
        }
        Reply::Refused(refusal) => {
            if let Screen::Walk(walking) = &mut model.screen {
                walking.refused(&refusal);
            }
            model.said = Some(refusal.to_string());
        }
        Reply::Key { signer, lies } => seal::found(model, signer, lies),
        Reply::Sealed(sealed) => {
            if let Screen::Seal(sealing) = &mut model.screen {
                model.said = sealing.sealed(sealed, model.now.clone());
            }
        }
        Reply::Rig { rig, facts, mode } => {
            // Where nothing was looked at before, the program began with it.
            let alone = model.barn.is_none();
            model.screen = Screen::WhatIf(Box::new(Trying::new(*rig, facts, mode, alone)));
        }
        Reply::Record(tale) => model.screen = Screen::Record(Reading::new(*tale)),
        Reply::Lookout(lookout) => return lookout::seen(model, *lookout),
        Reply::StillToRead(unread) => return lookout::still_to_read(model, unread),
        Reply::Trends(rigs) => lookout::moved(model, rigs),
        Reply::Opened {
            trip,
            next,
            managers,
        } => lookout::opened(model, *trip, next, managers),
        Reply::MayCountersign {
            manager,
            lies,
            first,
        } => lookout::may(model, manager, lies, first),
        Reply::Countersigned { seen, folder } => lookout::kept(model, *seen, folder),
        Reply::MayBegin { notices, questions } => start::may_begin(model, notices, questions),
        Reply::Cannot(reason) => {
            start::may_not_begin(model);
            model.said = Some(reason);
        }
        Reply::ReadOnly(reason) => model.read_only = Some(reason),
    }
    Vec::new()
}
