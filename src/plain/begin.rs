//! Beginning a walk: which rig, which checklist, who.

use crate::desk::{Approval, Barn, ChecklistCard, Errand, Reply, RigCard, TripCard};
use crate::plain::going::Session;
use crate::plain::menu::take_up_line;
use crate::plain::stop::Stop;

/// What is done in the place of beginning a walk.
enum Instead {
    /// Nothing: it is begun.
    Other,
    /// This trip is taken up.
    TakeUp(String),
    /// The person typed `back`.
    Nothing,
}

impl Session<'_> {
    /// Begins a walk at once, unless one is not finished and gone on with.
    pub(super) fn begin_at_once(&mut self, barn: &Barn) -> Result<(), Stop> {
        match self.unfinished(barn)? {
            Instead::Other => self.begin(barn),
            Instead::TakeUp(trip) => self.take_up(trip),
            Instead::Nothing => Ok(()),
        }
    }

    /// Asks what a walk needs to begin, and walks it. What keeps it from beginning is said before
    /// anything more is asked. `back` at any question begins nothing.
    pub(super) fn begin(&mut self, barn: &Barn) -> Result<(), Stop> {
        (self.foretold, self.refused) = (Vec::new(), false);
        if let Some(why) = &barn.no_walk {
            return self.refuse(why);
        }
        let line = |rig: &RigCard| format!("{}: {}", rig.name, rig.in_short());
        let rigs: Vec<String> = barn.rigs.iter().map(line).collect();
        if rigs.is_empty() {
            return self.refuse("There is no rig here. Name a rig file with --rig.");
        }
        let Some(rig) = self.choose("Rig", &rigs)?.and_then(|at| barn.rigs.get(at)) else {
            return Ok(());
        };
        self.say_matters(rig)?;
        let Some(list) = self.checklist(barn, rig)? else {
            return Ok(());
        };
        let mut people = Vec::new();
        for who in ["Who reads and types", "Who does the work"] {
            if !self.may_begin(rig, list, &people)? {
                return Ok(());
            }
            let Some(person) = self.person(who, barn)? else {
                return Ok(());
            };
            people.push(person);
        }
        if !self.may_begin(rig, list, &people)? {
            return Ok(());
        }
        let Some((answers, odometer)) = self.last_questions()? else {
            return Ok(());
        };
        let mut people = people.into_iter();
        let reply = (self.perform)(Errand::Begin {
            rig: rig.id.clone(),
            checklist: list.id.clone(),
            reader: people.next().unwrap_or_default(),
            doer: people.next().unwrap_or_default(),
            odometer,
            walked: String::new(),
            answers,
        });
        self.walk_on(reply)
    }

    /// The list to walk; nothing when the person typed `back`, or none is for this rig.
    fn checklist<'b>(
        &mut self,
        barn: &'b Barn,
        rig: &RigCard,
    ) -> Result<Option<&'b ChecklistCard>, Stop> {
        let fitting = barn.lists_for(rig);
        if fitting.is_empty() {
            let kind = rig.kind.word();
            let why = format!(
                "No checklist here is for a {kind} rig. Choose another rig, or name a checklist \
                 file with --checklist."
            );
            return self.refuse(&why).map(|()| None);
        }
        let next = barn.likely_next(rig);
        let titles = fitting.iter().map(|card| {
            let next = next.filter(|next| next.id == card.id);
            let next = next.map_or("", |_| ", likely next");
            format!("{}{next}", title(card))
        });
        let titles: Vec<String> = titles.collect();
        let chosen = self.choose("Checklist", &titles)?;
        Ok(chosen.and_then(|at| fitting.get(at).copied()))
    }

    /// Offers the walk that was begun and not ended, before another of these rigs and lists is.
    fn unfinished(&mut self, barn: &Barn) -> Result<Instead, Stop> {
        let offered = |card: &&TripCard| {
            let rig = barn.rigs.iter().any(|rig| rig.name == card.rig);
            let mut lists = barn.checklists.iter();
            card.goes_on && rig && lists.any(|list| list.title == card.checklist)
        };
        let Some(card) = barn.unfinished.iter().find(offered) else {
            return Ok(Instead::Other);
        };
        let choices = [
            take_up_line(card),
            "Begin another walk; this one is then recorded as abandoned".to_owned(),
        ];
        Ok(match self.choose("Not finished", &choices)? {
            Some(0) => Instead::TakeUp(card.trip.clone()),
            Some(_) => Instead::Other,
            None => Instead::Nothing,
        })
    }

    /// Whether the walk may begin, as far as it is known; what is to be known of it is said.
    fn may_begin(
        &mut self,
        rig: &RigCard,
        list: &ChecklistCard,
        people: &[String],
    ) -> Result<bool, Stop> {
        let reply = (self.perform)(Errand::MayBegin {
            rig: rig.id.clone(),
            checklist: list.id.clone(),
            people: people.to_vec(),
        });
        if let Reply::MayBegin { notices, questions } = reply {
            self.asked.put(questions);
            return self.foretell(&notices).map(|()| true);
        }
        self.refused = true;
        self.cannot(reply).map(|()| false)
    }

    /// Says each thing to know of a walk once.
    pub(super) fn foretell(&mut self, notices: &[String]) -> Result<(), Stop> {
        for notice in notices {
            if !self.foretold.contains(notice) {
                self.talk.say(notice)?;
                self.foretold.push(notice.clone());
            }
        }
        Ok(())
    }

    fn refuse(&mut self, why: &str) -> Result<(), Stop> {
        self.refused = true;
        Ok(self.talk.say(why)?)
    }

    /// What is open and due for the rig, the gravest first, and the haul it is on.
    fn say_matters(&mut self, rig: &RigCard) -> Result<(), Stop> {
        if let Some(haul) = &rig.haul {
            self.talk
                .say(&format!("Haul under way since {}.", haul.since))?;
        }
        for matter in rig.matters() {
            let mark = if matter.bars { "OFF THE ROAD. " } else { "" };
            self.talk.say(&format!("{mark}{}", matter.told))?;
        }
        Ok(())
    }

    /// One of the crew; nothing when the person typed `back`.
    pub(super) fn person(&mut self, what: &str, barn: &Barn) -> Result<Option<String>, Stop> {
        let names: Vec<String> = barn.crew.iter().map(|person| person.name.clone()).collect();
        let chosen = self.choose(what, &names)?;
        Ok(chosen.and_then(|at| names.get(at).cloned()))
    }
}

fn title(card: &ChecklistCard) -> String {
    let unapproved = match &card.standing {
        Approval::Unapproved => ", UNAPPROVED",
        Approval::Shipped | Approval::Approved { .. } => "",
    };
    format!("{}, revision {}{unapproved}", card.title, card.revision)
}
