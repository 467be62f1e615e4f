//! Beginning a walk: which rig, which checklist, who.

use crate::desk::{Approval, Barn, ChecklistCard, Errand, RigCard};
use crate::plain::going::Session;
use crate::plain::stop::Stop;
use crate::units::{Dimension, Typed};

impl Session<'_> {
    /// Asks what a walk needs to begin, and walks it. `back` at any question begins nothing.
    pub(super) fn begin(&mut self, barn: &Barn) -> Result<(), Stop> {
        let rigs: Vec<String> = barn.rigs.iter().map(|rig| rig.name.clone()).collect();
        if rigs.is_empty() {
            return Ok(self
                .talk
                .say("There is no rig here. Name a rig file with --rig.")?);
        }
        let Some(rig) = self.choose("Rig", &rigs)?.and_then(|at| barn.rigs.get(at)) else {
            return Ok(());
        };
        self.say_earlier(rig)?;
        let fitting: Vec<&ChecklistCard> = barn
            .checklists
            .iter()
            .filter(|checklist| checklist.rigs.contains(&rig.kind))
            .collect();
        if fitting.is_empty() {
            return Ok(self.talk.say(&format!(
                "No checklist here is for a {} rig. Choose another rig, or name a checklist file \
                 with --checklist.",
                rig.kind.word()
            ))?);
        }
        let titles: Vec<String> = fitting.iter().map(|card| title(card)).collect();
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

    /// What earlier walks left open of the rig.
    fn say_earlier(&mut self, rig: &RigCard) -> Result<(), Stop> {
        for defect in &rig.defects {
            let mark = if defect.blocks { "OFF THE ROAD. " } else { "" };
            self.talk.say(&format!("{mark}{}", defect.told))?;
        }
        for line in &rig.open {
            self.talk.say(line)?;
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
