//! One trip of the year as its files.

use crate::cli::clerk::{PROGRAM, Trouble};
use crate::cli::year::crew::{Key, Keys, read_id};
use crate::cli::year::{Kept, Sequence};
use crate::record::{
    Begun, Counts, Deed, Digest, Left, Mode, Namespace, Pinned, Said, Seal, Tip, Wall, append,
    meaning,
};
use crate::store::{Device, Unsynced};
use crate::units::{Dimension, Typed};
use crate::year::Trip;

/// What the walks are walked by, byte for byte.
#[derive(Clone, Debug)]
pub(super) struct Texts {
    pub(super) lists: Vec<String>,
    pub(super) rigs: Vec<String>,
}

/// Writes a trip: journal, what it was walked by, seal and both signatures.
pub(super) fn keep_trip(
    trip: &Trip,
    texts: &Texts,
    keys: &Keys,
    (device, laptop): (&Device<Unsynced>, &Key),
    place: Sequence,
    newest: Option<Digest>,
) -> Result<Kept, Trouble> {
    let text = |texts: &[String], at: usize| texts.get(at).cloned().unwrap_or_default();
    let (list, rig) = (text(&texts.lists, trip.list), text(&texts.rigs, trip.rig));
    let begun = begun(trip, (&list, &rig), keys, laptop, place, newest)?;
    let (journal, end) = journal(trip, &begun)?;
    let folder = device.place_for(place.seq, &begun.trip, &end.last)?;
    let mut files = vec![
        (folder.checklist(), list.into_bytes()),
        (folder.rig(), rig.into_bytes()),
        (folder.crew(), keys.crew.text().as_bytes().to_vec()),
        (folder.journal(), journal),
    ];
    let mut kept = Kept::unsigned(&end);
    if let Some(seal) = seal(trip, &begun, keys, &end)? {
        let signer = keys.people.iter().find(|key| key.id == seal.person);
        let bytes = seal.write()?;
        let sign = |key: &Key, deed| key.open.sign(Namespace::new(deed, Mode::Demo), &bytes);
        let by_person = sign(signer.unwrap_or(laptop), Deed::Performed)?;
        let by_device = sign(laptop, Deed::Witnessed)?;
        kept = Kept::sealed(Seal::hash(&bytes));
        files.push((folder.person_signature(), by_person.into_bytes()));
        files.push((folder.device_signature(), by_device.into_bytes()));
        files.push((folder.seal(), bytes));
    }
    let borrowed: Vec<_> = files
        .iter()
        .map(|(path, bytes)| (path.clone(), bytes.as_slice()))
        .collect();
    device.keep(&folder, &borrowed)?;
    Ok(kept)
}

fn begun(
    trip: &Trip,
    (list, rig): (&str, &str),
    keys: &Keys,
    laptop: &Key,
    place: Sequence,
    newest: Option<Digest>,
) -> Result<Begun, Trouble> {
    let bound = |id: &str, text: &str| Pinned {
        id: id.to_owned(),
        hash: Digest::of(text.as_bytes()),
    };
    let left = |left: &crate::year::Left| {
        Ok(Left {
            carried: left.carried.clone(),
            since: read_id(&left.since)?,
        })
    };
    let carried: Result<Vec<Left>, Trouble> = trip.carried.iter().map(left).collect();
    let typed = trip.odometer.as_ref();
    Ok(Begun {
        trip: read_id(&trip.id)?,
        mode: Mode::Demo,
        device: laptop.id.clone(),
        seq: place.seq,
        previous: place.ends,
        checklist: bound(&trip.plan.checklist().id, list),
        rig: bound(&trip.plan.rig().id, rig),
        crew: keys.crew.revision(),
        manager: newest,
        program: PROGRAM.to_owned(),
        odometer: typed.and_then(|typed| Typed::read(typed, Dimension::Length).ok()),
        reader: trip.reader.clone(),
        doer: trip.doer.clone(),
        haul: trip.haul.as_deref().map(read_id).transpose()?,
        carried: carried?,
        paper: None,
        answers: Vec::new(),
        drill: None,
    })
}

fn journal(trip: &Trip, begun: &Begun) -> Result<(Vec<u8>, Tip), Trouble> {
    let first = Said::Begun(Box::new(begun.clone()));
    let (mut journal, mut end) = append(Tip::START, &trip.began, &trip.reader, &first)?;
    for entry in &trip.entries {
        let said = Said::Happened(Box::new(entry.event.clone()));
        let (line, next) = append(end, &entry.at, &entry.actor, &said)?;
        journal.extend(line);
        end = next;
    }
    Ok((journal, end))
}

fn seal(trip: &Trip, begun: &Begun, keys: &Keys, end: &Tip) -> Result<Option<Seal>, Trouble> {
    let (Some((person, at)), Some(outcome)) = (&trip.signed, trip.walk.ended()) else {
        return Ok(None);
    };
    let key = keys.of(person)?;
    let wall = Wall::new(at.wall);
    Ok(wall.map(|wall| Seal {
        trip: begun.trip.clone(),
        mode: begun.mode,
        device: begun.device.clone(),
        seq: begun.seq,
        lines: end.lines,
        last: end.last,
        outcome,
        counts: Counts::of(&trip.entries),
        meaning: meaning(outcome).to_owned(),
        name: key.name.clone(),
        role: key.role,
        person: key.id.clone(),
        wall,
    }))
}
