//! The clerk over several walks of one rig: what one leaves is carried into the next, what was
//! found bad keeps the rig off the road, and a walk from paper is marked as such.

mod currency;

use crate::clerk::copy;
use crate::harness::good;
use crate::store::pretend::Pretend;
use hames::checklist::Checklist;
use hames::cli::clerk::{Clerk, Listed, Offer, Place, Stands, Stock};
use hames::desk::{Barn, Consent, Errand, Reply, RigCard, Tale};
use hames::record::{Mode, Passphrase, Version, read_chain};
use hames::rig::Rig;
use hames::rig::demo::JUNIPER;
use hames::store::Disk;
use hames::walk::{Act, Ended, Now, Walk};
use hames::world::Machine;
use std::path::PathBuf;

const STEPS: &str = include_str!("../vectors/carry.yaml");

/// A list of these steps of the list of carried things, as a file.
fn list(id: &str, title: &str, head: &str, steps: &[&str]) -> Listed {
    let (top, rest) = STEPS.split_once("      - id: ").unwrap();
    let (body, branches) = rest.split_once("branches:\n").unwrap();
    let named = |block: &&str| {
        let id = block.lines().next().unwrap();
        steps.contains(&id)
    };
    let blocks: Vec<&str> = body.split("      - id: ").filter(named).collect();
    let led_to = |line: &&str| {
        let (_, rest) = line.split_once("id: ").unwrap();
        let branch = format!("branch: {}", rest.split(',').next().unwrap());
        blocks.iter().any(|block| block.contains(&branch))
    };
    let branches: Vec<&str> = branches.lines().filter(led_to).collect();
    let branches = branches.join("\n");
    let top = top
        .replace("id: carry\n", &format!("id: {id}\n"))
        .replace("title: Carried\n", &format!("title: {title}\n{head}\n"));
    let text = format!(
        "{top}      - id: {}branches:\n{branches}\n",
        blocks.join("      - id: ")
    );
    Listed::from(Offer {
        read: Checklist::read(&text).unwrap_or_else(|faults| panic!("{faults:?}\n{text}")),
        text,
    })
}

fn stock() -> Stock {
    let road = |haul: &str| format!("haul: {haul}\nroad: true");
    Stock {
        checklists: vec![
            list(
                "join",
                "Join",
                &road("begins"),
                &["odometer", "wheel", "seat"],
            ),
            list("go", "Go", &road("during"), &["floor", "nuts-asked"]),
            list("part", "Part", "haul: ends", &["latch-up"]),
            list("season", "Season", "haul: apart", &["floor"]),
        ],
        ..Stock::demo()
    }
}

/// A barn, and whoever sits at it.
struct Sitting {
    disk: Pretend,
    clerk: Clerk<Pretend>,
}

impl Sitting {
    fn at(disk: Pretend) -> Self {
        Self::with(disk, stock())
    }

    fn with(disk: Pretend, stock: Stock) -> Self {
        let place = Place {
            root: "/demo".into(),
            mode: Mode::Demo,
        };
        let clerk = Clerk::new(disk.clone(), Machine::this(), place, stock);
        Self { disk, clerk }
    }

    fn begin(&mut self, checklist: &str, walked: &str) -> Result<Walk, String> {
        let reply = self.clerk.perform(Errand::Begin {
            rig: "juniper".into(),
            checklist: checklist.into(),
            reader: "Wren Ashdown".into(),
            doer: "Tobias Fenn".into(),
            odometer: String::new(),
            walked: walked.into(),
            answers: Vec::new(),
        });
        match reply {
            Reply::Walking { walk, .. } => Ok(*walk),
            Reply::Cannot(sentence) => Err(sentence),
            other => panic!("{other:?}"),
        }
    }

    /// Walks a list to its end with these answers and good ones else, and seals it.
    fn walk(&mut self, walk: &mut Walk, answers: &[(&str, &str)]) -> Ended {
        loop {
            let act = match walk.now() {
                Now::Next(_) => Act::Open,
                Now::Open(index) => {
                    let planned = walk.asked(index).unwrap();
                    let said = answers.iter().find(|(step, _)| *step == planned.step.id);
                    match said {
                        Some((_, state)) => Act::See {
                            state: (*state).to_owned(),
                        },
                        None if planned.step.id == "odometer" => Act::Read {
                            typed: "48210 mi".to_owned(),
                            instrument: planned.tools(walk.plan().rig())[0].instrument.id.clone(),
                        },
                        None => good::good(walk.plan(), &planned, "Odile Marsh")
                            .act()
                            .clone(),
                    }
                }
                Now::Remark(_) => Act::Remark {
                    words: "until spring".to_owned(),
                },
                Now::Branch(_) => Act::End {
                    outcome: Ended::NotFitToGo,
                    words: "it does not go down".to_owned(),
                },
                Now::SectionEnd(_) => Act::CloseSection,
                Now::Finished => Act::End {
                    outcome: Ended::Complete,
                    words: String::new(),
                },
                Now::Ended(outcome) => {
                    let passphrase = Passphrase::new("demo".to_owned().into()).unwrap();
                    let consent = Consent::Passphrase(passphrase);
                    let signer = "wren.ashdown".to_owned();
                    let reply = self.clerk.perform(Errand::Seal { signer, consent });
                    assert!(matches!(reply, Reply::Sealed(_)), "{reply:?}");
                    return outcome;
                }
                other => panic!("{other:?}"),
            };
            match self.clerk.perform(Errand::Record(act)) {
                Reply::Recorded(entry) => walk.apply(&entry),
                other => panic!("{other:?}"),
            }
        }
    }

    fn barn(&mut self) -> Barn {
        match self.clerk.perform(Errand::LookAround) {
            Reply::Barn(barn) => barn,
            other => panic!("{other:?}"),
        }
    }

    fn juniper(&mut self) -> RigCard {
        let barn = self.barn();
        let mut rigs = barn.rigs.into_iter();
        rigs.find(|rig| rig.id == "juniper").unwrap()
    }

    fn newest(&mut self) -> Tale {
        let trip = self.barn().finished[0].trip.clone();
        match self.clerk.perform(Errand::Show { trip }) {
            Reply::Record(tale) => *tale,
            other => panic!("{other:?}"),
        }
    }

    /// The journal of the trip with this number.
    fn journal(&self, number: u64) -> PathBuf {
        let devices = self.disk.list("/demo/dev".as_ref()).unwrap();
        let trips = PathBuf::from("/demo/dev").join(&devices[0].name).join("t");
        let start = format!("{number:06}-");
        let folders = self.disk.list(&trips).unwrap();
        let mut folders = folders.into_iter().map(|entry| entry.name);
        let folder = folders.find(|name| name.to_str().unwrap().starts_with(&start));
        trips.join(folder.unwrap()).join("trip.jsonl")
    }
}

#[test]
fn what_was_found_bad_keeps_the_rig_off_the_road_until_it_is_found_well() {
    let mut sitting = Sitting::at(copy());
    let mut walk = sitting.begin("join", "").unwrap();
    let ended = sitting.walk(&mut walk, &[("seat", "proud")]);
    assert_eq!(ended, Ended::NotFitToGo);
    let card = sitting.juniper();
    assert_eq!((card.open.len(), card.defects.len()), (0, 1));
    assert!(card.defects[0].blocks);
    let told = &card.defects[0].told;
    assert!(
        told.starts_with("STOP: Seat: Seen proud. Tobias Fenn, "),
        "{told}"
    );
    assert!(told.ends_with(", Join"), "{told}");
    assert_eq!(
        sitting.begin("go", "").unwrap_err(),
        format!(
            "“Go” is not begun: the rig stays off the road. {told}. Put it right, then walk a list \
             that asks this step: Join."
        )
    );
    // It is told before anybody is asked for more.
    let may = |sitting: &mut Sitting, checklist: &str| {
        sitting.clerk.perform(Errand::MayBegin {
            rig: "juniper".into(),
            checklist: checklist.into(),
            people: vec![],
        })
    };
    let refused = sitting.begin("go", "").unwrap_err();
    assert!(matches!(may(&mut sitting, "go"), Reply::Cannot(why) if why == refused));
    assert_eq!(sitting.clerk.stands(), Stands::Refused);
    assert!(matches!(may(&mut sitting, "part"), Reply::MayBegin { .. }));
    assert_eq!(sitting.clerk.stands(), Stands::Well);
    // No trip came of it, and what leads nowhere is not refused.
    let before = sitting.barn().finished.len();
    let mut walk = sitting.begin("part", "").unwrap();
    sitting.walk(&mut walk, &[]);
    assert_eq!(sitting.barn().finished.len(), before + 1);
    let mut walk = sitting.begin("join", "").unwrap();
    assert_eq!(sitting.walk(&mut walk, &[]), Ended::Complete);
    assert!(sitting.juniper().defects.is_empty());
    sitting.begin("go", "").unwrap();
}

#[test]
fn what_a_walk_leaves_is_carried_into_the_next_and_stands_in_its_first_line() {
    let mut sitting = Sitting::at(copy());
    let mut walk = sitting.begin("join", "").unwrap();
    assert_eq!(walk.plan().carried(), []);
    sitting.walk(&mut walk, &[("wheel", "changed")]);
    let card = sitting.juniper();
    let short = card.in_short();
    assert!(short.contains("4 carried"), "{short}");
    let open = card.open;
    assert_eq!(open.len(), 4);
    assert!(
        open[0].starts_with("Wheel was off, left front ("),
        "{open:?}"
    );
    assert!(
        open[0].ends_with(
            ", 48210 mi, Tobias Fenn): its nuts are due at 48220 mi, 48235 mi and 48260 mi."
        ),
        "{open:?}"
    );
    let mut walk = sitting.begin("go", "").unwrap();
    assert_eq!(walk.plan().carried().len(), 4);
    assert_eq!(
        walk.plan().steps().len(),
        5,
        "the floor, and the nuts of four wheels"
    );
    sitting.walk(&mut walk, &[]);
    let heading = sitting.newest().heading.join("\n");
    assert!(heading.contains("Of the haul that trip "), "{heading}");
    assert!(
        heading.contains("Left open before: wheel was off, left front; wheel was off, "),
        "{heading}"
    );
    let journal = sitting.disk.read(&sitting.journal(3), 1 << 20).unwrap();
    let chain = read_chain(&journal);
    assert_eq!(chain.links[0].heading.version, Version::V2);
    assert_eq!(chain.links[1].heading.version, Version::V1);
    assert!(
        sitting.newest().findings[0].starts_with("intact: "),
        "{:?}",
        sitting.newest().findings
    );
    // What stands open is told the same by whoever sits down next.
    let mut later = Sitting::at(sitting.disk.clone());
    assert_eq!(later.juniper(), sitting.juniper());
}

#[test]
fn a_walk_from_paper_is_held_to_what_stood_then_and_marked_with_both_dates() {
    let mut sitting = Sitting::at(copy());
    let mut walk = sitting.begin("join", "").unwrap();
    sitting.walk(&mut walk, &[("wheel", "changed"), ("seat", "proud")]);
    for wrong in ["soon", "2999-01-01 06:10"] {
        let refused = sitting.begin("go", wrong).unwrap_err();
        assert!(refused.contains("Type the day and time"), "{refused}");
    }
    let mut walk = sitting.begin("go", "2026-01-20 06:10").unwrap();
    assert!(walk.paper().is_some());
    assert_eq!(walk.plan().carried(), [], "nothing stood open then");
    sitting.walk(&mut walk, &[]);
    let tale = sitting.newest();
    assert!(
        tale.findings[0].starts_with("intact: "),
        "{:?}",
        tale.findings
    );
    let heading = tale.heading.join("\n");
    assert!(
        heading.contains("FROM PAPER: walked 2026-01-20 06:10 "),
        "{heading}"
    );
    assert!(heading.contains(", entered from 20"), "{heading}");
    let card = sitting.barn().finished[0].clone();
    assert_eq!(
        card.stands,
        "complete, sealed, FROM PAPER of 2026-01-20 06:10"
    );
    // It was walked before, so it ends nothing that was found since.
    assert_eq!(sitting.juniper().defects.len(), 1);
}

#[test]
fn a_trip_that_cannot_be_relied_on_leaves_nothing_and_is_told() {
    let mut sitting = Sitting::at(copy());
    let mut walk = sitting.begin("join", "").unwrap();
    sitting.walk(&mut walk, &[("wheel", "changed")]);
    let path = sitting.journal(2);
    let journal = sitting.disk.read(&path, 1 << 20).unwrap();
    let text = String::from_utf8(journal).unwrap();
    let at = text.find("Wren Ashdown\",\"kind\":\"opened").unwrap();
    let mut file = sitting.disk.open(&path).unwrap();
    sitting
        .disk
        .write_at(&mut file, u64::try_from(at).unwrap(), b"X")
        .unwrap();
    drop(file);
    let mut later = Sitting::at(sitting.disk.clone());
    assert!(later.juniper().open.is_empty());
    let notices = later.barn().notices;
    let told = notices
        .iter()
        .filter(|one| one.contains("counts for nothing here"));
    let told: Vec<&String> = told.collect();
    assert_eq!(told.len(), 1, "{notices:?}");
    assert!(
        told[0].contains("cannot be relied on (altered)"),
        "{told:?}"
    );
    assert_eq!(later.begin("go", "").unwrap().plan().carried(), []);
}

#[test]
fn a_walk_taken_up_again_is_on_the_plan_it_was_begun_on() {
    let mut sitting = Sitting::at(copy());
    let mut walk = sitting.begin("join", "").unwrap();
    sitting.walk(&mut walk, &[("wheel", "changed")]);
    for (walked, carried) in [("", 4), ("2026-01-20 06:10", 0)] {
        let begun = sitting.begin("go", walked).unwrap();
        assert_eq!(begun.plan().carried().len(), carried);
        let disk = sitting.disk.clone();
        drop(sitting);
        sitting = Sitting::at(disk);
        let trip = sitting.barn().unfinished[0].trip.clone();
        let Reply::Walking { walk, .. } = sitting.clerk.perform(Errand::TakeUp { trip }) else {
            panic!("not taken up");
        };
        assert_eq!(walk.plan().carried(), begun.plan().carried());
        assert_eq!(walk.paper(), begun.paper());
        let mut walk = *walk;
        sitting.walk(&mut walk, &[]);
    }
}

#[test]
fn after_an_unhitching_no_list_takes_the_rig_on_the_road_before_its_hitch_up() {
    let mut sitting = Sitting::at(copy());
    let mut walk = sitting.begin("join", "").unwrap();
    sitting.walk(&mut walk, &[]);
    sitting.begin("go", "").unwrap();
    let mut walk = sitting.begin("part", "").unwrap();
    sitting.walk(&mut walk, &[]);
    let refused = sitting.begin("go", "").unwrap_err();
    assert!(
        refused.starts_with("“Go” is not begun: the trailer was unhitched on ")
            && refused.ends_with("Walk the hitch-up first."),
        "{refused}"
    );
    let mut walk = sitting.begin("join", "").unwrap();
    sitting.walk(&mut walk, &[]);
    sitting.begin("go", "").unwrap();
}

/// The stock with Juniper's file changed.
fn with_juniper(from: &str, to: &str) -> Stock {
    assert!(JUNIPER.contains(from), "{from}");
    let text = JUNIPER.replace(from, to);
    let mut stock = stock();
    stock.rigs[0] = Offer {
        read: Rig::read(&text).unwrap(),
        text,
    };
    stock
}

#[test]
fn a_step_that_serves_moves_the_day_it_is_due_next() {
    let from = "what: floor\n    last: { on: 2025-";
    let to = "what: floor\n    last: { on: 2001-";
    let mut sitting = Sitting::with(copy(), with_juniper(from, to));
    let floor = |rig: &RigCard| {
        let mut due = rig.due.iter();
        let floor = due.find(|one| one.told.contains(": Floor: "))?;
        Some(floor.told.clone())
    };
    let before = sitting.juniper();
    let told = floor(&before).unwrap();
    assert!(
        told.starts_with("FIX: Floor: was due by 2002-12-05, "),
        "{told}"
    );
    // It does not keep the rig off the road, and one that nobody signed for does not count.
    let mut walk = sitting.begin("go", "").unwrap();
    assert_eq!(floor(&sitting.juniper()), Some(told));
    assert_eq!(sitting.walk(&mut walk, &[]), Ended::Complete);
    assert_eq!(floor(&sitting.juniper()), None);
}

#[test]
fn a_paper_that_ran_out_keeps_a_road_list_from_being_begun_and_not_the_season_service() {
    let from = "of: truck, until: 20";
    let mut sitting = Sitting::with(copy(), with_juniper(from, "of: truck, until: 19"));
    let refused = sitting.begin("join", "").unwrap_err();
    let why = "“Join” is not begun: the rig stays off the road. STOP: Registration, truck: was \
               due by 1936-12-31, ";
    assert!(refused.starts_with(why), "{refused}");
    let way_out = " Renew it, and write its new last day into the rig file; a horse that stays \
                   home is taken off it.";
    assert!(refused.ends_with(way_out), "{refused}");
    let rig = sitting.juniper();
    let first = rig.matters().remove(0);
    assert!(first.bars && refused.ends_with(&first.told), "{first:?}");
    assert!(
        rig.in_short().starts_with("1 run out"),
        "{}",
        rig.in_short()
    );
    assert_eq!(sitting.barn().likely_next(&rig), None);
    sitting.begin("season", "").unwrap();
}

#[test]
fn the_list_that_likely_comes_next_follows_the_last_one_walked_in_the_haul() {
    let mut sitting = Sitting::at(copy());
    let next = |sitting: &mut Sitting| {
        let (rig, barn) = (sitting.juniper(), sitting.barn());
        barn.likely_next(&rig).map(|list| list.title.clone())
    };
    for (list, under_way, then) in [
        ("join", true, "Go"),
        ("go", true, "Part"),
        ("part", false, "Join"),
    ] {
        let mut walk = sitting.begin(list, "").unwrap();
        sitting.walk(&mut walk, &[]);
        assert_eq!(sitting.juniper().haul.is_some(), under_way, "{list}");
        assert_eq!(next(&mut sitting).as_deref(), Some(then), "{list}");
    }
}

#[test]
fn what_walks_left_is_told_with_what_is_due() {
    let mut sitting = Sitting::at(copy());
    let juniper = Rig::read(JUNIPER).unwrap();
    let before = sitting.clerk.due(&juniper, None).unwrap();
    assert!(before.open.is_empty() && before.defects.is_empty());
    let mut walk = sitting.begin("join", "").unwrap();
    sitting.walk(&mut walk, &[("wheel", "changed"), ("seat", "proud")]);
    let today = sitting.clerk.due(&juniper, None).unwrap();
    assert_eq!(today.open, sitting.juniper().open);
    assert!(today.open[0].ends_with("its nuts are due at 48220 mi, 48235 mi and 48260 mi."));
    assert!(today.defects[0].blocks && today.defects[0].told.starts_with("STOP: Seat"));
}
