//! What the keys of a drill do. What is an act of the walk is done as on any walk.

use crate::desk::{AskedDrill, Errand, WhichDrill};
use crate::drill::Doing;
use crate::rules::Verdict;
use crate::tui::drill::Drilling;
use crate::tui::keys::Key;
use crate::tui::model::Screen;
use crate::tui::seal::Sealing;
use crate::tui::walk::{Done, Walking};
use crate::tui::{Action, Context, Model};
use crate::walk::Words;

/// The word shown while a drill is laid out.
pub(in crate::tui) const THROWING: &str = "throwing the dice of a drill";

/// Does what a key means once a drill has ended; nothing of any other key.
pub(in crate::tui) fn act(model: &mut Model, action: Action) -> Option<Vec<Errand>> {
    let Screen::Walk(walking) = &model.screen else {
        return None;
    };
    let drilling = walking.drill.as_deref()?;
    match action {
        Action::Again => {
            let asked = drilling.again();
            model.busy = Some(THROWING);
            Some(vec![Errand::BeginDrill(asked)])
        }
        Action::Another => {
            let asked = drilling.another();
            model.busy = Some(THROWING);
            Some(vec![Errand::BeginDrill(asked)])
        }
        Action::Sign => {
            model.screen = Screen::Seal(Box::new(Sealing::new(walking)));
            Some(Vec::new())
        }
        _ => None,
    }
}

/// What is said of a drill that is left before its end.
pub(in crate::tui) fn left(model: &Model) -> Option<String> {
    let Screen::Walk(walking) = &model.screen else {
        return None;
    };
    let drilling = walking.drill.as_deref()?;
    let lost = drilling.trip.is_none() && walking.walk.ended().is_none();
    lost.then(|| "The drill is left. Nothing of it was recorded.".to_owned())
}

impl Drilling {
    /// The same drill, to the last digit of each reading.
    fn again(&self) -> AskedDrill {
        let drill = self.run.drill();
        AskedDrill {
            which: WhichDrill::Named(drill.scenario.id.clone()),
            learner: self.learner(),
            stage: Some(self.run.stage()),
            seed: Some(drill.seed),
        }
    }

    /// Any other, by the dice.
    fn another(&self) -> AskedDrill {
        AskedDrill {
            which: WhichDrill::Any,
            learner: self.learner(),
            stage: Some(self.run.stage()),
            seed: None,
        }
    }

    /// Who learns, where it is recorded.
    fn learner(&self) -> String {
        let name = || self.run.walk().reader().as_str().to_owned();
        self.trip.as_ref().map_or_else(String::new, |_| name())
    }
}

impl Walking {
    /// Does what a key means in a drill; nothing of what is no drill's.
    pub(in crate::tui) fn drill_act(&mut self, action: Action, key: Key) -> Option<Done> {
        let context = self.context();
        let doing = match action {
            Action::LookFrom => self.look_from(key),
            Action::DoIt => {
                let drilling = self.drill.as_deref()?;
                let doing = drilling.watched()?.doing;
                if let Doing::Walk(act) = doing {
                    return Some(Done::Act(act));
                }
                Some(doing)
            }
            Action::Measure => self.instrument.clone().map(Doing::Use),
            Action::Call => call(key),
            Action::Pick if context == Context::Returning => self.return_to(key),
            Action::GoOn if context == Context::Measuring => return self.types(true),
            // Back from the field to the instrument, and from there to which.
            Action::Back | Action::Erase if self.is_typing_nothing(action) => {
                return self.types(false);
            }
            Action::Back if context == Context::Measuring => {
                if self.tools().len() > 1 {
                    self.instrument = None;
                } else {
                    self.second = None;
                }
                return Some(Done::Nothing);
            }
            _ => return None,
        };
        let Some(doing) = doing else {
            return Some(Done::Said(self.context().hint().to_owned()));
        };
        self.asks_of_drill(&doing);
        Some(Done::Doing(doing))
    }

    /// Hands in the line for the next time.
    pub(in crate::tui) fn learn(&mut self, words: &str) -> Done {
        match Words::read(words) {
            Ok(words) => {
                let doing = Doing::Learn(words);
                self.asks_of_drill(&doing);
                Done::Doing(doing)
            }
            Err(not) => Done::Said(format!("{not}.")),
        }
    }

    /// Keeps what is asked, until it is done.
    pub(in crate::tui) fn asks_of_drill(&mut self, doing: &Doing) {
        if let Some(drilling) = &mut self.drill {
            drilling.asked = Some(doing.clone());
        }
    }

    fn look_from(&self, key: Key) -> Option<Doing> {
        let places = self.places();
        key.place()
            .and_then(|place| places.get(place))
            .copied()
            .map(Doing::Look)
    }

    fn return_to(&self, key: Key) -> Option<Doing> {
        let steps = self.may_return_to();
        key.place()
            .and_then(|place| steps.get(place))
            .cloned()
            .map(Doing::Return)
    }

    /// Whether a key goes back from the field of a reading: Escape does, and so does rubbing out
    /// where nothing is typed.
    fn is_typing_nothing(&self, action: Action) -> bool {
        self.drill.is_some()
            && self.context() == Context::Reading
            && (action == Action::Back || self.field.is_empty())
    }

    /// Goes to the field of a reading, or back to the instrument.
    fn types(&mut self, typing: bool) -> Option<Done> {
        self.drill.as_mut()?.typing = typing;
        Some(Done::Nothing)
    }
}

/// The verdict of a digit, in the order they are listed.
fn call(key: Key) -> Option<Doing> {
    let (_, verdict) = Verdict::WORDS.get(key.place()?)?;
    Some(Doing::Call(*verdict))
}
