//! What the keys of a walk do: each ends in one act for the machine, or in nothing recorded.

use crate::checklist::{PlannedAsk, PlannedStep};
use crate::desk::Errand;
use crate::drill::Doing;
use crate::tui::drill;
use crate::tui::field::Field;
use crate::tui::keys::Key;
use crate::tui::model::Screen;
use crate::tui::view::{most_scroll, rows};
use crate::tui::walk::ending::end_as;
use crate::tui::walk::{Panel, Purpose, Walking};
use crate::tui::{Action, Context, Model};
use crate::walk::{Act, Ended, Now};

/// Does what a key means on a walk.
pub(in crate::tui) fn act(model: &mut Model, action: Action, key: Key) -> Vec<Errand> {
    let (page, end) = (rows(model).saturating_sub(1), most_scroll(model));
    let names: Vec<String> = model.crew().iter().map(|card| card.name.clone()).collect();
    if let Some(asked) = drill::act(model, action) {
        return asked;
    }
    let Screen::Walk(walking) = &mut model.screen else {
        return Vec::new();
    };
    if matches!(
        walking.context(),
        Context::Why | Context::Debrief | Context::DrillOver
    ) {
        walking.scroll = scrolled(walking.scroll, action, page, end);
    }
    match walking.act(action, key, &names) {
        Done::Nothing => Vec::new(),
        Done::Act(act) => vec![Errand::Record(act)],
        Done::Doing(doing) => vec![Errand::Drill(doing)],
        Done::Said(sentence) => {
            model.said = Some(sentence);
            Vec::new()
        }
    }
}

/// Where a long page is scrolled to by more than a line.
fn scrolled(from: usize, action: Action, page: usize, end: usize) -> usize {
    match action {
        Action::PageUp => from.saturating_sub(page),
        Action::PageDown => from + page,
        Action::Top => 0,
        Action::Bottom => end,
        _ => from,
    }
}

/// What a key came to.
pub(in crate::tui) enum Done {
    Nothing,
    Act(Act),
    /// What is done in a drill beside the walk.
    Doing(Doing),
    Said(String),
}

impl Walking {
    fn act(&mut self, action: Action, key: Key, crew: &[String]) -> Done {
        if let Some(done) = self.drill_act(action, key) {
            return done;
        }
        match action {
            Action::Begin => return Done::Act(Act::Open),
            Action::GoOn => return self.go_on(),
            Action::CompleteSection => return Done::Act(Act::CloseSection),
            Action::Finish => {
                let words = String::new();
                return Done::Act(Act::End {
                    outcome: Ended::Complete,
                    words,
                });
            }
            Action::Hold => {
                let (why, next) = (String::new(), self.about_to());
                return Done::Act(Act::Hold { why, next });
            }
            Action::Unsure => {
                return Done::Act(Act::Unsure {
                    words: String::new(),
                });
            }
            // Taking up is recorded already; what is left is to have read where the walk stands.
            Action::Resume if self.taken_up => self.taken_up = false,
            Action::Resume => return Done::Act(Act::Resume),
            Action::PutRight => self.ask(Purpose::PutRight),
            Action::PutOff => self.ask(Purpose::PutOff),
            Action::Note => self.ask(Purpose::Note),
            Action::Settle => self.ask(Purpose::Settle),
            Action::OtherPerson => self.ask(Purpose::SecondName),
            Action::End => self.ask(Purpose::EndAs),
            Action::Learn => self.ask(Purpose::Learn),
            Action::TakeBack => {
                let marked = self.done_here().len().saturating_sub(1);
                self.panel = Some(Panel::TakeBack { marked });
            }
            Action::Why => return self.explain(),
            Action::HandOver => self.panel = Some(Panel::GiveOver { reader: None }),
            Action::Pick => return self.pick(key, crew),
            Action::Choose => {
                if let Some(Panel::TakeBack { marked }) = self.panel {
                    return self.take_back(marked);
                }
            }
            Action::Up => self.move_by(-1),
            Action::Down => self.move_by(1),
            Action::Type => {
                if let (Key::Char(letter), Some(field)) = (key, self.open_field()) {
                    field.add(letter);
                }
            }
            Action::Erase => match self.open_field() {
                Some(field) if !field.is_empty() => field.erase(),
                _ => self.back(),
            },
            Action::Submit => return self.submit(),
            Action::Back => self.back(),
            _ => {}
        }
        Done::Nothing
    }

    /// What the person is about to do, told on coming back from a hold.
    fn about_to(&self) -> String {
        let (Now::Next(at) | Now::Open(at) | Now::Branch(at) | Now::Remark(at)) = self.walk.now()
        else {
            return String::new();
        };
        self.planned(at).map_or_else(String::new, PlannedStep::name)
    }

    fn ask(&mut self, purpose: Purpose) {
        self.panel = Some(Panel::Words(purpose, Field::default()));
    }

    /// From an answer to the next step, or to the end of the section.
    fn go_on(&mut self) -> Done {
        if matches!(self.walk.now(), Now::Next(_)) {
            return Done::Act(Act::Open);
        }
        self.answered = None;
        Done::Nothing
    }

    fn pick(&mut self, key: Key, crew: &[String]) -> Done {
        let Some(place) = key.place() else {
            return Done::Nothing;
        };
        match self.context() {
            Context::Sighting | Context::Looking => self.see(place),
            Context::Instrument => {
                let tools = self.tools();
                let Some(tool) = tools.get(place) else {
                    return Done::Said("Press the letter of an instrument listed.".to_owned());
                };
                if let Some(unfit) = &tool.unfit {
                    return Done::Said(unfit.to_string());
                }
                self.instrument = Some(tool.instrument.id.clone());
                Done::Nothing
            }
            Context::Second => {
                self.second = self.others(crew).get(place).map(|name| (*name).clone());
                if self.second.is_none() {
                    return Done::Said("Press the letter of a person listed.".to_owned());
                }
                Done::Nothing
            }
            Context::TakeBack => self.take_back(place),
            Context::GiveOver => self.give_over(crew.get(place)),
            _ => Done::Nothing,
        }
    }

    fn take_back(&mut self, place: usize) -> Done {
        let step = self.done_here().get(place).and_then(|at| self.planned(*at));
        let Some(key) = step.map(|planned| planned.key.clone()) else {
            return Done::Said("Press the letter of a step listed.".to_owned());
        };
        self.ask(Purpose::TakeBack(key));
        Done::Nothing
    }

    fn give_over(&mut self, person: Option<&String>) -> Done {
        let (Some(name), Some(Panel::GiveOver { reader })) = (person, &mut self.panel) else {
            return Done::Said("Press the letter of a person listed.".to_owned());
        };
        let Some(reader) = reader.clone() else {
            *reader = Some(name.clone());
            return Done::Nothing;
        };
        // A refusal shows the first question again.
        self.panel = Some(Panel::GiveOver { reader: None });
        Done::Act(Act::HandOver {
            reader,
            doer: name.clone(),
        })
    }

    fn move_by(&mut self, lines: isize) {
        let most = self.done_here().len().saturating_sub(1);
        match &mut self.panel {
            Some(Panel::TakeBack { marked }) => {
                *marked = marked.saturating_add_signed(lines).min(most);
            }
            _ => self.scroll = self.scroll.saturating_add_signed(lines),
        }
    }

    /// The field that letters go to.
    fn open_field(&mut self) -> Option<&mut Field> {
        match &mut self.panel {
            Some(Panel::Words(_, field)) => Some(field),
            Some(_) => None,
            None => Some(&mut self.field),
        }
    }

    /// One question back.
    fn back(&mut self) {
        let (several, context) = (self.tools().len() > 1, self.context());
        match (&mut self.panel, context) {
            (Some(Panel::GiveOver { reader }), _) if reader.is_some() => *reader = None,
            (Some(Panel::Why(..)), _) => (self.panel, self.scroll) = (None, 0),
            (Some(_), _) => self.panel = None,
            (None, Context::Reading) if several => self.instrument = None,
            (
                None,
                Context::Sighting | Context::Looking | Context::Instrument | Context::Reading,
            ) => {
                self.second = None;
            }
            _ => {}
        }
    }

    fn submit(&mut self) -> Done {
        let Some(Panel::Words(purpose, field)) = &mut self.panel else {
            return self.submit_field();
        };
        let words = field.text().trim().to_owned();
        match purpose.clone() {
            Purpose::PutRight => Done::Act(Act::PutRight { words }),
            Purpose::PutOff => Done::Act(Act::Defer { words }),
            Purpose::Note => Done::Act(Act::Note { words }),
            Purpose::Settle => Done::Act(Act::Settle { words }),
            Purpose::TakeBack(step) => Done::Act(Act::Correct { step, words }),
            Purpose::EndWhy(outcome) => Done::Act(Act::End { outcome, words }),
            Purpose::SecondName if words.is_empty() => {
                Done::Said("Type the name of the person who looks.".to_owned())
            }
            Purpose::SecondName => {
                (self.second, self.panel) = (Some(words), None);
                Done::Nothing
            }
            Purpose::Learn => self.learn(&words),
            Purpose::EndAs => match end_as(&words) {
                Ok(outcome) => {
                    self.ask(Purpose::EndWhy(outcome));
                    Done::Nothing
                }
                Err(sentence) => Done::Said(sentence),
            },
        }
    }

    fn submit_field(&mut self) -> Done {
        let words = self.field.text().trim().to_owned();
        match (self.context(), &self.instrument) {
            (Context::Remark, _) => Done::Act(Act::Remark { words }),
            (Context::Reading, _) if words.is_empty() => {
                Done::Said("Type what the instrument shows, with its unit.".to_owned())
            }
            (Context::Reading, Some(instrument)) => {
                let (instrument, typed) = (instrument.clone(), words);
                Done::Act(match self.second.clone() {
                    Some(who) => Act::ReadAs {
                        who,
                        typed,
                        instrument,
                    },
                    None => Act::Read { typed, instrument },
                })
            }
            _ => Done::Nothing,
        }
    }
}

impl Walking {
    /// Answers with the state at this place. The answer is recorded at once; a slip is taken back.
    fn see(&self, place: usize) -> Done {
        let ask = self
            .at_hand()
            .and_then(|at| self.planned(at))
            .map(|planned| &planned.ask);
        let Some(PlannedAsk::Sighting(ask) | PlannedAsk::Independent(ask)) = ask else {
            return Done::Nothing;
        };
        let Some(state) = ask.states.get(place) else {
            return Done::Said(format!("Press a number from 1 to {}.", ask.states.len()));
        };
        let state = state.id.clone();
        Done::Act(match &self.second {
            Some(who) => Act::SeeAs {
                who: who.clone(),
                state,
            },
            None => Act::See { state },
        })
    }

    /// Everyone but the one who does the work, for a second look.
    pub(super) fn others<'a>(&self, crew: &'a [String]) -> Vec<&'a String> {
        let doer = self.walk.doer().as_str();
        let planned = self.at_hand().and_then(|at| self.planned(at));
        // Who typed the first reading does not read afresh.
        let blind = planned.is_some_and(PlannedStep::is_second_reading);
        let may = |name: &&String| name.as_str() != doer && !(blind && self.walk.has_typed(name));
        crew.iter().filter(may).collect()
    }
}
