//! Looking around: what the start screen shows.

use crate::cli::clerk::able::crew_notice;
use crate::cli::clerk::founding::{DEMO_BARN, demo_people, is_founded, name_file};
use crate::cli::clerk::history::{History, Looked};
use crate::cli::clerk::{Books, Clerk, TripRead, Trouble};
use crate::desk::earlier::{self, FROM_PAPER};
use crate::desk::{Barn, CrewCard, DueCard, HaulCard, Reply, TripCard};
use crate::figures::Facts;
use crate::record::{Finding, Id, Mode, Role, Signer};
use crate::rig::Rig;
use crate::store::{Disk, StoreFault, TripFolder};
use crate::walk::{Now, Walk};

/// In the demo no passphrase is secret.
const DEMO_PASSPHRASE: &str = "In the demo everybody signs with the passphrase demo.";

/// Said of a trip that was not ended before a later one of its laptop began.
const ABANDONED: &str = "; left without an end, and a later walk records it as abandoned";

/// Ended trips on the start screen; `hames verify` reads all.
const MOST_FINISHED: usize = 30;

impl<D: Disk> Clerk<D> {
    /// The logbook as it is. Nothing is written.
    pub(super) fn look_around(&mut self) -> Result<Reply, Trouble> {
        let founded = is_founded(&self.disk, &self.place.root)?;
        let books = founded.then(|| self.books()).transpose()?;
        let mut barn = if let Some(books) = &books {
            let name = barn_name(books);
            let mut barn = self.barn(name, books.mode(), crew_cards(books), Some(books));
            find_trips(books, &mut barn, &mut self.history)?;
            barn.no_walk = books.why_no_walk()?;
            barn.notices.extend(self.look_at_clock(books));
            barn.notices.extend(crew_notice(books));
            barn.notices.extend(self.nobody_signs_in(books));
            barn
        } else if self.place.mode == Mode::Demo {
            let cards = demo_people()?.into_iter().map(|person| CrewCard {
                id: person.id.to_string(),
                name: person.name.to_string(),
                roles: person.roles,
            });
            self.barn(DEMO_BARN.to_owned(), Mode::Demo, cards.collect(), None)
        } else {
            let folder = self.place.root.clone();
            return Err(StoreFault::NotALogbook { folder }.into());
        };
        let told = self.tell_standing(&mut barn, books.as_ref());
        if let Some(books) = &books {
            self.history.put_away(books);
        }
        told?;
        barn.notices.append(&mut self.notices);
        if barn.mode == Mode::Demo {
            barn.notices.push(DEMO_PASSPHRASE.to_owned());
        }
        Ok(Reply::Barn(barn))
    }

    /// What earlier walks left open of each rig, and what is due for it.
    fn tell_standing(&mut self, barn: &mut Barn, books: Option<&Books<D>>) -> Result<(), Trouble> {
        let mut said = None;
        for card in &mut barn.rigs {
            let mut looked = Looked::default();
            if let Some(books) = books {
                looked = self.history.of(books, &card.id, None, &[])?;
                // Statements are many, and of rigs of which nothing is found bad there is nothing in them.
                if !looked.standing.defects.is_empty() {
                    if said.is_none() {
                        said = Some(books.owned()?);
                    }
                    let said = said.as_deref().unwrap_or_default();
                    looked = self.history.of(books, &card.id, None, said)?;
                }
            }
            card.open = earlier::opens(&looked.standing);
            card.defects = earlier::defects(&looked.standing, self.by(None));
            card.haul = looked.standing.haul.as_ref().map(HaulCard::of);
            if let Some(offer) = self.stock.rig(&card.id) {
                card.due = DueCard::of(&self.due_of(&offer.read, &looked, None));
            }
            for notice in looked.notices {
                if !barn.notices.contains(&notice) {
                    barn.notices.push(notice);
                }
            }
        }
        Ok(())
    }

    /// A rig on offer, to look at. Nothing is written.
    pub(super) fn look_at_rig(&mut self, id: &str) -> Result<Reply, Trouble> {
        let mode = if is_founded(&self.disk, &self.place.root)? {
            self.books()?.mode()
        } else {
            self.place.mode
        };
        let offer = self.stock.rig(id);
        let rig = offer.map(|offer| offer.read.clone()).ok_or_else(|| {
            Trouble::Said(format!(
                "There is no rig “{}” here any more.",
                id.escape_debug()
            ))
        })?;
        Ok(Reply::Rig {
            rig: Box::new(rig),
            facts: Facts::default(),
            mode,
        })
    }

    fn barn(
        &self,
        name: String,
        mode: Mode,
        crew: Vec<CrewCard>,
        books: Option<&Books<D>>,
    ) -> Barn {
        let name = self.stock.settings.name.clone().unwrap_or(name);
        let name = match mode {
            Mode::Demo => format!("{name}, an invented barn: nothing here counts"),
            Mode::Real | Mode::Drill => name,
        };
        Barn {
            name,
            mode,
            folder: self.place.root.display().to_string(),
            rigs: self.stock.rig_cards(),
            checklists: self
                .stock
                .checklist_cards(|listed| self.standing_of(books, listed)),
            crew,
            unfinished: Vec::new(),
            finished: Vec::new(),
            notices: self.stock.notices.clone(),
            no_walk: None,
        }
    }
}

fn find_trips<D: Disk>(
    books: &Books<D>,
    barn: &mut Barn,
    history: &mut History,
) -> Result<(), Trouble> {
    let here = books.device().ok();
    let mut last = None;
    for (device, folder) in books.folders()?.into_iter().rev() {
        // Of the ended ones the newest are enough; one that is not signed is never left out.
        let sealed = books.logbook.is_sealed(&folder)?;
        let told = if sealed {
            barn.finished.len() < MOST_FINISHED
        } else {
            books.logbook.has_begun(&folder)?
        };
        let left_behind = last.as_ref() == Some(&device);
        if sealed || told {
            last = Some(device.clone());
        }
        if !told {
            continue;
        }
        let read = match books.read(&device, &folder, &mut history.plans) {
            Ok(read) => read,
            Err(fault) => {
                barn.notices.push(fault.to_string());
                continue;
            }
        };
        let open = read.finding() == Finding::Unsealed && here.as_ref() == Some(&device);
        let mut card = card(&read, &device);
        if open && read.walk().is_ok_and(|walk| walk.ended().is_none()) {
            card.goes_on = !left_behind;
            card.stands
                .push_str(if left_behind { ABANDONED } else { "" });
        }
        if open {
            barn.unfinished.push(card);
        } else {
            barn.finished.push(card);
        }
        history.hand_over(read);
    }
    Ok(())
}

/// What a trip is called: its folder's name.
pub(super) fn trip_name(folder: &TripFolder) -> String {
    let name = folder.path.file_name().unwrap_or_default();
    name.to_string_lossy().into_owned()
}

/// The name of the barn, by the file that says it.
pub(in crate::cli) fn barn_name<D: Disk>(books: &Books<D>) -> String {
    let bytes = books.logbook.read(&name_file(books.logbook.root()));
    let text = bytes.map(|bytes| String::from_utf8_lossy(&bytes).trim().to_owned());
    text.ok()
        .filter(|text| !text.is_empty())
        .unwrap_or_else(|| "Barn".to_owned())
}

fn crew_cards<D: Disk>(books: &Books<D>) -> Vec<CrewCard> {
    let people = books.crew.signers().iter();
    people
        .filter(|signer| !signer.roles.contains(&Role::Device))
        .map(crew_card)
        .collect()
}

pub(super) fn crew_card(signer: &Signer) -> CrewCard {
    CrewCard {
        id: signer.id.to_string(),
        name: signer.name.to_string(),
        roles: signer.roles.clone(),
    }
}

pub(super) fn card(read: &TripRead, device: &Id) -> TripCard {
    let trip = trip_name(&read.folder);
    let Some(verified) = read.trip() else {
        return TripCard {
            trip,
            rig: rig_name(&read.rig),
            checklist: format!("on {device}"),
            last: "time not known".to_owned(),
            stands: format!("{}: see hames verify", read.finding()),
            goes_on: false,
        };
    };
    let last = verified
        .entries()
        .last()
        .map_or(verified.at(), |entry| &entry.at);
    let last = last.wall.format("%Y-%m-%d %H:%M").to_string();
    let (rig, checklist, stands) = match read.walk() {
        Ok(walk) => {
            let sealed = verified.sealed().is_some();
            let paper = walk.paper().map(|walked| {
                let walked = earlier::date(walked);
                format!(", {FROM_PAPER} of {walked}")
            });
            let is_drill = verified.begun().drill.is_some();
            let stands = stands(&walk, sealed, is_drill) + &paper.unwrap_or_default();
            let plan = walk.plan();
            (
                plan.rig().name.clone(),
                plan.checklist().title.clone(),
                stands,
            )
        }
        Err(trouble) => (
            rig_name(&read.rig),
            verified.begun().checklist.id.clone(),
            trouble.to_string(),
        ),
    };
    TripCard {
        trip,
        rig,
        checklist,
        last,
        stands,
        goes_on: false,
    }
}

fn rig_name(text: &[u8]) -> String {
    let rig = Rig::read(&String::from_utf8_lossy(text));
    rig.map_or_else(|_| "rig not readable".to_owned(), |rig| rig.name)
}

fn stands(walk: &Walk, sealed: bool, is_drill: bool) -> String {
    if let Some(outcome) = walk.ended() {
        let signed = if sealed { "sealed" } else { "not signed" };
        return format!("{}, {signed}", outcome.word().replace('-', " "));
    }
    let all = walk.plan().steps().len();
    // The same step that the screens name, also while the walk stands still.
    let at = match walk.at_work() {
        Now::Next(index) | Now::Open(index) | Now::Branch(index) | Now::Remark(index) => index + 1,
        _ => walk.last_done().map_or(0, |(index, _)| index + 1),
    };
    let (why, next) = walk
        .held()
        .map_or((None, None), |(_, why, next)| (why, next));
    let why = why.map(|why| format!("; left for: {why}"));
    let why = why.unwrap_or_default();
    let next = next.map(|next| format!("; about to: {next}"));
    let next = next.unwrap_or_default();
    let still = match walk.now() {
        Now::Held => Some("on hold"),
        Now::Unsure => Some("stopped as unclear"),
        _ => None,
    };
    match still {
        // Where the work goes on is what the learner is asked, so it stands nowhere before.
        Some(still) if is_drill => format!("{still}{why}"),
        Some(still) => format!("{still}, step {at} of {all}{why}{next}"),
        None => format!("step {at} of {all}{why}{next}"),
    }
}
