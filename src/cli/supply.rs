//! The rigs and checklists to offer: those inside the program, those kept in the logbook, and the
//! one that was named.

use crate::barn::Settings;
use crate::checklist::{
    Checklist, Plan, Shared, Together, for_no_list, held_to, no_stricter_on, put_together,
};
use crate::cli::clerk::{Listed, Offer, Place, Stock};
use crate::cli::command::quoted;
use crate::cli::plan::{Named, Sitting};
use crate::document::Fault;
use crate::record::Mode;
use crate::rig::Rig;
use crate::store::{Disk, Kind, Local, MOST_FILE_BYTES, StoreFault};
use std::fmt;
use std::path::{Path, PathBuf};

/// Why something that was named cannot be offered.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NotFound {
    /// The disk refused.
    Store(StoreFault),
    /// The file is faulty: a line for each fault.
    Faults(Vec<String>),
    /// Nothing has this id.
    Id {
        what: &'static str,
        id: String,
        known: Vec<String>,
    },
    /// None was named, and there are several rigs with these ids.
    Several(Vec<String>),
}

/// How the text of a file becomes what is offered.
type Reader<'r, T> = &'r dyn Fn(&Path, &str) -> Result<T, Vec<Fault>>;

fn rig_of(_: &Path, text: &str) -> Result<Offer<Rig>, Vec<Fault>> {
    let text = text.to_owned();
    Rig::read(&text).map(|read| Offer { read, text })
}

/// A file of the barn's own, put together by what the barn chose.
fn checklist_of(path: &Path, text: &str, settings: &Settings) -> Result<Together, Vec<Fault>> {
    put_together(text, &shared_beside(path), &settings.policies)
}

/// Checklists held to the barn's own limits, and each limit that is refused, with why.
pub(super) fn held(lists: Vec<Listed>, settings: &Settings) -> (Vec<Listed>, Vec<Fault>) {
    let known: Vec<&str> = lists.iter().map(|list| list.heading.id.as_str()).collect();
    let mut refused = for_no_list(&settings.limits, &known);
    let held = lists.into_iter().map(|list| {
        let (held, faults) = list.held_to(settings);
        refused.extend(faults);
        held
    });
    let held = held.collect();
    refused.sort();
    (held, refused)
}

/// What to offer at a sitting. Where something was named, that alone.
pub(super) fn stock(place: &Place, sitting: &Sitting) -> Result<Stock, NotFound> {
    let mut stock = all(place);
    if let Some(named) = &sitting.rig {
        let known = std::mem::take(&mut stock.rigs);
        stock.rigs = vec![rig(named, known)?];
    }
    if let Some(named) = &sitting.checklist {
        stock.checklists = vec![checklist(named, &stock)?.into()];
    }
    Ok(stock)
}

/// Everything a logbook offers, with what comes with the program.
pub(super) fn all(place: &Place) -> Stock {
    match place.mode {
        Mode::Demo => Stock::demo(),
        Mode::Real | Mode::Drill => kept(&place.root),
    }
}

/// The checklist that is named, among those known or in its file.
pub(super) fn checklist(named: &Named, stock: &Stock) -> Result<Offer<Checklist>, NotFound> {
    let settings = &stock.settings;
    let reader = |path: &Path, text: &str| {
        let put = checklist_of(path, text, settings)?;
        // What is refused is told where everything is offered.
        Ok(held_to(put, &settings.limits).0.into())
    };
    let known = stock.checklists.iter();
    let known = known.map(|list| (&list.heading.id, || stock.whole(list)));
    one("checklist", named, known, &reader)
}

/// The rigs a logbook keeps; a faulty file is left away.
pub(super) fn rigs_kept(root: &Path) -> Vec<Offer<Rig>> {
    let files = yaml_files(&root.join("rigs"));
    files
        .iter()
        .filter_map(|path| read(path, &rig_of).ok())
        .collect()
}

/// Where a logbook keeps the settings of its barn.
pub(super) fn settings_file(root: &Path) -> PathBuf {
    root.join("barn.yaml")
}

/// What the barn has set; nothing where it has written nothing.
pub(super) fn settings(root: &Path) -> Result<Option<Settings>, NotFound> {
    let path = settings_file(root);
    // A file that is there and cannot be looked at is told by reading it.
    if !Local.exists(&path).unwrap_or(true) {
        return Ok(None);
    }
    let text = text(&path).map_err(NotFound::Store)?;
    let read = Settings::read(&text);
    read.map(Some).map_err(|faults| faulty(&path, &faults))
}

/// The rig that is named, among those known or in its file.
pub(super) fn rig(named: &Named, known: Vec<Offer<Rig>>) -> Result<Offer<Rig>, NotFound> {
    let ids: Vec<String> = known.iter().map(|rig| rig.read.id.clone()).collect();
    let known = ids.iter().zip(known).map(|(id, rig)| (id, || Some(rig)));
    one("rig", named, known, &rig_of)
}

/// Reads a text file of at most the size any file of a logbook has.
pub(super) fn text(path: &Path) -> Result<String, StoreFault> {
    let bytes = Local
        .read(path, MOST_FILE_BYTES)
        .map_err(StoreFault::of_reading(path, MOST_FILE_BYTES))?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

/// What comes with the program and what the logbook keeps. A faulty file is told, not offered.
pub(super) fn kept(root: &Path) -> Stock {
    let mut stock = Stock::default();
    match settings(root) {
        Ok(settings) => stock.settings = settings.unwrap_or_default(),
        Err(_) => stock.notices.push(not_in_force(&settings_file(root))),
    }
    for path in yaml_files(&root.join("rigs")) {
        match read(&path, &rig_of) {
            Ok(offer) => stock.rigs.push(offer),
            Err(_) => stock.notices.push(not_offered(&path)),
        }
    }
    let (lists, faulty) = lists(root, &stock.settings);
    stock
        .notices
        .extend(faulty.iter().map(|path| not_offered(path)));
    let (lists, refused) = held(lists, &stock.settings);
    let file = settings_file(root);
    stock
        .notices
        .extend(refused.iter().map(|fault| refusal(&file, fault)));
    stock.checklists = lists;
    let on_rigs = no_stricter(&stock);
    stock
        .notices
        .extend(on_rigs.iter().map(|fault| refusal(&file, fault)));
    stock
}

/// The barn's limits that change nothing on a rig of its own.
pub(super) fn no_stricter(stock: &Stock) -> Vec<Fault> {
    let limits = &stock.settings.limits;
    let held = |list: &&Listed| {
        let mut own = limits.iter();
        own.any(|own| own.checklist.text == list.heading.id)
    };
    let held = stock.checklists.iter().filter(held);
    let lists = held.filter_map(|list| stock.whole(list));
    let laid = lists.flat_map(|list| {
        let rigs = stock.rigs.iter();
        let lay = |rig: &Offer<Rig>| Plan::lay(list.read.clone(), rig.read.clone()).ok();
        rigs.filter_map(lay).collect::<Vec<_>>()
    });
    laid.flat_map(|plan| no_stricter_on(&plan, limits))
        .collect()
}

/// The checklists of a logbook by what its barn chose, those of the program among them, and the
/// files that are faulty.
pub(super) fn lists(root: &Path, settings: &Settings) -> (Vec<Listed>, Vec<PathBuf>) {
    let mut lists = Listed::shipped();
    let mut faulty = Vec::new();
    for path in yaml_files(&root.join("checklists")) {
        match read(&path, &|path, text| checklist_of(path, text, settings)) {
            // The barn's own stands in the place of the one of that id that comes with the program.
            Ok(put) => {
                lists.retain(|known| known.heading.id != put.checklist.id);
                lists.push(put.into());
            }
            Err(_) => faulty.push(path),
        }
    }
    (lists, faulty)
}

/// The one that is named: in its file, or among those known, each read when it is the one.
fn one<'k, T>(
    what: &'static str,
    named: &Named,
    known: impl Iterator<Item = (&'k String, impl FnOnce() -> Option<Offer<T>>)>,
    reader: Reader<'_, Offer<T>>,
) -> Result<Offer<T>, NotFound> {
    let wanted = match named {
        Named::File(path) => return read(path, reader),
        Named::Id(id) => id,
    };
    let mut ids = Vec::new();
    for (id, whole) in known {
        if id == wanted
            && let Some(found) = whole()
        {
            return Ok(found);
        }
        ids.push(id.clone());
    }
    Err(NotFound::Id {
        what,
        id: wanted.clone(),
        known: ids,
    })
}

fn read<T>(path: &Path, reader: Reader<'_, T>) -> Result<T, NotFound> {
    let text = text(path).map_err(NotFound::Store)?;
    reader(path, &text).map_err(|faults| faulty(path, &faults))
}

fn faulty(path: &Path, faults: &[Fault]) -> NotFound {
    let line = |fault: &Fault| format!("{}:{fault}", path.display());
    NotFound::Faults(faults.iter().map(line).collect())
}

/// The steps a checklist file may take by name: those of the folder `shared` beside it, and those
/// that come with the program. A faulty file of them is left away; `hames lint` tells why.
pub(super) fn shared_beside(file: &Path) -> Shared {
    let folder = file.parent().unwrap_or(Path::new("")).join("shared");
    let mut own = Shared::default();
    for path in yaml_files(&folder) {
        if let Ok(text) = text(&path) {
            drop(own.add(&text));
        }
    }
    own.over(Shared::shipped())
}

pub(super) fn yaml_files(folder: &Path) -> Vec<PathBuf> {
    let entries = Local.list(folder).unwrap_or_default();
    let files = entries.into_iter().filter(|entry| entry.kind == Kind::File);
    files
        .map(|entry| folder.join(entry.name))
        .filter(|path| path.extension().is_some_and(|end| end == "yaml"))
        .collect()
}

fn not_in_force(path: &Path) -> String {
    format!(
        "{} is not in force, and every setting is at its default. See why: hames lint {}",
        path.display(),
        quoted(path)
    )
}

fn refusal(file: &Path, fault: &Fault) -> String {
    format!(
        "A limit of the barn's own is not in force. {}:{fault}",
        file.display()
    )
}

fn not_offered(path: &Path) -> String {
    format!(
        "{} is not offered. See why: hames lint {}",
        path.display(),
        quoted(path)
    )
}

impl fmt::Display for NotFound {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Store(fault) => fault.fmt(f),
            Self::Faults(lines) => f.write_str(&lines.join("\n")),
            Self::Several(ids) => write!(f, "Which rig? Name one: {}.", ids.join(", ")),
            Self::Id { what, id, known } if known.is_empty() => write!(
                f,
                "There is no {what} “{}” here, and no other. Name a file, such as ./{}.yaml.",
                id.escape_debug(),
                id.escape_debug()
            ),
            Self::Id { what, id, known } => write!(
                f,
                "There is no {what} “{}” here. There is: {}. A file is named with its ending.",
                id.escape_debug(),
                known.join(", ")
            ),
        }
    }
}
