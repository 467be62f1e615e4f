//! `hames logbook table`: the records as rows, one trip in hand at a time.

mod rows;

use crate::cli::Status;
use crate::cli::args::TableOf;
use crate::cli::clerk::{Plans, TripRead};
use crate::cli::logbook::gather::Gathered;
use crate::cli::logbook::shelf::Failed;
use crate::cli::lot::{Line, Section, lots};
use crate::logbook::table::{Cell, OpenQuestion, Seen, Table};
use crate::record::Id;
use crate::store::StoreFault;
use crate::world::{Machine, World};
use chrono::{DateTime, FixedOffset};
use rows::Rows;
use std::io::{self, Write};
use std::path::PathBuf;

/// How rows are written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Form {
    /// Comma-separated, by RFC 4180, with the names of the columns first.
    Csv,
    /// One JSON object a line.
    Json,
}

impl TableOf {
    const fn table(self) -> Table {
        match self {
            Self::Trips => Table::Trips,
            Self::Steps => Table::Steps,
            Self::Readings => Table::Readings,
            Self::Instruments => Table::Instruments,
            Self::Questions => Table::Questions,
        }
    }
}

/// A table that is wanted, in which form, and where to.
pub(super) type Wanted<'o> = (Table, Form, &'o mut dyn Write);

/// Writes a table.
pub(super) fn table(
    of: TableOf,
    form: Form,
    places: &[PathBuf],
    out: &mut dyn Write,
) -> Result<Status, Failed> {
    let now = Some(Machine::this().now().wall);
    write(vec![(of.table(), form, out)], places, now)?;
    Ok(Status::Fine)
}

/// Goes through the trips twice, once to judge them as `hames verify` does and once for their rows,
/// and writes every table that is wanted. So a row tells what the whole logbook says of its trip, and
/// there is one trip in hand at a time. The clock of whoever asks is one thing known to the marks of
/// clocks.
pub(super) fn write(
    wanted: Vec<Wanted<'_>>,
    places: &[PathBuf],
    now: Option<DateTime<FixedOffset>>,
) -> Result<(), Failed> {
    let asks = wanted.iter().any(|(table, ..)| *table == Table::Questions);
    let begin = |(table, form, out): _| {
        let rows = Rows::begin(Table::columns(table), form, out)?;
        Ok((table, rows))
    };
    let mut tables: Vec<(Table, Rows<'_>)> =
        wanted.into_iter().map(begin).collect::<io::Result<_>>()?;
    let (lots, mut plans) = (lots(places, &[])?, Plans::default());
    let mut gathered = Gathered::default();
    for lot in &lots {
        let section = lot.judge(&mut plans, now)?;
        if section.whole {
            gathered.open.extend(OpenQuestion::all(&lot.statements));
        }
        for line in &section.lines {
            let read = lot.read(&line.folder, line.device.as_ref(), &mut plans);
            if asks {
                let finding = line.finding(&section.judged);
                gathered.take(&line.folder, (read.as_ref(), finding), &lot.statements);
            }
            for (table, rows) in &mut tables {
                rows.all(&of_trip(*table, (line, &section), &read))?;
            }
        }
        gathered.leave_ended(&section.judged);
    }
    let asked = gathered.asked(now);
    for (table, mut rows) in tables {
        if table == Table::Questions {
            rows.all(&asked.rows())?;
        }
        rows.end()?;
    }
    Ok(())
}

/// The rows of one trip. One that cannot be read at all has its row among the trips and no other.
fn of_trip(
    table: Table,
    (line, section): (&Line, &Section<'_>),
    read: &Result<TripRead, StoreFault>,
) -> Vec<Vec<Cell>> {
    let seen = Seen {
        finding: line.finding(&section.judged),
        faults: line.told(&section.judged).len(),
        clock_marks: section.marks_of(line).count(),
        device: line.device.as_ref().map_or("", Id::as_str),
        number: line.folder.seq,
        trip: None,
        walk: None,
    };
    match read {
        Ok(read) => table.rows(&Seen {
            trip: read.trip(),
            walk: read.walk().ok().as_ref(),
            ..seen
        }),
        Err(_) => table.rows(&seen),
    }
}
