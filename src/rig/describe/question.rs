//! What is asked of this rig, with every place named.

use crate::document::Tree;
use crate::rig::describe::draft::Draft;
use crate::rig::describe::{Ask, CHAPTERS, Chapter, Field, Over, Section, When, choices};

/// A question about one value of this rig.
#[derive(Clone, Debug)]
pub struct Question {
    /// Where the answer goes: `trailer.axles[1].gawr`.
    pub path: String,
    /// The part it belongs to, as a heading: `An axle, the second`.
    pub title: String,
    /// What is asked.
    pub field: &'static Field,
    /// The words to choose from by number, each with what it means.
    pub choices: Vec<(String, String)>,
    /// What stands there now.
    pub now: Option<String>,
    /// The part that is left out with it, where it opens one.
    pub(super) opens: Option<String>,
    /// The part it belongs to, where that may be left out as a whole.
    pub(super) inside: Option<String>,
    /// What follows when it is left out.
    pub(super) without: Option<&'static str>,
}

/// Which axle, chain or thing of a list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Place {
    Only,
    Side(&'static str),
    At(usize),
}

impl Question {
    /// What tells it from every other question, also from one about the same path.
    pub(super) fn id(&self) -> String {
        match self.field.ask {
            Ask::More(_) => format!("{}, more", self.path),
            _ => self.path.clone(),
        }
    }

    /// Whether a file without it can be walked.
    pub fn may_be_left_out(&self) -> bool {
        self.without.is_some()
    }

    /// Whether it belongs to a part that means nothing without it.
    pub fn is_inside_a_part(&self) -> bool {
        self.inside.is_some()
    }

    /// A choice by the word of its number; anything else as typed.
    pub fn word(&self, typed: &str) -> String {
        let choice = self.choice(typed).map(|(word, _)| word.clone());
        choice.unwrap_or_else(|| typed.to_owned())
    }

    /// A choice by its number, or by its word.
    pub(super) fn choice(&self, typed: &str) -> Option<&(String, String)> {
        let by_number = typed
            .parse::<usize>()
            .ok()
            .and_then(|number| self.choices.get(number.checked_sub(1)?));
        by_number.or_else(|| self.choices.iter().find(|(word, _)| word == typed))
    }

    /// Whether the file has the answer, all of it.
    pub(super) fn is_answered(&self, draft: &Draft) -> bool {
        let there = draft.at(&self.path);
        match self.field.ask {
            Ask::Joint => there.is_some_and(|joint| joint.keys().next().is_some()),
            Ask::Axles => there.and_then(Tree::count).is_some_and(|count| count > 0),
            Ask::Like(_) => there.is_some_and(|part| part.keys().next().is_some()),
            Ask::More(_) => false,
            Ask::Tools => there.is_some(),
            ask => there.is_some_and(|value| {
                let keys = ask.keys();
                keys.iter().all(|key| value.at(key).is_some())
                    && (!keys.is_empty() || is_whole(value))
            }),
        }
    }
}

fn is_whole(value: &Tree) -> bool {
    value.scalar().is_some() || value.keys().next().is_some()
}

/// Every question of this rig, in order. `opened` tells whether a part that may be left out is
/// asked about beyond its first question.
pub(super) fn questions(draft: &Draft, opened: &dyn Fn(&Question) -> bool) -> Vec<Question> {
    let mut all = Vec::new();
    for chapter in CHAPTERS {
        for place in places(chapter, draft) {
            for section in chapter.sections {
                all.extend(of_section(section, place, draft, opened));
            }
        }
    }
    all
}

fn places(chapter: &Chapter, draft: &Draft) -> Vec<Place> {
    let of_list = |path: &str| {
        let count = draft.at(path).and_then(Tree::count).unwrap_or(0);
        (0..count).map(Place::At).collect()
    };
    match chapter.over {
        Over::One => vec![Place::Only],
        Over::Sides => vec![Place::Side("left"), Place::Side("right")],
        Over::Axles => of_list("trailer.axles"),
        Over::Each(list) => of_list(list.at),
    }
}

fn of_section(
    section: &'static Section,
    place: Place,
    draft: &Draft,
    opened: &dyn Fn(&Question) -> bool,
) -> Vec<Question> {
    if !place.holds(section.when, draft) {
        return Vec::new();
    }
    let mut asked = Vec::new();
    for field in section.fields {
        if !place.holds(field.when, draft) {
            continue;
        }
        let question = question(section, field, place, draft);
        let closed = question.opens.is_some() && !opened(&question);
        asked.push(question);
        if closed {
            break;
        }
    }
    asked
}

fn question(
    section: &'static Section,
    field: &'static Field,
    place: Place,
    draft: &Draft,
) -> Question {
    let part = section.without.map(|_| place.named(section.at));
    let opens = section.is_opened_by(field);
    let path = place.named(&section.path(field));
    let now = draft.at(&path).and_then(shown);
    Question {
        title: place.title(section.title),
        choices: offered(field.ask, draft),
        now,
        opens: part.clone().filter(|_| opens),
        inside: part.filter(|_| !opens),
        without: match field.need {
            _ if opens => section.without,
            super::Need::May(follows) => Some(follows),
            super::Need::Must => None,
        },
        path,
        field,
    }
}

/// The words of a closed list, or the stalls there are.
fn offered(ask: Ask, draft: &Draft) -> Vec<(String, String)> {
    let words: &[(&str, &str)] = match ask {
        Ask::Word(words) => words,
        Ask::Joint => choices::JOINT,
        Ask::Like(_) => choices::LIKE,
        Ask::Tools => choices::TOOLS,
        Ask::Stall => return stalls(draft),
        _ => &[],
    };
    let own = words
        .iter()
        .map(|(word, meaning)| ((*word).to_owned(), (*meaning).to_owned()));
    own.collect()
}

fn stalls(draft: &Draft) -> Vec<(String, String)> {
    let Some(Tree::List(stalls)) = draft.at("trailer.stalls") else {
        return Vec::new();
    };
    let word = |stall: &Tree, key: &str| {
        let word = stall.at(key).and_then(Tree::scalar);
        word.unwrap_or_default().to_owned()
    };
    stalls
        .iter()
        .map(|stall| (word(stall, "id"), word(stall, "name")))
        .collect()
}

/// What stands at a place of the file, in a line.
fn shown(value: &Tree) -> Option<String> {
    match value {
        Tree::Text(text) | Tree::Bare(text) => Some(text.clone()),
        Tree::List(values) => {
            let values: Vec<String> = values.iter().filter_map(shown).collect();
            (!values.is_empty()).then(|| values.join("; "))
        }
        Tree::Map(entries) => {
            let values: Vec<String> = entries
                .iter()
                .filter_map(|(_, value)| shown(value))
                .collect();
            (!values.is_empty()).then(|| values.join(", "))
        }
    }
}

impl Place {
    fn named(self, path: &str) -> String {
        match self {
            Self::Only => path.to_owned(),
            Self::Side(side) => path.replacen('*', side, 1),
            Self::At(index) => path.replacen("[]", &format!("[{index}]"), 1),
        }
    }

    fn holds(self, conditions: &[When], draft: &Draft) -> bool {
        conditions.iter().all(|condition| match condition {
            When::Has(path) => draft.at(&self.named(path)).is_some(),
            When::Lacks(path) => draft.at(&self.named(path)).is_none(),
            When::Is(path, word) => draft.word(&self.named(path)) == Some(word),
            When::Later => !matches!(self, Self::At(0) | Self::Side("left")),
        })
    }

    fn title(self, title: &str) -> String {
        match self {
            Self::Only => title.to_owned(),
            Self::Side(side) => format!("{title}, {side}"),
            Self::At(index) => format!("{title}, number {}", index + 1),
        }
    }
}
