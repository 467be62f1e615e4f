//! Before a drill: who learns, and which drill it is.

use crate::desk::{
    AskedDrill, DrillRoom, DrillWanted, Errand, Learner, NOBODY_LEARNS, Reply, WhichDrill, told,
};
use crate::drill::{Currency, Family, Grading, list};
use crate::plain::going::Session;
use crate::plain::menu::take_up_line;
use crate::plain::stop::Stop;

/// So many of the weakest steps, and of those to be asked again, are offered.
const MOST_STEPS: usize = 3;

/// A row of the menu.
enum Row {
    TakeUp(String),
    Play(WhichDrill),
    Families,
    CheckRide,
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
                Some(Row::Families | Row::CheckRide) | None => return Ok(false),
            },
        };
        self.again = wanted.again;
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
        if let Some(named) = named {
            let found = room.named(named);
            if let Err(why) = &found {
                self.refused = true;
                self.talk.say(why)?;
            }
            return Ok(found.ok().map(Some));
        }
        if let Some(why) = &room.unrecorded {
            self.talk.say(why)?;
        }
        if room.learners.is_empty() {
            self.talk.say("Nothing of it is recorded.")?;
            return Ok(Some(None));
        }
        let people = room.learners.iter().map(|one| one.who.name.clone());
        let people: Vec<String> = people.chain([NOBODY_LEARNS.to_owned()]).collect();
        let chosen = self.choose("Who learns", &people)?;
        Ok(chosen.map(|at| room.learners.get(at)))
    }

    fn which(&mut self, room: &DrillRoom, learner: &Learner) -> Result<Option<Row>, Stop> {
        self.say_standing(room, learner)?;
        let mut choices = Vec::new();
        let mut rows = Vec::new();
        for card in &learner.unfinished {
            choices.push(take_up_line(card));
            rows.push(Row::TakeUp(card.trip.clone()));
        }
        for difference in &learner.differences {
            let name = told::listed_step(&difference.list, &difference.step);
            let revision = difference.revision;
            choices.push(format!(
                "{name}: changed since your check ride, now revision {revision}"
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
        if !room.rides.is_empty() {
            choices.push("A check ride".to_owned());
            rows.push(Row::CheckRide);
        }
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
            Some(Row::CheckRide) => self.check_ride(room, learner),
            row => Ok(row),
        }
    }

    /// Which checklist is ridden and who examines; what it is passed by is said before it begins.
    fn check_ride(&mut self, room: &DrillRoom, learner: &Learner) -> Result<Option<Row>, Stop> {
        let examiners = match &learner.examiners {
            Ok(examiners) => examiners,
            Err(why) => {
                self.talk.say(why)?;
                return Ok(None);
            }
        };
        let titles = room.rides.iter().map(|id| told::list_title(id));
        let titles: Vec<String> = titles.collect();
        let chosen = self.choose("Ridden", &titles)?;
        let Some(list) = chosen.and_then(|at| room.rides.get(at)) else {
            return Ok(None);
        };
        let chosen = self.choose("Who examines", examiners)?;
        let Some(examiner) = chosen.and_then(|at| examiners.get(at)) else {
            return Ok(None);
        };
        self.talk.say(Grading::NEWEST.pass_rule())?;
        self.talk.say(&told::beside_the_rider(examiner))?;
        let ride = WhichDrill::CheckRide {
            list: list.clone(),
            examiner: examiner.clone(),
        };
        loop {
            let typed = self.talk.ask("Type begin, or back.")?;
            match typed.to_lowercase().as_str() {
                "begin" => return Ok(Some(Row::Play(ride))),
                "back" | "b" => return Ok(None),
                "quit" | "q" => return Err(Stop::Left),
                _ => self.talk.say("Nothing begins by that.")?,
            }
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
