//! The screens: the clerk on one side of the desk, the terminal on the other.

use crate::cli::Status;
use crate::cli::args::Theme;
use crate::cli::clerk::Clerk;
use crate::cli::plan::Look;
use crate::cli::whose::Whose;
use crate::desk::{DrillWanted, Errand, Reply};
use crate::figures::Facts;
use crate::record::Mode;
use crate::review::Filter;
use crate::rig::Rig;
use crate::store::Disk;
use crate::tui::{self, Exit, Model, TerminalTrouble};
use crate::world::{Machine, World};
use std::io::Write;

const STOPPED: &str =
    "Stopped from outside. What was recorded is kept; start Hames again to take a walk up.";

/// Runs the screens of a logbook until the person leaves.
pub(super) fn run<D: Disk>(
    clerk: &mut Clerk<D>,
    world: &dyn World,
    (look, whose): (Look, &Whose),
    err: &mut dyn Write,
) -> Status {
    let begun = tui::first(screen_look(look), world.now());
    sit(clerk, world, (begun, whose), err)
}

/// Shows the drill room of a logbook, with what is asked for, until the person leaves.
pub(super) fn drills<D: Disk>(
    clerk: &mut Clerk<D>,
    world: &dyn World,
    wanted: DrillWanted,
    (look, whose): (Look, &Whose),
    err: &mut dyn Write,
) -> Status {
    let begun = tui::first_drills(screen_look(look), world.now(), wanted);
    sit(clerk, world, (begun, whose), err)
}

/// Runs screens that a clerk stands behind.
fn sit<D: Disk>(
    clerk: &mut Clerk<D>,
    world: &dyn World,
    (begun, whose): ((Model, Vec<Errand>), &Whose),
    err: &mut dyn Write,
) -> Status {
    let mut perform = |errand| whose.reply(clerk.perform(errand));
    let status = show(&mut perform, world, begun, err);
    if clerk.failed() {
        Status::Store
    } else {
        status
    }
}

/// Shows one rig until the person leaves. Nothing is asked of the world but the rig.
pub(super) fn show_rig(
    rig: &Rig,
    facts: &Facts,
    mode: Mode,
    look: Look,
    err: &mut dyn Write,
) -> Status {
    let world = Machine::this();
    let begun = tui::first_rig(screen_look(look), world.now(), rig.id.clone());
    let mut perform = |_| Reply::Rig {
        rig: Box::new(rig.clone()),
        facts: facts.clone(),
        mode,
    };
    show(&mut perform, &world, begun, err)
}

/// Shows a logbook to look over until the person leaves. Whoever performs the errands reads, and
/// does nothing else.
pub(super) fn show_lookout(
    perform: &mut dyn FnMut(Errand) -> Reply,
    (mode, filter): (Mode, Filter),
    to_make: bool,
    look: Look,
    err: &mut dyn Write,
) -> Status {
    let world = Machine::this();
    let begun = tui::first_lookout(screen_look(look), world.now(), (mode, filter), to_make);
    show(perform, &world, begun, err)
}

fn screen_look(look: Look) -> tui::Look {
    tui::Look {
        theme: match look.theme {
            Theme::Default => tui::Theme::Own,
            Theme::Night => tui::Theme::Night,
            Theme::Glare => tui::Theme::Glare,
        },
        colour: look.colour,
        ascii: look.ascii,
        big: false,
    }
}

/// Runs the screens from how they begin. What is said afterwards may have nobody to read it.
fn show(
    perform: &mut dyn FnMut(Errand) -> Reply,
    world: &dyn World,
    begun: (Model, Vec<Errand>),
    err: &mut dyn Write,
) -> Status {
    let (said, status) = match tui::run(perform, &|| world.now(), begun) {
        Ok(Exit::Left) => (None, Status::Fine),
        Ok(Exit::Signalled) => (Some(STOPPED.to_owned()), Status::Fine),
        Err(trouble @ (TerminalTrouble::NotTaken(_) | TerminalTrouble::Gone(_))) => {
            (Some(trouble.to_string()), Status::Usage)
        }
    };
    if let Some(said) = said {
        drop(writeln!(err, "{said}"));
    }
    status
}
