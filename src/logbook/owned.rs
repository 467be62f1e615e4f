//! Who sees to which defect, and by when: what managers stated of it, as walks take it in.

use crate::checklist::StepKey;
use crate::haul;
use crate::record::{Crew, DefectOwned, Digest, Id, Owner, Says, Stated, Statements};

/// What a manager stated of a defect, and the trip that is named.
#[derive(Clone, Debug, PartialEq)]
pub struct Owned {
    /// The device that kept the trip.
    pub device: Id,
    /// The trip's number there.
    pub seq: u64,
    /// Its seal.
    pub seal: Digest,
    /// What was said.
    pub said: haul::Owned,
}

/// Everything that managers stated of defects and that counts, those named by others before them.
pub fn owned(statements: &Statements) -> Vec<Owned> {
    let of_kind = |stated: &Stated| match &stated.statement().says {
        Says::DefectOwned(says) => Some(says.clone()),
        _ => None,
    };
    let said = statements.counting();
    let said: Vec<(&Stated, DefectOwned)> = said
        .filter_map(|stated| Some((stated, of_kind(stated)?)))
        .collect();
    let told = said.iter().enumerate().map(|(place, (stated, says))| {
        let statement = stated.statement();
        let behind = statements.behind(&stated.hash());
        let earlier = said.iter().take(place).enumerate();
        let knew = earlier.filter(|(_, (one, _))| behind.contains(&one.hash()));
        Owned {
            device: says.device.clone(),
            seq: says.seq,
            seal: says.seal,
            said: haul::Owned {
                trip: says.trip.to_string(),
                step: StepKey::named(says.step.as_str()),
                owner: owner(statements, &statement.crew, &says.owner),
                by_day: says.by_day,
                by_odometer: says.by_odometer.clone().map(|odometer| odometer.0),
                words: says.words.clone(),
                manager: statement.name.to_string(),
                number: statement.number,
                at: statement.wall.moment(),
                place,
                knew: knew.map(|(at, _)| at).collect(),
            },
        }
    });
    told.collect()
}

/// Who sees to it, by name; whoever is no more in the crew is told as such.
fn owner(statements: &Statements, crew: &Digest, owner: &Owner) -> String {
    let id = match owner {
        Owner::Outside(words) => return words.to_string(),
        Owner::Crew(id) => id,
    };
    let roster = statements.roster();
    let name = |crew: &Crew| crew.signer(id).map(|signer| signer.name.to_string());
    let then = roster.crew(crew).and_then(|revision| name(&revision.crew));
    let then = then.unwrap_or_else(|| id.to_string());
    match roster.in_force() {
        Some(now) if name(&now.crew).is_none() => format!("{then}, who has left the crew,"),
        _ => then,
    }
}
