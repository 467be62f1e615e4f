//! Beginning a walk: which rig, which checklist, who.

use crate::desk::{Approval, Barn, ChecklistCard, Errand, RigCard};
use crate::plain::going::Session;
use crate::plain::stop::Stop;
use crate::units::{Dimension, Typed};

impl Session<'_> {
    /// Asks what a walk needs to begin, and walks it. `back` at any question begins nothing.
    pub(super) fn begin(&mut self, barn: &Barn) -> Result<(), Stop> {
        let line = |rig: &RigCard| format!("{}: {}", rig.name, rig.in_short());
        let rigs: Vec<String> = barn.rigs.iter().map(line).collect();
        if rigs.is_empty() {
            return Ok(self
                .talk
                .say("There is no rig here. Name a rig file with --rig.")?);
        }
        let Some(rig) = self.choose("Rig", &rigs)?.and_then(|at| barn.rigs.get(at)) else {
            return Ok(());
        };
        self.say_matters(rig)?;
        let fitting = barn.lists_for(rig);
        if fitting.is_empty() {
            return Ok(self.talk.say(&format!(
                "No checklist here is for a {} rig. Choose another rig, or name a checklist file \
                 with --checklist.",
                rig.kind.word()
            ))?);
        }
        let next = barn.likely_next(rig);
        let titles = fitting.iter().map(|card| {
            let next = next.filter(|next| next.id == card.id);
            let next = next.map_or("", |_| ", likely next");
            format!("{}{next}", title(card))
        });
        let titles: Vec<String> = titles.collect();
        let Some(checklist) = self
            .choose("Checklist", &titles)?
            .and_then(|at| fitting.get(at))
        else {
            return Ok(());
        };
        let Some(reader) = self.person("Who reads and types", barn)? else {
            return Ok(());
        };
        let Some(doer) = self.person("Who does the work", barn)? else {
            return Ok(());
        };
        let odometer = self.odometer()?;
        let reply = (self.perform)(Errand::Begin {
            rig: rig.id.clone(),
            checklist: checklist.id.clone(),
            reader,
            doer,
            odometer,
            walked: String::new(),
        });
        self.walk_on(reply)
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

    fn odometer(&mut self) -> Result<String, Stop> {
        loop {
            let typed = self
                .talk
                .ask("Odometer of the truck, such as 48210 mi; Enter alone leaves it out.")?;
            match Typed::read(&typed, Dimension::Length) {
                Err(fault) if !typed.is_empty() => self.talk.say(&format!("{fault}."))?,
                _ => return Ok(typed),
            }
        }
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
