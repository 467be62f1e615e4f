//! The bytes of an export on their way out, into a folder or an archive, and read back.

use super::contents::{Content, From};
use super::explain::{self, Example};
use crate::cli::logbook::shelf::Failed;
use crate::cli::logbook::table::{self, Form, Wanted};
use crate::logbook::table::Table;
use crate::record::Digest;
use crate::store::{Disk, Doing, Local, Logbook, NewFile, NewFolder, StoreFault};
use std::collections::BTreeMap;
use std::io::{self, Read};
use std::path::Path;

/// The folder everything lies in, inside an archive.
const INSIDE: &str = "hames-export";

/// Names and hashes, as `sha256sum` writes and checks them.
const SUMS: &str = "SHA256SUMS";

/// What became of an export.
#[derive(Debug, Default)]
pub(super) struct Sent {
    /// How many files are in it.
    pub(super) files: usize,
    /// What could not be read, and why.
    pub(super) lost: Vec<String>,
    /// A file that reads otherwise than it was written.
    pub(super) other: Option<String>,
}

/// What is made for an export, beside what is copied.
pub(super) struct Made<'p> {
    /// Files, by their places.
    pub(super) files: Vec<(String, Vec<u8>)>,
    /// What could not be made, and why.
    pub(super) lost: Vec<String>,
    /// The page for whoever gets it.
    pub(super) page: &'p dyn Fn(&Example) -> String,
}

/// Where files go.
trait Goes {
    fn put(&mut self, at: &str, bytes: &[u8]) -> Result<(), Failed>;
}

/// Into a folder that is not there yet, or empty.
pub(super) fn to_folder(to: &Path, contents: &[Content], made: Made<'_>) -> Result<Sent, Failed> {
    let mut folder = NewFolder::begin(Local, to)?;
    let (mut sent, sums) = send(contents, made, &mut folder)?;
    for (at, sum) in &sums {
        let path = to.join(at);
        let back = Local.read(&path, usize::MAX);
        let back = back.map_err(StoreFault::of_reading(&path, usize::MAX))?;
        if Digest::of(&back) != *sum {
            sent.other = Some(path.display().to_string());
        }
    }
    Ok(sent)
}

/// Into one file that is not there yet. Names, times and owners are fixed, so that the same
/// logbook gives the same bytes.
pub(super) fn to_archive(to: &Path, contents: &[Content], made: Made<'_>) -> Result<Sent, Failed> {
    let file = NewFile::begin(Local, to)?;
    let mut archive = Archive {
        builder: tar::Builder::new(file),
        to,
    };
    let (mut sent, sums) = send(contents, made, &mut archive)?;
    let file = archive.builder.into_inner().map_err(refused(to))?;
    file.end()?;
    sent.other = read_back(to, &sums).map_err(refused(to))?;
    Ok(sent)
}

/// What lies in an archive otherwise than it was written, or not at all.
fn read_back(to: &Path, sums: &BTreeMap<String, Digest>) -> io::Result<Option<String>> {
    let mut left: Vec<&String> = sums.keys().collect();
    let mut archive = tar::Archive::new(Local.stream(to)?);
    for entry in archive.entries()? {
        let mut entry = entry?;
        let path = entry.path()?.to_string_lossy().into_owned();
        let mut bytes = Vec::new();
        entry.read_to_end(&mut bytes)?;
        let at = path
            .strip_prefix(INSIDE)
            .and_then(|at| at.strip_prefix('/'));
        let at = at.unwrap_or_default();
        if sums.get(at) != Some(&Digest::of(&bytes)) {
            return Ok(Some(path));
        }
        left.retain(|one| *one != at);
    }
    Ok(left.first().map(|at| format!("{INSIDE}/{at}")))
}

/// The hash of each file that was sent.
type Sums = BTreeMap<String, Digest>;

fn send(contents: &[Content], made: Made<'_>, goes: &mut dyn Goes) -> Result<(Sent, Sums), Failed> {
    let (mut sent, mut sums) = (Sent::default(), Sums::new());
    sent.lost = made.lost;
    let mut put = |at: &str, bytes: &[u8], sums: &mut Sums| {
        sums.insert(at.to_owned(), Digest::of(bytes));
        goes.put(at, bytes)
    };
    let mut example = Example::default();
    for content in contents {
        let at = &content.at;
        match &content.from {
            From::Text(text) => put(at, text.as_bytes(), &mut sums)?,
            From::Logbook(path, most) => match Local.read(path, *most) {
                Ok(bytes) => {
                    example.take(at, &bytes);
                    put(at, &bytes, &mut sums)?;
                }
                Err(error) => {
                    let fault = StoreFault::of_reading(path, *most)(error);
                    sent.lost.push(fault.to_string());
                }
            },
        }
    }
    for (at, bytes) in made.files {
        put(&at, &bytes, &mut sums)?;
    }
    let page = (made.page)(&example);
    put(explain::NAME, page.as_bytes(), &mut sums)?;
    let lines = sums.iter().map(|(at, sum)| format!("{sum}  {at}\n"));
    let lines: String = lines.collect();
    put(SUMS, lines.as_bytes(), &mut sums)?;
    sent.files = sums.len();
    Ok((sent, sums))
}

/// What goes along with a whole logbook.
pub(super) fn whole(logbook: &Logbook<Local>) -> Result<Made<'static>, Failed> {
    let (files, lost) = match tables(logbook) {
        Ok(tables) => (tables, Vec::new()),
        Err(Failed::Said(_, why)) => (Vec::new(), vec![format!("the tables; {why}")]),
        Err(other) => return Err(other),
    };
    Ok(Made {
        files,
        lost,
        page: &Example::text,
    })
}

/// Every table in both forms, by its place. The clock of whoever exports is left out of it, so that
/// the same logbook gives the same tables.
fn tables(logbook: &Logbook<Local>) -> Result<Vec<(String, Vec<u8>)>, Failed> {
    let forms = [("csv", Form::Csv), ("jsonl", Form::Json)];
    let all = Table::WORDS.into_iter().flat_map(|(word, table)| {
        forms.map(|(ending, form)| (format!("tables/{word}.{ending}"), table, form))
    });
    let all: Vec<(String, Table, Form)> = all.collect();
    let mut bytes: Vec<Vec<u8>> = vec![Vec::new(); all.len()];
    let wanted: Vec<Wanted<'_>> = all
        .iter()
        .zip(&mut bytes)
        .map(|((_, table, form), bytes)| -> Wanted<'_> { (*table, *form, bytes) })
        .collect();
    table::write(wanted, &[logbook.root().to_owned()], None)?;
    let places = all.into_iter().map(|(at, ..)| at);
    Ok(places.zip(bytes).collect())
}

impl Goes for NewFolder<Local> {
    fn put(&mut self, at: &str, bytes: &[u8]) -> Result<(), Failed> {
        Ok(NewFolder::put(self, at, bytes)?)
    }
}

struct Archive<'a> {
    builder: tar::Builder<NewFile<Local>>,
    to: &'a Path,
}

impl Goes for Archive<'_> {
    fn put(&mut self, at: &str, bytes: &[u8]) -> Result<(), Failed> {
        let mut header = tar::Header::new_ustar();
        let size = u64::try_from(bytes.len()).unwrap_or(u64::MAX);
        header.set_size(size);
        header.set_mode(0o644);
        header.set_mtime(0);
        let path = format!("{INSIDE}/{at}");
        let put = self.builder.append_data(&mut header, path, bytes);
        put.map_err(refused(self.to))
    }
}

/// What the disk said of an archive.
fn refused<P: AsRef<Path> + ?Sized>(path: &P) -> impl Fn(io::Error) -> Failed {
    let path = path.as_ref().to_owned();
    move |error| StoreFault::of(Doing::Write, &path)(error).into()
}
