//! Every key, once: the table that dispatch, footer, help and the key reference are made from.

mod context;
mod table;

pub use context::Context;
pub use table::TABLE;

use crate::tui::Model;

/// A key of the keyboard, as far as the screens know keys.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Key {
    /// A key that writes a character.
    Char(char),
    /// Return.
    Enter,
    /// Escape.
    Esc,
    /// Rubs out to the left.
    Backspace,
    /// The tabulator.
    Tab,
    /// Arrow up.
    Up,
    /// Arrow down.
    Down,
    /// Arrow left.
    Left,
    /// Arrow right.
    Right,
    /// A page up.
    PageUp,
    /// A page down.
    PageDown,
    /// To the beginning.
    Home,
    /// To the end.
    End,
    /// A function key.
    F(u8),
    /// Any other key, or one with Control or Alt held: bound to nothing.
    Other,
}

/// What a row of the table answers to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Press {
    /// One key.
    One(Key),
    /// The digits 1 to 9.
    Digits,
    /// The letters a to m.
    Letters,
    /// Whatever writes a character.
    Text,
    /// No key of its own: chosen in the list of keys.
    Listed,
}

/// What a person means by a key.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[expect(
    missing_docs,
    reason = "the table beside says what each does, in words"
)]
pub enum Action {
    Help,
    Colours,
    Big,
    Hold,
    Unsure,
    Back,
    Quit,
    Up,
    Down,
    PageUp,
    PageDown,
    Top,
    Bottom,
    Type,
    Erase,
    Submit,
    Pick,
    Choose,
    ChooseWho,
    Begin,
    GoOn,
    CompleteSection,
    Finish,
    PutRight,
    PutOff,
    TakeBack,
    Note,
    Why,
    HandOver,
    End,
    Resume,
    Settle,
    OtherPerson,
    OpenRecord,
    TryRig,
    Matters,
    Less,
    More,
    PutBack,
    PutAllBack,
    OtherView,
    OtherList,
    ToStart,
    RigFilter,
    PersonFilter,
    LeastFilter,
    OpenFilter,
    AskedFilter,
    AllTrips,
    Trends,
    Agree,
    Ask,
    LookFrom,
    Measure,
    Call,
    Learn,
    Again,
    Another,
    Sign,
    OtherStage,
    DoIt,
}

/// One row of the table.
#[derive(Clone, Copy, Debug)]
pub struct Row {
    /// Where it is valid.
    pub contexts: &'static [Context],
    /// What is pressed.
    pub press: Press,
    /// A second key for keyboards that lack the first.
    pub also: Option<Key>,
    /// What it means.
    pub action: Action,
    /// One to three words for the bottom line.
    pub label: &'static str,
    /// What it does, in one sentence.
    pub what: &'static str,
    /// Whether it has a place in the bottom line.
    pub footer: bool,
}

impl Row {
    /// Whether this key belongs to the row.
    pub fn answers_to(&self, key: Key) -> bool {
        self.also == Some(key)
            || match self.press {
                Press::One(own) => own == key,
                Press::Digits => matches!(key, Key::Char('1'..='9')),
                Press::Letters => matches!(key, Key::Char('a'..='m')),
                Press::Text => matches!(key, Key::Char(_)),
                Press::Listed => false,
            }
    }

    /// The name of the key as the bottom line shows it.
    pub fn cap(&self) -> String {
        match self.press {
            Press::One(key) => key.cap(),
            Press::Digits => "1-9".to_owned(),
            Press::Letters => "a-m".to_owned(),
            Press::Text => "text".to_owned(),
            Press::Listed => "here".to_owned(),
        }
    }
}

impl Key {
    /// What is printed on the key.
    pub fn cap(self) -> String {
        match self {
            Self::Char(' ') => "Space".to_owned(),
            Self::Char(letter) => letter.to_string(),
            Self::F(number) => format!("F{number}"),
            Self::PageUp => "PgUp".to_owned(),
            Self::PageDown => "PgDn".to_owned(),
            named => format!("{named:?}"),
        }
    }

    /// The place a digit or letter stands for: `1` and `a` are the first.
    pub(crate) fn place(self) -> Option<usize> {
        let Self::Char(letter) = self else {
            return None;
        };
        let first = if letter.is_ascii_digit() { '1' } else { 'a' };
        let place = u32::from(letter).checked_sub(u32::from(first))?;
        usize::try_from(place).ok()
    }
}

/// The letter or digit of a place in a list, where there is one.
pub(crate) fn letter(place: usize) -> Option<char> {
    ('a'..='m').nth(place)
}

/// The rows that are valid now, in the order of the table.
pub fn live(model: &Model) -> Vec<&'static Row> {
    if model.context() == Context::Help {
        return rows(Context::Help).collect();
    }
    live_below(model)
}

/// The rows that are valid on the screen below the list of keys: what that list shows.
pub(crate) fn live_below(model: &Model) -> Vec<&'static Row> {
    rows(model.context_below())
        .filter(|row| model.offers(row.action))
        .collect()
}

/// The rows of a context.
fn rows(context: Context) -> impl Iterator<Item = &'static Row> {
    TABLE
        .iter()
        .filter(move |row| row.contexts.contains(&context))
}

/// The row this key means now.
pub(crate) fn meant(model: &Model, key: Key) -> Option<&'static Row> {
    live(model).into_iter().find(|row| row.answers_to(key))
}
