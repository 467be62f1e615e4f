//! The settings file: YAML in, settings out, or every fault with its place.

mod limits;
mod policies;

use crate::barn::{Call, Choice, Policies, Policy, Settings, TireYears, Units};
use crate::document::{Document, Fault, Node, Read};

/// The mark of the file's format, its first line.
pub const FORMAT: &str = "hames-barn/1";

const KEYS: [&str; 8] = [
    "format",
    "name",
    "units",
    "road-side",
    "call",
    "policies",
    "tires",
    "limits",
];

impl Settings {
    /// Reads a settings file.
    ///
    /// # Errors
    /// Every fault of the file, in its order, each with line, column and a way to mend it.
    pub fn read(text: &str) -> Result<Self, Vec<Fault>> {
        let document = Document::parse(text)?;
        document.read(|root| settings(root, &document))
    }
}

fn settings(root: Node<'_>, document: &Document) -> Read<Settings> {
    let file = root.map(&KEYS)?;
    let format = file.required("format").and_then(format);
    let name = file.required("name").and_then(Node::sentence);
    let units = file
        .required("units")
        .and_then(|node| node.choice(&Units::WORDS));
    let road_side = file
        .required("road-side")
        .and_then(|node| node.choice(&Policy::RoadSide.choices()));
    let call = file.optional("call").map(call).transpose();
    let rulings = file.optional("policies").map(policies::rulings).transpose();
    let tires = file.optional("tires").map(tires).transpose();
    let limits = file
        .optional("limits")
        .map(|node| limits::limits(node, document))
        .transpose();
    format?;
    let rulings = rulings?.unwrap_or_default().into_iter();
    let road_side = Policies::default().choosing(road_side?);
    Ok(Settings {
        name: Some(name?.to_owned()),
        units: units?,
        call: call?,
        policies: rulings.fold(road_side, Policies::ruled),
        tires: tires?.unwrap_or_default(),
        limits: limits?.unwrap_or_default(),
    })
}

fn format(node: Node<'_>) -> Read<()> {
    let written = node.text()?;
    if written == FORMAT {
        return Ok(());
    }
    Err(node.fault(
        format!("“{written}” is not a format of settings this program reads"),
        format!("write `format: {FORMAT}`"),
    ))
}

fn call(node: Node<'_>) -> Read<Call> {
    let map = node.map(&["who", "phone"])?;
    let who = map.required("who").and_then(Node::sentence);
    let phone = map.required("phone");
    // A number in bare digits is taken too, so that no phone number needs quotes.
    let number = phone.and_then(Node::figures);
    let (who, phone, number) = (who?, phone?, number?);
    Call::new(who, number).ok_or_else(|| {
        phone.fault(
            "this is no telephone number that can be dialled",
            "write its digits, with blanks between as you read it out, such as 555 0142",
        )
    })
}

fn tires(node: Node<'_>) -> Read<TireYears> {
    let map = node.map(&["note-years", "stop-years"])?;
    let years = |key| map.required(key).and_then(Node::whole);
    let (from, until) = (years("note-years"), years("stop-years"));
    let (from, until) = (from?, until?);
    TireYears::new(from, until).ok_or_else(|| {
        node.fault(
            format!("a note at {from} years and a stop at {until} do not go together"),
            format!(
                "note before you stop, from one year on, and stop at {} years at the latest, as \
                 tire makers do",
                TireYears::MOST
            ),
        )
    })
}

impl Choice {
    /// The one choice of a map such as `{ tie: bar-first }`, as checklists write it at a step.
    ///
    /// # Errors
    /// When it is not such a map.
    pub fn read(node: Node<'_>) -> Read<Self> {
        let words = Policy::WORDS.map(|(word, _)| word);
        let (policy, node) = node.map(&words)?.only_one_of(&Policy::WORDS)?;
        node.choice(&policy.choices())
    }
}
