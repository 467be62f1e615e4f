//! The arguments as meant: folders resolved, looks decided, nothing left to guess.

mod facts;
mod not_meant;

pub use not_meant::NotMeant;

use crate::barn::DEMO;
use crate::cli::args::{Args, Color, Command, Theme, WeighArgs};
use crate::cli::args::{LogbookCommand, LookArgs};
use crate::cli::checklist::{AboutLists, ListsDo};
use crate::cli::crew::AboutCrew;
use crate::cli::doctor::AboutDoctor;
use crate::cli::drill::AboutDrill;
use crate::cli::due::AboutDue;
use crate::cli::logbook::AboutLogbook;
use crate::cli::surroundings::Surroundings;
use crate::cli::weigh::{NotTyped, TypedTickets};
use crate::figures::Facts;
use crate::rig::HitchKind;
use crate::rig::demo::JUNIPER;
use std::path::{Path, PathBuf};

/// What is meant.
#[derive(Clone, Debug, PartialEq)]
pub enum Meant {
    /// Sit down to a logbook, on the screens or line by line.
    Sit(Sitting),
    /// Verify records.
    Verify {
        /// Logbooks or folders of trips.
        paths: Vec<PathBuf>,
        /// Crew files to trust; the logbook's own where there are none.
        crews: Vec<PathBuf>,
        /// Whether JSON is written.
        json: bool,
    },
    /// Check files.
    Lint {
        /// The files.
        files: Vec<PathBuf>,
        /// Whether JSON is written.
        json: bool,
    },
    /// Explain a rule of the linter, or all of them.
    Explain(String),
    /// Tell what a barn has set.
    Barn {
        /// Whose settings; the defaults where there is no folder to look in.
        barn: Option<Barn>,
        /// Whether JSON is written.
        json: bool,
    },
    /// List or change who may sign.
    Crew(AboutCrew),
    /// Ask something of a logbook.
    Logbook(AboutLogbook),
    /// Look whether all is well with a logbook and this laptop.
    Doctor(AboutDoctor),
    /// Tell every figure of a rig.
    Rig(AboutRig),
    /// List, start, compare or approve checklists.
    Checklist(AboutLists),
    /// Tell what is due.
    Due(AboutDue),
    /// Describe a rig into this file.
    Describe(PathBuf, Look),
    /// Play a drill, or list them.
    Drill(AboutDrill),
    /// Weigh by scale tickets.
    Weigh(Weighing),
    /// Reckon one formula from JSON, or list them all.
    Figure(Option<String>),
    /// Tell what there is to know of a formula, or of all.
    Page(Option<String>),
    /// Print this.
    Print(&'static str),
}

/// How somebody sits down to a logbook.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sitting {
    /// Which logbook.
    pub barn: Barn,
    /// Whether a walk is begun at once.
    pub walk: bool,
    /// A rig named: a file or an id.
    pub rig: Option<Named>,
    /// A checklist named: a file or an id.
    pub checklist: Option<Named>,
    /// When the walk was walked on paper, as typed, where it is entered from there.
    pub from_paper: Option<String>,
    /// The socket of the ssh-agent.
    pub agent: Option<PathBuf>,
    /// How it looks.
    pub look: Look,
}

/// A rig asked about.
#[derive(Clone, Debug, PartialEq)]
pub struct AboutRig {
    /// The rig: a file or an id; the only one of the logbook where none is named.
    pub rig: Option<Named>,
    /// The logbook whose rigs are known by their ids, where there is a folder for one.
    pub barn: Option<Barn>,
    /// What was read today.
    pub facts: Facts,
    /// Whether JSON is written.
    pub json: bool,
    /// How it looks.
    pub look: Look,
}

/// A weighing.
#[derive(Clone, Debug, PartialEq)]
pub struct Weighing {
    /// Where the tickets come from.
    pub from: TicketsFrom,
    /// The logbook whose rigs are known by their ids, where there is a folder for one.
    pub barn: Option<Barn>,
    /// Whether JSON is written.
    pub json: bool,
    /// How it looks.
    pub look: Look,
}

/// Where tickets come from.
#[derive(Clone, Debug, PartialEq)]
pub enum TicketsFrom {
    /// They are asked for, and so is how the ball is carried where nobody says it.
    Asked(Option<Joined>),
    /// They were typed.
    Typed(Joined, TypedTickets),
}

/// How the ball is carried.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Joined {
    /// As this rig has it.
    As(Named),
    /// This way.
    By(HitchKind),
}

/// Which logbook.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Barn {
    /// The invented one, in this folder.
    Demo(PathBuf),
    /// The one in this folder, made if a walk is to begin and there is none.
    Logbook(PathBuf),
    /// The logbook in the first folder where there is one, else the invented one in the second.
    Either(PathBuf, PathBuf),
}

/// How it looks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Look {
    /// On the screens or line by line.
    pub way: Way,
    /// Whether what is typed comes from a terminal.
    pub typed_in: bool,
    /// Colours of the screens.
    pub theme: Theme,
    /// Whether there are colours.
    pub colour: bool,
    /// Whether only ASCII is written.
    pub ascii: bool,
}

/// The two ways to sit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// Line by line.
    Lines,
    /// On the screens.
    Screens,
    /// On the screens, for which there is no terminal.
    ScreensInVain,
}

/// A file, or the id of something the program knows.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Named {
    /// A file.
    File(PathBuf),
    /// An id.
    Id(String),
}

/// What the arguments mean in these surroundings.
///
/// # Errors
/// [`NotMeant`] with what to do.
pub fn meant(args: &Args, surroundings: &Surroundings) -> Result<Meant, NotMeant> {
    Ok(match &args.command {
        None | Some(Command::Walk { .. }) => Meant::Sit(sitting(args, surroundings)?),
        Some(Command::Verify { paths, crew, json }) => Meant::Verify {
            paths: paths.clone(),
            crews: crew.clone(),
            json: *json,
        },
        Some(Command::Lint {
            explain: Some(rule),
            ..
        }) => Meant::Explain(rule.clone()),
        Some(Command::Lint { files, json, .. }) => Meant::Lint {
            files: files.clone(),
            json: *json,
        },
        Some(Command::Figure { name, page: true }) => Meant::Page(name.clone()),
        Some(Command::Figure { name, .. }) => Meant::Figure(name.clone()),
        Some(Command::Rig { example: true, .. }) => Meant::Print(JUNIPER),
        Some(Command::Rig {
            rig: Some(rig),
            describe: true,
            ..
        }) => match named(rig) {
            Named::File(file) => Meant::Describe(file, look(args, surroundings)),
            Named::Id(id) => return Err(NotMeant::NoFile(id)),
        },
        Some(Command::Rig {
            rig, json, facts, ..
        }) => Meant::Rig(AboutRig {
            rig: rig.as_deref().map(named),
            barn: barn_if_any(args, surroundings),
            facts: facts::today(facts)?,
            json: *json,
            look: look(args, surroundings),
        }),
        Some(Command::Due {
            rig,
            odometer,
            json,
        }) => Meant::Due(AboutDue {
            rig: rig.as_deref().map(named),
            barn: barn_if_any(args, surroundings),
            odometer: odometer.as_deref().map(facts::odometer).transpose()?,
            json: *json,
        }),
        Some(Command::Drill(drill)) => Meant::Drill(AboutDrill::meant(
            drill,
            barn_if_any(args, surroundings),
            (surroundings.agent.clone(), look(args, surroundings)),
        )?),
        Some(Command::Weigh(weigh)) => Meant::Weigh(Weighing {
            from: tickets(weigh)?,
            barn: barn_if_any(args, surroundings),
            json: weigh.json,
            look: look(args, surroundings),
        }),
        Some(Command::Barn { example: true, .. }) => Meant::Print(DEMO),
        Some(Command::Barn { json, .. }) => Meant::Barn {
            barn: barn_if_any(args, surroundings),
            json: *json,
        },
        Some(Command::Checklist { what, .. }) => Meant::Checklist(AboutLists {
            what: what.as_ref().map_or(ListsDo::Example, ListsDo::of),
            barn: barn_if_any(args, surroundings),
            agent: surroundings.agent.clone(),
            look: look(args, surroundings),
        }),
        Some(Command::Crew { what }) => Meant::Crew(AboutCrew {
            place: place(args, surroundings)?,
            demo: args.demo,
            what: what.clone(),
            agent: surroundings.agent.clone(),
            look: look(args, surroundings),
        }),
        Some(Command::Doctor { json, read_only }) => Meant::Doctor(AboutDoctor {
            place: place(args, surroundings)?,
            json: *json,
            read_only: *read_only,
            agent: surroundings.agent.clone(),
        }),
        Some(Command::Logbook { look: asked, what }) => {
            if what.is_some() && *asked != LookArgs::default() {
                return Err(NotMeant::NotOfThis);
            }
            let alone = LogbookCommand::Look(asked.clone());
            let what = what.as_ref().unwrap_or(&alone);
            let with = (look(args, surroundings), surroundings.agent.clone());
            Meant::Logbook(if args.demo {
                let home = surroundings.data_home.as_ref().ok_or(NotMeant::NoFolder)?;
                AboutLogbook::of_the_year(what, with, home.join("hames"))
            } else {
                AboutLogbook::of(what, with, || place(args, surroundings))?
            })
        }
    })
}

/// The folder of the logbook, to look at.
fn place(args: &Args, surroundings: &Surroundings) -> Result<PathBuf, NotMeant> {
    let home = || surroundings.data_home.as_deref().ok_or(NotMeant::NoFolder);
    match (&args.logbook, args.demo) {
        (Some(folder), _) => Ok(folder.clone()),
        (None, true) => home().map(demo),
        (None, false) => home().map(logbook),
    }
}

/// How somebody sits down to a logbook: to look, or to begin a walk, which makes one.
fn sitting(args: &Args, surroundings: &Surroundings) -> Result<Sitting, NotMeant> {
    let home = || surroundings.data_home.as_deref().ok_or(NotMeant::NoFolder);
    let walk = matches!(&args.command, Some(Command::Walk { .. }));
    let barn = match (&args.logbook, args.demo) {
        (Some(folder), _) => Barn::Logbook(folder.clone()),
        (None, true) => Barn::Demo(demo(home()?)),
        (None, false) if walk => Barn::Logbook(logbook(home()?)),
        (None, false) => Barn::Either(logbook(home()?), demo(home()?)),
    };
    let sitting = Sitting {
        barn,
        walk,
        rig: None,
        checklist: None,
        from_paper: None,
        agent: surroundings.agent.clone(),
        look: look(args, surroundings),
    };
    Ok(match &args.command {
        Some(Command::Walk {
            rig,
            checklist,
            from_paper,
        }) => Sitting {
            rig: rig.as_deref().map(named),
            checklist: checklist.as_deref().map(named),
            from_paper: from_paper.clone(),
            ..sitting
        },
        _ => sitting,
    })
}

/// The logbook whose rigs are known by their ids; none where there is no folder for one.
fn barn_if_any(args: &Args, surroundings: &Surroundings) -> Option<Barn> {
    let home = surroundings.data_home.as_deref();
    match (&args.logbook, args.demo) {
        (Some(folder), _) => Some(Barn::Logbook(folder.clone())),
        (None, true) => home.map(|home| Barn::Demo(demo(home))),
        (None, false) => home.map(|home| Barn::Either(logbook(home), demo(home))),
    }
}

/// Where the tickets come from, and how the ball is carried.
fn tickets(args: &WeighArgs) -> Result<TicketsFrom, NotMeant> {
    let joined = match (&args.rig, args.bumper_pull, args.gooseneck) {
        (Some(rig), ..) => Some(Joined::As(named(rig))),
        (None, true, _) => Some(Joined::By(HitchKind::BumperPull)),
        (None, false, true) => Some(Joined::By(HitchKind::Gooseneck)),
        (None, false, false) => None,
    };
    let typed = TypedTickets::read(args).map_err(NotMeant::NoTickets)?;
    match (typed, joined) {
        (None, joined) => Ok(TicketsFrom::Asked(joined)),
        (Some(typed), Some(joined)) => Ok(TicketsFrom::Typed(joined, typed)),
        (Some(_), None) => Err(NotMeant::NoTickets(NotTyped::Unjoined)),
    }
}

fn look(args: &Args, surroundings: &Surroundings) -> Look {
    let terminal = surroundings.typed_in && surroundings.shown && !surroundings.dumb();
    Look {
        way: match (args.plain, terminal) {
            (true, _) => Way::Lines,
            (false, true) => Way::Screens,
            (false, false) => Way::ScreensInVain,
        },
        typed_in: surroundings.typed_in,
        theme: args.theme,
        colour: args.color == Color::Auto && !surroundings.no_color && !surroundings.dumb(),
        ascii: args.ascii || !surroundings.utf8(),
    }
}

/// An id is one plain word; anything with a point or a stroke is a file.
pub(super) fn named(text: &str) -> Named {
    if text.contains(['.', '/', '\\']) {
        Named::File(PathBuf::from(text))
    } else {
        Named::Id(text.to_owned())
    }
}

fn logbook(home: &Path) -> PathBuf {
    home.join("hames").join("logbook")
}

pub(super) fn demo(home: &Path) -> PathBuf {
    home.join("hames").join("demo")
}

#[cfg(test)]
mod tests {
    use super::*;
    use clap::Parser;

    fn of(line: &str, surroundings: &Surroundings) -> Result<Meant, NotMeant> {
        let args = Args::try_parse_from(line.split_whitespace()).unwrap();
        meant(&args, surroundings)
    }

    fn home() -> Surroundings {
        Surroundings {
            data_home: Some(PathBuf::from("/home/wren/.local/share")),
            locale: Some("en_US.UTF-8".to_owned()),
            term: Some("xterm".to_owned()),
            typed_in: true,
            shown: true,
            no_color: false,
            agent: None,
        }
    }

    fn sitting(line: &str, surroundings: &Surroundings) -> Sitting {
        match of(line, surroundings).unwrap() {
            Meant::Sit(sitting) => sitting,
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn without_a_logbook_it_is_the_demo_barn_and_a_walk_makes_one() {
        let share = PathBuf::from("/home/wren/.local/share/hames");
        let (logbook, demo) = (share.join("logbook"), share.join("demo"));
        assert_eq!(
            sitting("hames", &home()).barn,
            Barn::Either(logbook.clone(), demo.clone())
        );
        assert_eq!(sitting("hames walk", &home()).barn, Barn::Logbook(logbook));
        assert_eq!(sitting("hames walk --demo", &home()).barn, Barn::Demo(demo));
        assert_eq!(
            sitting("hames --logbook /b", &home()).barn,
            Barn::Logbook(PathBuf::from("/b"))
        );
    }

    #[test]
    fn a_word_is_an_id_and_a_path_is_a_file() {
        let walk = sitting("hames walk --rig juniper --checklist ./my.yaml", &home());
        assert_eq!(walk.rig, Some(Named::Id("juniper".to_owned())));
        assert_eq!(
            walk.checklist,
            Some(Named::File(PathBuf::from("./my.yaml")))
        );
    }

    #[test]
    fn colour_and_letters_follow_the_flag_and_the_environment() {
        let look = |line: &str, surroundings: &Surroundings| sitting(line, surroundings).look;
        assert!(look("hames", &home()).colour);
        assert!(!look("hames --color never", &home()).colour);
        let no_color = Surroundings {
            no_color: true,
            ..home()
        };
        assert!(!look("hames", &no_color).colour);
        assert!(!look("hames", &home()).ascii);
        assert!(look("hames --ascii", &home()).ascii);
        for locale in [None, Some("C".to_owned()), Some("POSIX".to_owned())] {
            let plain = Surroundings { locale, ..home() };
            assert!(look("hames", &plain).ascii);
        }
    }

    #[test]
    fn verify_needs_no_folder_of_ours_and_a_walk_without_one_is_told_what_to_name() {
        let nothing = Surroundings::default();
        assert!(of("hames verify /media/stick", &nothing).is_ok());
        let told = of("hames walk", &nothing).unwrap_err().to_string();
        assert!(told.contains("--logbook DIR"), "{told}");
        assert!(of("hames walk --logbook /b", &nothing).is_ok());
    }
}
