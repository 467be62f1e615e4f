//! Before a drill: who learns, and which drill it is.

use crate::desk::{AskedDrill, DrillRoom, Errand, Learner, Reply, WhichDrill, told};
use crate::drill::{Currency, Family, Stage, list};
use crate::plain::going::Session;
use crate::plain::menu::take_up_line;
use crate::plain::stop::Stop;

/// So many of the weakest steps, and of those to be asked again, are offered.
const MOST_STEPS: usize = 3;

const NOBODY: &str = "Nobody: nothing of it is recorded";

/// A drill as it was asked for where the program was started.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct DrillWanted {
    /// Which; it is asked where none is named.
    pub which: Option<WhichDrill>,
    /// Who learns, by printed name or id; it is asked where nobody is named.
    pub learner: Option<String>,
    /// The stage.
    pub stage: Option<Stage>,
    /// What the dice are thrown by.
    pub seed: Option<u64>,
}

/// A row of the menu.
enum Row {
    TakeUp(String),
    Play(WhichDrill),
    Families,
}

impl Session<'_> {
    /// Whether a drill was played.
    pub(super) fn room(&mut self, wanted: DrillWanted) -> Result<bool, Stop> {
        let room = match (self.perform)(Errand::LookAtDrills) {
            Reply::DrillRoom(room) => *room,
            other => return self.cannot(other).map(|()| false),
        };
        self.secret_is_demo = room.is_demo;
        self.learners = room.learners.iter().map(|one| one.who.clone()).collect();
        let Some(learner) = self.who_learns(&room, wanted.learner.as_deref())? else {
            return Ok(false);
        };
        let learner = learner.cloned();
        let which = match (wanted.which, &learner) {
            (Some(which), _) => which,
            (None, None) => WhichDrill::Any,
            (None, Some(learner)) => match self.which(&room, learner)? {
                Some(Row::Play(which)) => which,
                Some(Row::TakeUp(trip)) => {
                    let reply = (self.perform)(Errand::TakeUp { trip });
                    return self.drill_on(reply);
                }
                Some(Row::Families) | None => return Ok(false),
            },
        };
        let reply = (self.perform)(Errand::BeginDrill(AskedDrill {
            which,
            learner: learner.map_or_else(String::new, |learner| learner.who.name),
            stage: wanted.stage,
            seed: wanted.seed,
        }));
        self.drill_on(reply)
    }

    /// Who learns: somebody, nobody, or nothing where the person typed `back`.
    #[expect(
        clippy::option_option,
        reason = "nobody learning is another thing than no answer"
    )]
    fn who_learns<'r>(
        &mut self,
        room: &'r DrillRoom,
        named: Option<&str>,
    ) -> Result<Option<Option<&'r Learner>>, Stop> {
        if let Some(why) = &room.unrecorded {
            self.talk.say(why)?;
        }
        if let Some(named) = named {
            let lower = named.trim().to_lowercase();
            let is_named =
                |one: &&Learner| one.who.id == lower || one.who.name.to_lowercase() == lower;
            let found = room.learners.iter().find(is_named);
            if found.is_none() {
                let known: Vec<&str> = room.learners.iter().map(|one| &*one.who.name).collect();
                let known = known.join(", ");
                self.refused = true;
                self.talk.say(&format!(
                    "“{}” is nobody whose drills are recorded here. There is: {known}.",
                    named.escape_debug()
                ))?;
                return Ok(None);
            }
            return Ok(found.map(Some));
        }
        if room.learners.is_empty() {
            self.talk.say("Nothing of it is recorded.")?;
            return Ok(Some(None));
        }
        let people = room.learners.iter().map(|one| one.who.name.clone());
        let people: Vec<String> = people.chain([NOBODY.to_owned()]).collect();
        let chosen = self.choose("Who learns", &people)?;
        Ok(chosen.map(|at| room.learners.get(at)))
    }

    fn which(&mut self, room: &DrillRoom, learner: &Learner) -> Result<Option<Row>, Stop> {
        self.say_standing(room, learner)?;
        let mut choices = Vec::new();
        let mut rows = Vec::new();
        for card in &room.unfinished {
            choices.push(take_up_line(card));
            rows.push(Row::TakeUp(card.trip.clone()));
        }
        for difference in &learner.differences {
            let name = told::listed_step(&difference.list, &difference.step);
            let revision = difference.revision;
            choices.push(format!(
                "{name}: changed by revision {revision} since your check ride"
            ));
            let (list, step) = (difference.list.clone(), difference.step.clone());
            rows.push(Row::Play(WhichDrill::OfStep { list, step }));
        }
        for weak in learner.progress.weakest(MOST_STEPS) {
            let name = told::listed_step(&weak.list, &weak.step);
            let (wrong, of) = (weak.wrong, weak.of);
            choices.push(format!("{name}: wrong {wrong} of the last {of} times"));
            let (list, step) = (weak.list, weak.step);
            rows.push(Row::Play(WhichDrill::OfStep { list, step }));
        }
        let due = learner.progress.due(room.today).into_iter();
        for (list, step) in due.take(MOST_STEPS) {
            let name = told::listed_step(&list, &step);
            choices.push(format!("{name}: due to be asked again"));
            rows.push(Row::Play(WhichDrill::OfStep { list, step }));
        }
        choices.push("One by the dice".to_owned());
        rows.push(Row::Play(WhichDrill::Any));
        choices.push("One about a kind of fault".to_owned());
        rows.push(Row::Families);
        let Some(at) = self.choose("What next", &choices)? else {
            return Ok(None);
        };
        match rows.into_iter().nth(at) {
            Some(Row::Families) => {
                let labels = Family::WORDS.map(|(_, family)| family.label().to_owned());
                let chosen = self.choose("About", &labels)?;
                let family = chosen.and_then(|at| Family::WORDS.get(at));
                Ok(family.map(|(_, family)| Row::Play(WhichDrill::About(*family))))
            }
            row => Ok(row),
        }
    }

    /// How far the learner is, section by section, and what goes on by itself.
    fn say_standing(&mut self, room: &DrillRoom, learner: &Learner) -> Result<(), Stop> {
        let progress = &learner.progress;
        for (id, section, _) in progress.sections() {
            let of = (id, section);
            let when = (room.today, learner.walked);
            let stage = progress.stands(of, when).stage.label();
            let fades = match progress.currency(of, when) {
                Some(Currency::Refresher) => "; a refresher is due",
                Some(Currency::Lapsed) => "; too long ago, so it begins again with every hint",
                Some(Currency::Current) | None => "",
            };
            let name = list(id).and_then(|list| {
                let mut sections = list.checklist.sections.iter();
                let section = sections.find(|own| own.id == section)?;
                Some(format!("{}, {}", list.checklist.title, section.title))
            });
            let name = name.unwrap_or_else(|| format!("{id}, {section}"));
            self.talk.say(&format!("{name}: next is {stage}{fades}."))?;
        }
        let resumed = progress.resumed();
        if resumed.right + resumed.wrong > 0 {
            self.talk.say(&format!(
                "Called away {} times: went on at the right step {} of them.",
                resumed.right + resumed.wrong,
                resumed.right
            ))?;
        }
        Ok(())
    }
}
