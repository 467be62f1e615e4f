//! The one reader of checklist files, format `hames-checklist/1`.
//!
//! What the types cannot hold is told as a fault at its own line and column, all at once. What
//! refers to something else is sought by `names`.

mod limit;
mod names;
mod reading;
mod sighting;
mod step;

use crate::checklist::format::{BRANCH, FORMAT, LIST_FILE, SECTION};
use crate::checklist::{Branch, Checklist, Ending, Haul, Heading, Section, Style};
use crate::document::{Document, Fault, Map, Node, Read};
use crate::rig::HitchKind;
use names::Names;

impl Checklist {
    /// Reads a checklist from its text.
    ///
    /// # Errors
    /// Every fault of the text, in the order of the file.
    pub fn read(text: &str) -> Result<Self, Vec<Fault>> {
        Self::read_document(&Document::parse(text)?)
    }

    /// As [`read`](Self::read), for one who needs the document afterwards.
    pub(crate) fn read_document(document: &Document) -> Result<Self, Vec<Fault>> {
        document.read(checklist)
    }
}

impl Heading {
    /// Reads what stands above the sections of a checklist file, and only that; nothing where it
    /// does not read.
    pub(crate) fn read(text: &str) -> Option<Self> {
        let (head, _) = text.split_once("\nsections:")?;
        let document = Document::parse(head).ok()?;
        document.read(|root| heading(root.shaped(&LIST_FILE)?)).ok()
    }
}

fn heading(map: Map<'_>) -> Read<Heading> {
    let id = map.required("id").and_then(Node::id);
    let title = words(map, "title");
    let revision = map.required("revision").and_then(revision);
    let rigs = filled(map, "rigs", |node| node.choice(&HitchKind::WORDS));
    let haul = map
        .optional("haul")
        .map_or(Ok(Haul::default()), |node| node.choice(&Haul::WORDS));
    Ok(Heading {
        id: id?.to_owned(),
        title: title?,
        revision: revision?,
        rigs: rigs?,
        haul: haul?,
    })
}

fn checklist(root: Node<'_>) -> Read<Checklist> {
    let map = root.shaped(&LIST_FILE)?;
    let mut names = Names::default();
    let format = map.required("format").and_then(format);
    let heading = heading(map);
    let road = flag(map, "road");
    let cautions = filled(map, "cautions", |node| node.sentence().map(str::to_owned));
    let sections = filled(map, "sections", |node| section(node, &mut names));
    let branches = map.optional("branches").map_or(Ok(Vec::new()), |node| {
        node.each(|node| branch(node, &mut names))
    });
    names.settle();
    format?;
    let heading = heading?;
    Ok(Checklist {
        id: heading.id,
        title: heading.title,
        revision: heading.revision,
        rigs: heading.rigs,
        haul: heading.haul,
        road: road?,
        cautions: cautions?,
        sections: sections?,
        branches: branches?,
    })
}

fn format(node: Node<'_>) -> Read<()> {
    if node.text()? == FORMAT {
        return Ok(());
    }
    Err(node.fault(
        "this format is not known here",
        format!("write `format: {FORMAT}`, or use a newer program"),
    ))
}

fn revision(node: Node<'_>) -> Read<u32> {
    let number = node.whole()?;
    u32::try_from(number)
        .ok()
        .filter(|number| *number > 0)
        .ok_or_else(|| {
            node.fault(
                "a revision counts up from 1",
                "write 1 for the first one, and one more with every change",
            )
        })
}

fn section<'d>(node: Node<'d>, names: &mut Names<'d>) -> Read<Section> {
    let map = node.shaped(&SECTION)?;
    let id = map.required("id").and_then(|node| names.section(node));
    let title = words(map, "title");
    let style = map
        .required("style")
        .and_then(|node| node.choice(&Style::WORDS));
    let pause = flag(map, "pause");
    let complete = words(map, "complete");
    let steps = filled(map, "steps", |node| step::step(node, names));
    names.end_section();
    Ok(Section {
        id: id?.to_owned(),
        title: title?,
        style: style?,
        pause: pause?,
        complete: complete?,
        steps: steps?,
    })
}

fn branch<'d>(node: Node<'d>, names: &mut Names<'d>) -> Read<Branch> {
    let map = node.shaped(&BRANCH)?;
    let id = map.required("id").and_then(|node| names.branch(node));
    let found = words(map, "found");
    let now = filled(map, "now", |node| node.sentence().map(str::to_owned));
    let ends = map
        .required("ends")
        .and_then(|node| node.choice(&Ending::WORDS));
    let leaves = limit::leaves(map);
    Ok(Branch {
        id: id?.to_owned(),
        found: found?,
        now: now?,
        ends: ends?,
        leaves: leaves?,
    })
}

/// One line of text that must be there.
fn words(map: Map<'_>, key: &str) -> Read<String> {
    let text = map.required(key).and_then(Node::sentence);
    text.map(str::to_owned)
}

/// `true` or `false`; false where nothing is said.
fn flag(map: Map<'_>, key: &str) -> Read<bool> {
    map.optional(key).map_or(Ok(false), Node::flag)
}

/// A list with at least one entry.
fn filled<'d, T>(map: Map<'d>, key: &str, reader: impl FnMut(Node<'d>) -> Read<T>) -> Read<Vec<T>> {
    let node = map.required(key)?;
    let read = node.each(reader)?;
    if read.is_empty() {
        return Err(node.fault("this list is empty", "write at least one entry"));
    }
    Ok(read)
}
