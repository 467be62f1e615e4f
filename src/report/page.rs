//! A report laid out for people, before it has any form: parts one below the other.

/// A page.
#[derive(Clone, Debug, PartialEq)]
pub struct Page {
    /// What it is.
    pub title: String,
    /// What whoever reads it must not miss.
    pub warning: Option<String>,
    /// What it is about, line by line.
    pub cover: Vec<String>,
    /// The rig, drawn.
    pub picture: Option<Picture>,
    /// What it tells.
    pub parts: Vec<Part>,
    /// What it can and cannot show, and how it came about.
    pub foot: Vec<String>,
}

/// A drawing that was made elsewhere. Its text has no markup that came from a file.
#[derive(Clone, Debug, PartialEq)]
pub struct Picture {
    /// An SVG element.
    pub svg: String,
    /// What it shows, in words.
    pub told: String,
}

/// One part of a page.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// Its heading.
    pub title: String,
    /// What stands in it.
    pub blocks: Vec<Block>,
}

/// What stands in a part.
#[derive(Clone, Debug, PartialEq)]
pub enum Block {
    /// A paragraph.
    Words(String),
    /// A paragraph that must not be missed.
    Strong(String),
    /// Sentences, each for itself.
    List(Vec<String>),
    /// Short lines, one behind the other where room is dear.
    Run(Vec<String>),
    /// Short lines, side by side where there is room.
    Short(Vec<String>),
    /// Things that are numbered, each with what there is to say of it.
    Items(Vec<Item>),
    /// Rows.
    Table(Table),
    /// The days of a month.
    Days(Days),
    /// Charts with what there is to ask.
    Charts(Vec<Chart>),
    /// Charts with a line each, as small as can be read.
    Small(Vec<Chart>),
}

/// A numbered thing.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// What it is.
    pub head: String,
    /// What there is to say of it.
    pub lines: Vec<String>,
}

/// Rows under heads. The first cell of a row says what the row is of.
#[derive(Clone, Debug, PartialEq)]
pub struct Table {
    /// What it shows.
    pub caption: String,
    /// A head for each column.
    pub heads: Vec<&'static str>,
    /// The rows.
    pub rows: Vec<Row>,
}

/// A row.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// Its cells.
    pub cells: Vec<String>,
    /// Whether it is not as expected. Its cells say so in words as well.
    pub strong: bool,
}

/// The days of a month by weeks, Sunday first, as on the screen.
#[derive(Clone, Debug, PartialEq)]
pub struct Days {
    /// What it shows.
    pub caption: String,
    /// Each week has seven days; nothing stands for one of another month.
    pub weeks: Vec<Vec<Option<DayCell>>>,
}

/// One day.
#[derive(Clone, Debug, PartialEq)]
pub struct DayCell {
    /// Its number.
    pub day: u32,
    /// What there was, in few words; nothing where there was nothing.
    pub lines: Vec<String>,
    /// Whether something was not as expected.
    pub strong: bool,
}

/// A chart with its words, which say all that it shows.
#[derive(Clone, Debug, PartialEq)]
pub struct Chart {
    /// What is followed.
    pub title: String,
    /// What there is to say of it.
    pub told: Vec<String>,
    /// The SVG element; nothing where there is no point to draw.
    pub svg: Option<String>,
    /// The same in lines of letters.
    pub letters: Option<String>,
}

impl Page {
    /// Adds a part, where there is anything in it.
    pub(super) fn part(&mut self, title: &str, blocks: Vec<Block>) {
        if !blocks.is_empty() {
            let title = title.to_owned();
            self.parts.push(Part { title, blocks });
        }
    }
}

/// The sentences as a list, or this sentence where there is none.
pub(super) fn list_or(sentences: &[String], none: &str) -> Block {
    if sentences.is_empty() {
        Block::Words(none.to_owned())
    } else {
        Block::List(sentences.to_vec())
    }
}

/// The first sentences as a list, and how many more there are.
pub(super) fn list_to(sentences: &[String], most: usize) -> Vec<Block> {
    let more = sentences.len().saturating_sub(most);
    let first = list(sentences.get(..most).unwrap_or(sentences)).into_iter();
    let more =
        (more > 0).then(|| Block::Words(format!("And {more} more, in the JSON of this report.")));
    first.chain(more).collect()
}

/// The sentences as a list, where there is any.
pub(super) fn list(sentences: &[String]) -> Option<Block> {
    (!sentences.is_empty()).then(|| Block::List(sentences.to_vec()))
}
