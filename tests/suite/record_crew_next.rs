//! The next crew file: what a manager may change, and what no change may do.

use crate::harness::hardware::Hardware;
use crate::record_statements::{Office, key, manager};
use crate::record_trip::{TOBIAS, WREN, id, words};
use hames::record::{
    Changed, Crew, CrewAct, CrewNow, Mode, NextCrew, NotChanged, PrintedName, PublicKey, Role,
};

fn name(text: &str) -> PrintedName {
    PrintedName::read(text).unwrap()
}

fn next(office: &Office, act: &CrewAct) -> Result<NextCrew, NotChanged> {
    let known = office.read();
    let now = CrewNow {
        crew: &office.crew,
        roster: known.roster(),
        mode: Mode::Real,
    };
    now.next(act, &id("odile.marsh"))
}

/// The change is stated and in force.
fn change(office: &mut Office, act: &CrewAct) {
    let next = next(office, act).unwrap();
    let changes: Vec<(&str, Changed)> = next
        .changes
        .iter()
        .map(|change| (change.who.as_str(), change.what))
        .collect();
    office.change_crew("odile.marsh", next.crew.clone(), &changes);
    assert_eq!(office.read().faults(), []);
}

fn add(who: &str, named: &str, roles: &[Role], key: &PublicKey) -> CrewAct {
    CrewAct::Add {
        id: id(who),
        name: name(named),
        roles: roles.to_vec(),
        key: key.clone(),
        words: None,
    }
}

fn groom(who: &str, named: &str, key: &PublicKey) -> CrewAct {
    add(who, named, &[Role::Groom], key)
}

#[test]
fn a_change_touches_one_line_and_leaves_every_other_as_it_is() {
    let mut office = Office::founded();
    let commented = format!("# Quillwater Stables\n{}", office.crew.text());
    office.crew = Crew::read(commented.as_bytes()).unwrap();
    let act = CrewAct::Roles(id("wren.ashdown"), vec![Role::Driver, Role::Examiner]);
    let after = next(&office, &act).unwrap().crew;
    let lines = |crew: &Crew| {
        let lines = crew.text().lines().map(str::to_owned);
        lines.collect::<Vec<_>>()
    };
    let (before, after) = (lines(&office.crew), lines(&after));
    assert_eq!(before.len(), after.len());
    for (before, after) in before.iter().zip(&after) {
        assert_eq!(
            before == after,
            !before.starts_with("wren.ashdown,"),
            "{after}"
        );
    }
    let gone = CrewAct::Retire(id("wren.ashdown"), words("moved away"));
    let left = next(&office, &gone).unwrap().crew;
    assert_eq!(left.signers().len() + 1, office.crew.signers().len());
    assert!(left.text().starts_with("# Quillwater Stables\n"));
}

#[test]
fn an_id_and_a_key_are_one_persons_for_good_even_when_they_have_left() {
    let mut office = Office::founded();
    let retire = CrewAct::Retire(id("wren.ashdown"), words("moved away"));
    change(&mut office, &retire);
    let (wren, tobias) = (WREN.public(), TOBIAS.public());
    for (act, not) in [
        (
            groom("wren.ashdown", "Tobias Fenn", tobias),
            NotChanged::IdOf(id("wren.ashdown"), name("Wren Ashdown")),
        ),
        (
            add("wren.ashdown", "Wren Ashdown", &[Role::Device], tobias),
            NotChanged::IdOf(id("wren.ashdown"), name("Wren Ashdown")),
        ),
        (
            groom("tobias.fenn", "Tobias Fenn", wren),
            NotChanged::KeyOf(id("wren.ashdown"), name("Wren Ashdown")),
        ),
        (
            groom("odile.marsh", "Odile Marsh", tobias),
            NotChanged::Here(id("odile.marsh"), name("Odile Marsh")),
        ),
        (
            add("tobias.fenn", "Tobias Fenn", &[], tobias),
            NotChanged::NoRole,
        ),
    ] {
        assert_eq!(next(&office, &act), Err(not), "{act:?}");
    }
    // The same person comes back, with the key of before or another.
    assert!(next(&office, &groom("wren.ashdown", "Wren Ashdown", wren)).is_ok());
    assert!(next(&office, &groom("wren.ashdown", "Wren Ashdown", tobias)).is_ok());
}

#[test]
fn a_revoked_key_is_never_taken_again_however_it_is_written_down() {
    let mut office = Office::founded();
    let hardware = Hardware::new(9);
    let file = PublicKey::read(&hardware.as_a_file()).unwrap();
    let act = groom("tobias.fenn", "Tobias Fenn", &file);
    change(&mut office, &act);
    let revoke = CrewAct::Revoke(id("tobias.fenn"), words("lost"), None);
    change(&mut office, &revoke);
    for key in [&file, &hardware.key()] {
        let again = groom("tobias.fenn", "Tobias Fenn", key);
        assert_eq!(next(&office, &again), Err(NotChanged::RevokedKey));
    }
    assert!(
        next(
            &office,
            &groom("tobias.fenn", "Tobias Fenn", TOBIAS.public())
        )
        .is_ok()
    );
}

#[test]
fn a_manager_is_always_left_and_a_key_does_not_revoke_itself() {
    let mut office = Office::founded();
    let odile = || id("odile.marsh");
    let lower = CrewAct::Roles(odile(), vec![Role::Driver]);
    let lost = |key: Option<PublicKey>| CrewAct::Revoke(odile(), words("lost"), key);
    let own = key("odile.marsh").public().clone();
    for (act, not) in [
        (
            CrewAct::Retire(odile(), words("gone")),
            NotChanged::LastManager,
        ),
        (lower.clone(), NotChanged::LastManager),
        (lost(None), NotChanged::OnlyManagersKey(odile())),
        (lost(Some(own)), NotChanged::SameKey(name("Odile Marsh"))),
    ] {
        assert_eq!(next(&office, &act), Err(not), "{act:?}");
    }
    // Alone she replaces her key in one go; with another manager there, that one does it.
    let new = TOBIAS.public().clone();
    assert!(next(&office, &lost(Some(new.clone()))).is_ok());
    let second = manager("tobias.fenn", "Tobias Fenn");
    let act = add("tobias.fenn", "Tobias Fenn", &[Role::Manager], &second.key);
    change(&mut office, &act);
    for act in [lost(None), lost(Some(new))] {
        assert_eq!(next(&office, &act), Err(NotChanged::OwnKey), "{act:?}");
    }
    assert!(next(&office, &lower).is_ok());
}

#[test]
fn nobody_is_a_person_and_a_device_in_turn() {
    let office = Office::founded();
    let (laptop, wren) = (id("laptop-7f3a"), id("wren.ashdown"));
    for act in [
        CrewAct::Roles(laptop, vec![Role::Groom]),
        CrewAct::Roles(wren, vec![Role::Device]),
    ] {
        assert!(matches!(
            next(&office, &act),
            Err(NotChanged::PersonOrDevice(_))
        ));
    }
    let hardware = Hardware::new(9).key();
    let device = add("laptop-0001", "Second laptop", &[Role::Device], &hardware);
    assert!(matches!(next(&office, &device), Err(NotChanged::Crew(_))));
}
