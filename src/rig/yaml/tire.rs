//! Tires in the rig file: the sidewall, the maker's table and how they were filled.

use crate::document::{Node, Read};
use crate::rig::yaml::part::{Part, exceeds, positive};
use crate::rig::{DateCode, Given, LoadTable, TableRow, Tire, TireSet};
use crate::units::Dimension::{Length, Mass, Pressure, SpringRate, Temperature};
use std::cmp::Ordering;

const KEYS: &[&str] = &[
    "size",
    "load-range",
    "max-load",
    "max-pressure",
    "cold",
    "table",
    "set",
    "made",
    "load-index",
    "speed",
    "radius",
    "spring-rate",
];

/// The highest load index there is: ISO 4223-1, from memory.
const LAST_INDEX: u16 = 279;

pub(super) fn tire(node: Node<'_>) -> Read<Tire> {
    let part = Part::open(node, KEYS)?;
    let size = part.words("size");
    let load_range = part.words("load-range");
    let max_load = part.positive("max-load", Mass);
    let max_pressure = part.positive("max-pressure", Pressure);
    let cold = part.positive("cold", Pressure);
    let table = part.optional("table").map(table).transpose();
    let set = part.optional("set").map(set).transpose();
    let made = part.optional("made").map(made).transpose();
    let load_index = part.optional("load-index").map(load_index).transpose();
    let speed = part.optional("speed").map(speed).transpose();
    let radius = part.positive_if_any("radius", Length);
    let spring_rate = part.positive_if_any("spring-rate", SpringRate);
    if exceeds(&cold, &max_pressure) {
        part.tell(
            "cold",
            "the cold pressure asked for is above what the sidewall allows",
            "read placard and sidewall again; the sidewall's pressure is the most",
        );
    }
    Ok(Tire {
        size: size?,
        load_range: load_range?,
        max_load: max_load?,
        max_pressure: max_pressure?,
        cold: cold?,
        table: table?,
        set: set?,
        made: made?,
        load_index: load_index?,
        speed: speed?,
        radius: radius?,
        spring_rate: spring_rate?,
    })
}

/// Rows of pressure and load. Between two of them a load can be reckoned, so there are two.
fn table(node: Node<'_>) -> Read<LoadTable> {
    let part = Part::open(node, &["rows", "by", "at"])?;
    let list = part.required("rows");
    let rows = list.and_then(|list| list.each(row));
    let source = part.source();
    let (list, rows) = (list?.list()?, rows?);
    if rows.len() < 2 {
        part.tell(
            "rows",
            "a table has two rows or more",
            "copy the rows of this size from the maker's table, or take `table` out",
        );
    }
    for (node, pair) in list.iter().skip(1).zip(rows.windows(2)) {
        let [lower, upper] = pair else { continue };
        let rises = upper.pressure.compare(&lower.pressure) == Some(Ordering::Greater)
            && upper.load.compare(&lower.load) == Some(Ordering::Greater);
        if !rises {
            node.fault(
                format!(
                    "this row says {} at {}, and the one before it {} at {}",
                    upper.load, upper.pressure, lower.load, lower.pressure
                ),
                "list the rows with pressure and load rising, as the maker's table has them",
            );
        }
    }
    Ok(LoadTable {
        rows,
        source: source?,
    })
}

fn row(node: Node<'_>) -> Read<TableRow> {
    let part = Part::open(node, &["pressure", "load"])?;
    let pressure = part
        .required("pressure")
        .and_then(|node| positive(node, Pressure));
    let load = part.required("load").and_then(|node| positive(node, Mass));
    Ok(TableRow {
        pressure: pressure?,
        load: load?,
    })
}

/// How the tire was filled. The values share their evidence.
fn set(node: Node<'_>) -> Read<TireSet> {
    let part = Part::open(node, &["pressure", "air", "altitude", "by", "at"])?;
    let pressure = part
        .required("pressure")
        .and_then(|node| positive(node, Pressure));
    let air = part
        .required("air")
        .and_then(|node| node.quantity(Temperature));
    let altitude = part
        .optional("altitude")
        .map(|node| node.quantity(Length))
        .transpose();
    let source = part.source()?;
    let of = |quantity| Given {
        quantity,
        source: source.clone(),
    };
    Ok(TireSet {
        pressure: of(pressure?),
        air: of(air?),
        altitude: altitude?.map(of),
    })
}

fn made(node: Node<'_>) -> Read<DateCode> {
    let figures = node.figures()?;
    DateCode::read(figures).ok_or_else(|| {
        node.fault(
            format!("“{figures}” is not the date on a sidewall"),
            "write the last four figures in the oval behind DOT, week and year, such as 3419",
        )
    })
}

fn load_index(node: Node<'_>) -> Read<u16> {
    let index = node.whole()?;
    u16::try_from(index)
        .ok()
        .filter(|index| *index <= LAST_INDEX)
        .ok_or_else(|| {
            node.fault(
                format!("{index} is not a load index: they run from 0 to {LAST_INDEX}"),
                "read the figures behind the size on the sidewall, such as 117",
            )
        })
}

fn speed(node: Node<'_>) -> Read<char> {
    let written = node.text()?;
    let mut letters = written.chars();
    match (letters.next(), letters.next()) {
        (Some(letter), None) if letter.is_ascii_uppercase() => Ok(letter),
        _ => Err(node.fault(
            format!("“{written}” is not a speed symbol"),
            "write the capital letter behind the load index on the sidewall, such as N",
        )),
    }
}
