//! The rig file: YAML in, a described rig out, or every fault with its place.
//!
//! The keys are the names of the types' fields. Each value says what it is, by which evidence and
//! where that stands: `{ is: 7000 lb, by: plate, at: left wall }`. What no rig can be is refused
//! here, once, so that a [`Rig`] in hand needs no second look.

mod axle;
mod backups;
mod chains;
mod day;
mod instrument;
mod joint;
mod load;
mod part;
mod service;
mod tire;
mod trailer;
mod truck;
mod wheel;

use crate::document::{Document, Fault, Node, Read};
use crate::rig::Rig;
use crate::rig::yaml::part::Part;

/// The mark of the file's format, its first line.
const FORMAT: &str = "hames-rig/1";

impl Rig {
    /// Reads a rig file.
    ///
    /// # Errors
    /// Every fault of the file, in its order, each with line, column and a way to mend it. What
    /// two parts contradict each other in is told once both can be read.
    pub fn read(text: &str) -> Result<Self, Vec<Fault>> {
        Document::parse(text)?.read(rig)
    }
}

fn rig(root: Node<'_>) -> Read<Rig> {
    let file = Part::open(
        root,
        &[
            "format",
            "id",
            "name",
            "truck",
            "hitch",
            "trailer",
            "load",
            "instruments",
            "service",
            "papers",
        ],
    )?;
    let format = format(file);
    let id = file.required("id").and_then(Node::id);
    let name = file.words("name");
    let hitch_part = file.part("hitch", joint::HITCH_KEYS);
    let kind = hitch_part.ok().and_then(joint::kind);
    let truck = file
        .part("truck", truck::KEYS)
        .and_then(|part| truck::truck(part, kind));
    let hitch = hitch_part.and_then(joint::hitch);
    let trailer_part = file.part("trailer", trailer::KEYS);
    let stalls = trailer_part.and_then(trailer::stalls);
    let load = file
        .required("load")
        .and_then(|list| load::load(list, &stalls));
    let trailer = trailer_part.and_then(|part| trailer::trailer(part, stalls, hitch.as_ref().ok()));
    let instruments = file
        .required("instruments")
        .and_then(instrument::instruments);
    let services = file.optional("service").map(service::services).transpose();
    let papers = file.optional("papers").map(service::papers).transpose();
    format?;
    Ok(Rig {
        id: id?.to_owned(),
        name: name?,
        truck: truck?,
        hitch: hitch?,
        trailer: trailer?,
        load: load?,
        instruments: instruments?,
        services: services?.unwrap_or_default(),
        papers: papers?.unwrap_or_default(),
    })
}

fn format(file: Part<'_>) -> Read<()> {
    let node = file.required("format")?;
    let written = node.text()?;
    if written == FORMAT {
        return Ok(());
    }
    Err(node.fault(
        format!("“{written}” is not a rig format this program reads"),
        format!("write `format: {FORMAT}`"),
    ))
}
