//! What people do at the keys: begin, take up, act, sign, leave.

use super::Day;
use super::office::Passed;
use crate::sim::actor::{self, DOERS, READERS};
use crate::sim::barn::{PEOPLE, RECRUITS, passphrase};
use crate::sim::law::{broken, fold};
use hames::desk::{Consent, Errand, Reply};
use hames::walk::Now;

impl Day {
    /// Somebody sits down and does what is next for a while.
    pub(super) fn at_the_keys(&mut self, at: usize) {
        if self.laptops[at].clerk.is_none() {
            self.tell(at, "the program is started");
            self.laptops[at].open(self.stock);
        }
        for _ in 0..=self.dice.below(8) {
            match &self.laptops[at].in_hand {
                None => self.begins(at),
                Some(hand) if matches!(hand.walk.now(), Now::Ended(_)) => self.signs(at),
                Some(hand) => {
                    let act = actor::next(&hand.walk, &mut self.dice);
                    self.tell(at, &format!("{act:?}"));
                    let reply = self.laptops[at].act(act);
                    self.settle(at, &reply);
                }
            }
            if self.laptops[at].clerk.is_none() {
                return;
            }
            self.laptops[at]
                .world
                .pass(self.dice.below(40_000).try_into().unwrap());
        }
        self.is_the_fold(at);
    }

    /// Takes up what is unfinished, or begins the next trip.
    fn begins(&mut self, at: usize) {
        let unfinished = match self.laptops[at].look_around() {
            Ok(barn) => barn.unfinished,
            Err(sentence) => return self.cannot(at, &sentence),
        };
        let errand = if unfinished.is_empty() || self.dice.in_hundred(30) {
            self.tell(at, "a trip is begun");
            self.begin()
        } else {
            let trip = self.dice.of(&unfinished).trip.clone();
            self.tell(at, &format!("{trip} is taken up"));
            Errand::TakeUp { trip }
        };
        let legal = matches!(errand, Errand::TakeUp { .. });
        match self.laptops[at].perform(errand) {
            Reply::Cannot(sentence) if legal => self.cannot(at, &sentence),
            reply @ Reply::Walking { .. } if !legal => {
                self.passed(at, None);
                self.settle(at, &reply);
            }
            reply => self.settle(at, &reply),
        }
    }

    /// A beginning as it is typed: now and then by somebody who may not, or from paper.
    fn begin(&mut self) -> Errand {
        let list = self.dice.of(&self.stock.checklists).heading.id.clone();
        let rig = self.dice.of(&self.stock.rigs).read.id.clone();
        let joined = RECRUITS.map(|(_, name, _)| name);
        let readers: &[&str] = match self.dice.below(100) {
            0..5 => &DOERS,
            5..30 => &joined,
            _ => &READERS,
        };
        Errand::Begin {
            rig,
            checklist: list,
            reader: (*self.dice.of(readers)).to_owned(),
            doer: (*self.dice.of(&DOERS)).to_owned(),
            odometer: (*self.dice.of(&["48210 mi", "", "77586 km", "4821O"])).to_owned(),
            walked: (*self.dice.of(&["", "", "", "2026-11-20 06:10"])).to_owned(),
            answers: Vec::new(),
        }
    }

    /// One of those who walked signs; now and then with another person's passphrase first.
    pub(super) fn signs(&mut self, at: usize) {
        let hand = self.laptops[at].in_hand.as_ref().unwrap();
        let (walk, seq) = (&hand.walk, hand.folder.seq);
        let mut may: Vec<&str> = PEOPLE
            .iter()
            .chain(&RECRUITS)
            .filter(|(_, name, _)| walk.is_walked_by(name))
            .map(|(id, ..)| *id)
            .collect();
        if self.dice.in_hundred(50) {
            may.reverse();
        }
        if self.dice.in_hundred(10) {
            let before = self.laptops[at].disk.changes();
            let wrong = Errand::Seal {
                signer: may[0].to_owned(),
                consent: Consent::Passphrase(passphrase("hay and oats")),
            };
            let reply = self.laptops[at].perform(wrong);
            if matches!(reply, Reply::Sealed(_)) || self.laptops[at].disk.changes() != before {
                broken("a wrong passphrase signed, or wrote something");
            }
        }
        let mut said = String::new();
        for who in may {
            self.tell(at, &format!("{who} signs"));
            let reply = self.laptops[at].perform(Errand::Seal {
                signer: who.to_owned(),
                consent: Consent::Passphrase(passphrase(who)),
            });
            match reply {
                Reply::Sealed(_) => return self.passed(at, Some((seq, who))),
                Reply::Cannot(sentence) => said = sentence,
                other => panic!("{other:?}"),
            }
        }
        self.cannot(at, &said);
    }

    /// A trip was begun, or signed: the one in hand.
    fn passed(&mut self, at: usize, signed: Option<(u64, &str)>) {
        let laptop = &self.laptops[at];
        let begun = || laptop.in_hand.as_ref().expect("a walk in hand").folder.seq;
        self.office.passed.push(Passed {
            device: laptop.device,
            seq: signed.map_or_else(begun, |(seq, _)| seq),
            signed: signed.map(|(_, who)| who.to_owned()),
        });
    }

    /// After each answer: power that went takes the program with it, and a disk that refused a
    /// line sends people to paper.
    fn settle(&mut self, at: usize, reply: &Reply) {
        match reply {
            _ if self.laptops[at].disk.is_dead() => self.comes_back(at),
            Reply::ReadOnly(sentence) => self.cannot(at, sentence),
            Reply::Cannot(sentence) => self.tell(at, sentence),
            _ => {}
        }
    }

    /// What must be possible is refused: only a disk or the power may do that.
    fn cannot(&mut self, at: usize, sentence: &str) {
        self.tell(at, sentence);
        if self.laptops[at].disk.is_dead() {
            return self.comes_back(at);
        }
        if !self.laptops[at].disk.is_troubled() {
            broken(&format!("with a good disk: {sentence}"));
        }
        self.laptops[at].close();
        if self.dice.in_hundred(70) {
            self.tell(at, "the disk is seen to");
            self.laptops[at].disk.mend();
        }
    }

    /// The walk on the screen is the one its journal tells.
    fn is_the_fold(&mut self, at: usize) {
        let laptop = &self.laptops[at];
        if let Some(hand) = &laptop.in_hand
            && !laptop.read_only
            && self.dice.in_hundred(25)
            && fold(&laptop.disk, laptop.device, &hand.folder) != hand.walk
        {
            broken("the walk on the screen is not the one its journal tells");
        }
    }
}
