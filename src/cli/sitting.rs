//! Sitting down to a logbook: on the screens, or line by line.

use crate::cli::clerk::{Clerk, Place, Stands, is_founded};
use crate::cli::command::quoted;
use crate::cli::plan::{Barn, Look, Sitting, Way};
use crate::cli::setup::{self, set_up};
use crate::cli::supply::{NotFound, stock};
use crate::cli::whose::Whose;
use crate::cli::{Status, screens};
use crate::plain::{self, Left, Options};
use crate::record::Mode;
use crate::store::Local;
use crate::world::{Agent, Machine};
use std::io::{self, Write};
use std::path::PathBuf;
use zeroize::Zeroizing;

const NO_TERMINAL: &str = "The screens need a terminal for input and output, and here is none. \
    Use --plain to work line by line; it goes through a pipe.";

pub(super) fn sit(
    sitting: &Sitting,
    whose: &Whose,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Status> {
    let look = sitting.look;
    if look.way == Way::ScreensInVain {
        writeln!(err, "{NO_TERMINAL}")?;
        return Ok(Status::Usage);
    }
    let place = match place(&sitting.barn) {
        Ok(place) => place,
        Err(sentence) => {
            writeln!(err, "{sentence}")?;
            return Ok(Status::Store);
        }
    };
    let stock = match stock(&place, sitting) {
        Ok(stock) => stock,
        Err(not_found) => return tell(&not_found, err),
    };
    let input = io::stdin();
    let machine = Machine::this();
    if place.mode == Mode::Real {
        let founded = match is_founded(&Local, &place.root) {
            Ok(founded) => founded,
            Err(trouble) => {
                writeln!(err, "{trouble}")?;
                return Ok(Status::Store);
            }
        };
        if !founded && !sitting.walk {
            writeln!(err, "{}", no_logbook(&place))?;
            return Ok(Status::Store);
        }
        if !founded
            && set_up(
                &place,
                &machine,
                &mut input.lock(),
                out,
                options(look, false),
            )? == setup::Left::Nothing
        {
            return Ok(Status::Usage);
        }
        if sitting.walk && stock.rigs.is_empty() {
            writeln!(err, "{}", no_rig(&place))?;
            return Ok(Status::Usage);
        }
    }
    let agent = sitting.agent.clone().map(Agent::at);
    let mut clerk = Clerk::new(Local, machine.clone(), place, stock).with_agent(agent);
    if let Some(walked) = &sitting.from_paper {
        clerk = match clerk.entering(walked) {
            Ok(clerk) => clerk,
            Err(trouble) => {
                writeln!(err, "{trouble}")?;
                return Ok(Status::Usage);
            }
        };
    }
    if look.way == Way::Screens {
        let status = screens::run(&mut clerk, &machine, (look, whose), err);
        return Ok(match (status, clerk.stands()) {
            (Status::Fine, Stands::Failed) => Status::Store,
            (Status::Fine, Stands::Refused) if sitting.walk => Status::Findings,
            _ => status,
        });
    }
    let mut perform = |errand| whose.reply(clerk.perform(errand));
    let options = options(look, sitting.walk);
    let left = plain::run(&mut input.lock(), out, &mut perform, options)?;
    Ok(match left {
        Left::ByChoice | Left::InputEnded => Status::Fine,
        Left::Refused if clerk.stands() == Stands::Failed => Status::Store,
        Left::Refused => Status::Findings,
        Left::DiskFailed | Left::NoLogbook => Status::Store,
    })
}

pub(super) fn place(barn: &Barn) -> Result<Place, String> {
    let real = |root: &PathBuf| Place {
        root: root.clone(),
        mode: Mode::Real,
    };
    let demo = |root: &PathBuf| Place {
        root: root.clone(),
        mode: Mode::Demo,
    };
    Ok(match barn {
        Barn::Demo(root) => demo(root),
        Barn::Logbook(root) => real(root),
        Barn::Either(root, other) => {
            if is_founded(&Local, root).map_err(|trouble| trouble.to_string())? {
                real(root)
            } else {
                demo(other)
            }
        }
    })
}

pub(super) fn options(look: Look, begin: bool) -> Options {
    Options {
        ascii: look.ascii,
        begin,
        secret: look.typed_in.then_some(unseen),
    }
}

/// A passphrase typed at the terminal, not shown.
fn unseen() -> io::Result<Zeroizing<String>> {
    rpassword::read_password().map(Zeroizing::new)
}

pub(super) fn tell(not_found: &NotFound, err: &mut dyn Write) -> io::Result<Status> {
    writeln!(err, "{not_found}")?;
    Ok(match not_found {
        NotFound::Faults(_) => Status::Findings,
        NotFound::Store(_) => Status::Store,
        NotFound::Id { .. } | NotFound::Several(_) => Status::Usage,
    })
}

fn no_logbook(place: &Place) -> String {
    format!(
        "There is no logbook in {}. Make one with: hames walk --logbook {}",
        place.root.display(),
        quoted(&place.root)
    )
}

pub(super) fn no_rig(place: &Place) -> String {
    format!(
        "No rig is described yet. Describe yours: hames rig my-rig.yaml --describe\n\
         Then: hames walk --rig my-rig.yaml\n\
         A rig file kept in {} is offered each time.",
        place.root.join("rigs").display()
    )
}
