//! The closed lists of words, as the types have them.

use crate::barn::Policy;
use crate::checklist::{Ending, Haul, Style};
use crate::document::{Fit, Word, Words};
use crate::figures::{Each, Fact, Figure};
use crate::rig::{HitchKind, InstrumentKind, Place, ServiceKind};
use crate::rules::{Authority, Carry, Verdict};
use crate::units::{Dimension, Unit};

macro_rules! words {
    ($($name:ident $schema:literal $all:expr;)*) => {
        $(pub(super) static $name: Words = Words { name: $schema, all: || $all };)*
    };
}

words! {
    RIGS "kind-of-rig" Word::bare(&HitchKind::WORDS);
    HAUL "haul" Word::bare(&Haul::WORDS);
    STYLE "style" Word::bare(&Style::WORDS);
    ENDS "ends" Word::bare(&Ending::WORDS);
    PLACE "place" Word::bare(&Place::WORDS);
    EACH "each" Word::bare(&Each::WORDS);
    VERDICT "verdict" Word::bare(&Verdict::WORDS);
    AUTHORITY "authority" Word::bare(&Authority::WORDS);
    INSTRUMENT "instrument" Word::bare(&InstrumentKind::WORDS);
    FACT "fact" Word::bare(&Fact::WORDS);
    SERVICE "service" Word::bare(&ServiceKind::WORDS);
    BAD_VERDICT "limit-verdict" bad_verdicts();
    DIMENSION "dimension" dimensions();
    UNIT "unit" units();
    CARRIED "carried" carried();
    FIGURE "figure" figures();
}

/// What no limit takes is ok, so no limit gives it.
fn bad_verdicts() -> Vec<Word> {
    let bad = |(_, verdict): &(&str, Verdict)| *verdict != Verdict::Ok;
    let bad: Vec<_> = Verdict::WORDS.into_iter().filter(bad).collect();
    Word::bare(&bad)
}

fn dimensions() -> Vec<Word> {
    Word::bare(&Dimension::ALL.map(|dimension| (dimension.word(), ())))
}

fn units() -> Vec<Word> {
    let mut all: Vec<(&'static str, ())> = Vec::new();
    let units = Dimension::ALL.into_iter().flat_map(Dimension::units);
    for spelling in units.flat_map(Unit::spellings) {
        if !all.contains(&(spelling, ())) {
            all.push((spelling, ()));
        }
    }
    Word::bare(&all)
}

fn carried() -> Vec<Word> {
    let word = |(word, carry): (&'static str, Carry)| Word {
        word,
        means: carry.told().to_owned(),
    };
    Carry::WORDS.into_iter().map(word).collect()
}

/// Every figure with what it is, what it measures, and which part it belongs to.
fn figures() -> Vec<Word> {
    let word = |figure: Figure| {
        let each = figure.each();
        let each = each.map(|each| format!(", of each {}", each.word()));
        Word {
            word: figure.word(),
            means: format!(
                "{}; {}{}",
                figure.label(),
                figure.dimension().word(),
                each.unwrap_or_default()
            ),
        }
    };
    Figure::ALL.into_iter().map(word).collect()
}

/// Each policy with its choices.
pub(super) fn policies() -> Vec<(&'static str, Vec<Word>)> {
    let policy = |(word, policy): (&'static str, Policy)| {
        let choice = |(word, choice): (&'static str, crate::barn::Choice)| Word {
            word,
            means: choice.means().to_owned(),
        };
        (word, policy.choices().into_iter().map(choice).collect())
    };
    Policy::WORDS.into_iter().map(policy).collect()
}

/// The units, instruments and facts of each dimension.
pub(super) fn of_dimension() -> Vec<Fit> {
    let fits = |dimension: Dimension| {
        let fit = |other, words| Fit {
            key: "dimension",
            is: dimension.word(),
            other,
            words,
        };
        let measures = |(_, kind): &(&str, InstrumentKind)| kind.measures().contains(&dimension);
        let instruments = InstrumentKind::WORDS.into_iter().filter(measures);
        let facts = Fact::WORDS.into_iter();
        let facts = facts.filter(|(_, fact)| fact.dimension() == dimension);
        [
            fit(
                "unit",
                dimension.units().flat_map(Unit::spellings).collect(),
            ),
            fit("instrument", instruments.map(|(word, _)| word).collect()),
            fit("tells", facts.map(|(word, _)| word).collect()),
        ]
    };
    Dimension::ALL.into_iter().flat_map(fits).collect()
}
