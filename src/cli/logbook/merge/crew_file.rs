//! The crew file here, where it is damaged: its bytes lie beside the statement that put it in force.

use crate::cli::clerk::{Books, Trouble, mode_of};
use crate::cli::logbook::merge::aside::Mended;
use crate::cli::logbook::merge::open::move_it_away;
use crate::cli::logbook::merge::{Status, Stopped, no_logbook};
use crate::logbook::merge::{Why, is_damaged_copy};
use crate::record::{Crew, Revision, Statements};
use crate::store::{Disk, Logbook, StatementText, StoreFault};
use std::path::Path;

/// Opens a logbook; a damaged crew file is put right first. With `look` that is only told.
pub(super) fn open<D: Disk>(
    disk: &D,
    root: &Path,
    look: bool,
) -> Result<(Books<D>, Option<Mended>), Stopped> {
    all_statements_are_files(disk, root)?;
    let opened = Books::open(disk, root);
    if let Ok(books) = &opened
        && !books.crew.signers().is_empty()
        && books.knows_its_crew()
    {
        return Ok((opened.map_err(Stopped::from)?, None));
    }
    let logbook =
        Logbook::open(disk.clone(), root).map_err(|fault| no_logbook(root, fault.into()))?;
    let opened = opened.map_err(|trouble| missing(&logbook, root, trouble));
    let Some(force) = in_force(&logbook)? else {
        return Ok((opened?, None));
    };
    let place = logbook.crew();
    let held = if logbook.is_file(&place)? {
        Some(logbook.read_any(&place)?)
    } else if logbook.has(&place)? {
        return Ok((opened?, None));
    } else {
        None
    };
    let whole = force.crew.text().as_bytes();
    let is_read = opened
        .as_ref()
        .is_ok_and(|books| !books.crew.signers().is_empty());
    let Some(fault) = damage(held.as_deref(), whole, is_read) else {
        return Ok((opened?, None));
    };
    let mut kept = Vec::new();
    if let Some(bytes) = &held {
        let why = Why::Healed(vec![fault.to_owned()]);
        kept.push(logbook.aside(&crate::record::Digest::of(bytes)));
        if !look {
            let text = format!("{}\n\n{why}.\n{}\n", place.display(), why.next_step());
            logbook.set_aside(bytes, &text)?;
        }
    }
    if !look {
        logbook.replace_crew(whole)?;
    }
    let mended = Mended::Healed {
        what: format!("crew file {} by {}", force.change.number, force.by),
        path: place,
        faults: vec![fault.to_owned()],
        kept,
    };
    let books = Books::by(logbook, force.crew).map_err(Stopped::from)?;
    Ok((books, Some(mended)))
}

/// Refuses to merge while a statement here cannot be read because something else has its place: it may
/// say who may no longer sign, or which trips were pruned.
fn all_statements_are_files<D: Disk>(disk: &D, root: &Path) -> Result<(), Stopped> {
    let Ok(logbook) = Logbook::open(disk.clone(), root) else {
        return Ok(());
    };
    for folder in logbook.statements()? {
        if let Some(path) = logbook.no_file_of(&folder)? {
            let sentence = format!(
                "Nothing was merged: {} is no file, and a file of what a manager stated has its \
                 place there. {}",
                path.display(),
                move_it_away(&path)
            );
            let status = Status::Store;
            return Err(Stopped { status, sentence });
        }
    }
    Ok(())
}

/// What is wrong with the bytes here; nothing where they are a crew file of their own.
fn damage(held: Option<&[u8]>, whole: &[u8], is_read: bool) -> Option<&'static str> {
    let Some(held) = held else {
        return Some("it was missing");
    };
    if is_read && !is_damaged_copy(held, whole) {
        return None;
    }
    Some(if held.is_empty() {
        "there was nothing in it"
    } else if held.starts_with(b"\xef\xbb\xbf") {
        "a byte order mark had been put in front of it"
    } else if held.windows(2).any(|two| two == b"\r\n") {
        "its line ends had been changed on the way"
    } else if whole.starts_with(held) {
        "its end was missing"
    } else if held.contains(&0) {
        "a part of it had never been written"
    } else {
        "bytes of it had been changed"
    })
}

/// The crew file in force by what managers stated here.
fn in_force<D: Disk>(logbook: &Logbook<D>) -> Result<Option<Revision>, StoreFault> {
    let mut texts = Vec::new();
    for folder in logbook.statements()? {
        texts.extend(logbook.read_statement(&folder)?);
    }
    let mut crews = texts.iter().filter_map(|text| text.crew.as_deref());
    let Some(first) = crews.find_map(|bytes| Crew::read(bytes).ok()) else {
        return Ok(None);
    };
    let files: Vec<_> = texts.iter().map(StatementText::files).collect();
    let statements = Statements::read(&files, mode_of(&first), &[]);
    Ok(statements.roster().in_force().cloned())
}

/// A crew file that is not there is told as everywhere else.
fn missing<D: Disk>(logbook: &Logbook<D>, root: &Path, trouble: Trouble) -> Stopped {
    match crate::cli::clerk::is_founded(logbook.disk(), root) {
        Err(told) => told.into(),
        Ok(_) => trouble.into(),
    }
}
