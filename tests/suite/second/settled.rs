//! Crew files that two managers put in the place of the same one, out of each other's reach: open,
//! settled, and with trips signed under both, judged by the program and by the second verifier.

use super::barns::{both, change, merged, without};
use super::joined::join;
use crate::barn50::making::{Barn, Left, lay, people};
use crate::harness::home::Home;
use crate::record_statements::manager;
use hames::record::{Changed, Crew, CrewChange, Digest, Says, Statements};

const WREN: &str = "wren.ashdown";
const ODILE: &str = "odile.marsh";
const TOBIAS: &str = "tobias.fenn";

/// Odile, Wren, the laptops, and Tobias as a second manager.
fn two_managers() -> Crew {
    let tobias = manager(TOBIAS, "Tobias Fenn");
    people(false).add(&tobias).unwrap()
}

/// A barn with two managers and one trip.
fn barn() -> Barn {
    let mut barn = Barn::founded();
    barn.change_crew(two_managers(), &[(TOBIAS, Changed::Added)]);
    barn.walk(0, WREN, Left::Sealed);
    barn
}

/// A crew statement that stands on all there is and goes on with this branch.
fn settle(barn: &mut Barn, by: &str, branch: Digest) {
    let known: Statements = barn.office.read();
    let roster = known.roster();
    let goes_on = roster
        .revisions()
        .iter()
        .find(|one| one.statement == branch);
    let goes_on = goes_on.unwrap().clone();
    barn.office.crew = goes_on.crew.clone();
    barn.office.heads = barn.heads();
    let says = Says::Crew(CrewChange {
        number: goes_on.change.number + 1,
        before: Some(branch),
        file: goes_on.change.file,
        changes: Vec::new(),
        signed_off: Vec::new(),
    });
    let next = barn.office.next(by, says);
    barn.office.sign(&next, Some(&goes_on.crew));
    barn.keep_statement();
    let text = goes_on.crew.text().as_bytes().to_vec();
    barn.files.insert("crew/allowed_signers".to_owned(), text);
}

/// Odile adds nobody and Tobias takes Wren out, so; each walks on under their own file.
fn forked(how: Changed) -> (Barn, Digest, Digest) {
    let whole = barn();
    let (mut one, mut other) = (whole.clone(), whole);
    let text = two_managers().text().to_owned() + "# as it was\n";
    let kept = Crew::read(text.as_bytes()).unwrap();
    let keeps = change(&mut one, ODILE, kept, &[]);
    one.walk(0, WREN, Left::Sealed);
    let gone = without(&two_managers(), WREN);
    let takes_out = change(&mut other, TOBIAS, gone, &[(WREN, how)]);
    other.walked += 100;
    other.walk(1, ODILE, Left::Sealed);
    (merged(&one, &other), keeps, takes_out)
}

#[test]
fn both_tell_two_crew_files_in_the_place_of_one_until_a_manager_settles_it() {
    let (barn, keeps, takes_out) = forked(Changed::Retired);
    assert_eq!(both(&barn), "fork");
    for branch in [keeps, takes_out] {
        let mut settled = barn.clone();
        settle(&mut settled, ODILE, branch);
        assert_eq!(both(&settled), "intact");
    }
    // Nobody is taken out: what is left is the fork itself.
    let whole = self::barn();
    let (mut one, mut other) = (whole.clone(), whole);
    let file =
        |note: &str| Crew::read((two_managers().text().to_owned() + note).as_bytes()).unwrap();
    let first = change(&mut one, ODILE, file("# one\n"), &[]);
    change(&mut other, TOBIAS, file("# other\n"), &[]);
    one.walk(0, WREN, Left::Sealed);
    other.walked += 100;
    other.walk(1, WREN, Left::Sealed);
    let mut open = merged(&one, &other);
    assert_eq!(both(&open), "fork");
    settle(&mut open, TOBIAS, first);
    assert_eq!(
        both(&open),
        "intact",
        "trips under both were known when it was settled"
    );
    open.walk(2, WREN, Left::Sealed);
    assert_eq!(both(&open), "intact");
}

#[test]
fn both_hold_a_trip_under_the_crew_file_that_ended_to_what_was_known_when_it_was_settled() {
    for (how, word) in [
        (Changed::Retired, "outside-bracket"),
        (Changed::Revoked, "revoked-signer"),
    ] {
        let (mut barn, keeps, takes_out) = forked(how);
        let old = barn.office.read();
        let old = old
            .roster()
            .revisions()
            .iter()
            .find(|one| one.statement == keeps);
        let old = old.unwrap().crew.revision();
        settle(&mut barn, ODILE, takes_out);
        let settled = both(&barn);
        assert_eq!(settled, "intact", "{how:?}: it was known by then");
        // Whoever has Wren's key goes on under the file that kept it.
        barn.walk_as(0, WREN, Left::Sealed, old);
        assert_eq!(both(&barn), word, "{how:?}");
    }
}

#[test]
fn both_let_nobody_settle_anew_who_was_put_out_by_what_was_settled() {
    let whole = barn();
    let (mut one, mut other) = (whole.clone(), whole);
    let gone = without(&two_managers(), TOBIAS);
    let puts_out = change(&mut one, ODILE, gone, &[(TOBIAS, Changed::Revoked)]);
    let text = two_managers().text().to_owned() + "# mine\n";
    let own = Crew::read(text.as_bytes()).unwrap();
    let stays = change(&mut other, TOBIAS, own, &[]);
    let mut barn = merged(&one, &other);
    assert_eq!(both(&barn), "fork");
    settle(&mut barn, ODILE, puts_out);
    let force = |barn: &Barn| {
        let known = barn.office.read();
        known.roster().in_force().unwrap().crew.revision()
    };
    let settled = force(&barn);
    let word = both(&barn);
    assert_eq!(
        word, "revoked-signer",
        "who put him out did not know of his change"
    );
    settle(&mut barn, TOBIAS, stays);
    assert_eq!(force(&barn), settled);
    assert_eq!(both(&barn), "revoked-signer");
}

#[test]
fn both_tell_who_is_left_out_of_the_crew_with_no_word_from_who_was_never_added_to_it() {
    // Odile's crew file just has not got Wren any more; nothing is said of it.
    let mut barn = barn();
    let old = barn.office.crew.revision();
    change(&mut barn, ODILE, without(&two_managers(), WREN), &[]);
    assert_eq!(both(&barn), "intact");
    barn.walk_as(0, WREN, Left::Sealed, old);
    assert_eq!(both(&barn), "revoked-signer");
    assert!(
        told(&barn).contains("leaves out of the crew"),
        "{}",
        told(&barn)
    );

    // Odile adds Tobias on one laptop, which the other knows nothing of and goes on.
    let whole = Barn::founded();
    let (mut one, mut other) = (whole.clone(), whole);
    let text = people(false).text().to_owned() + "# as it was\n";
    let goes_on = change(&mut one, ODILE, Crew::read(text.as_bytes()).unwrap(), &[]);
    change(&mut other, ODILE, people(true), &[(TOBIAS, Changed::Added)]);
    other.walked += 100;
    other.walk(1, TOBIAS, Left::Sealed);
    let mut barn = merged(&one, &other);
    barn.state(join(&barn.office));
    settle(&mut barn, ODILE, goes_on);
    assert_eq!(both(&barn), "intact", "it was known when it was settled");
    barn.walk_as(1, TOBIAS, Left::Sealed, people(true).revision());
    assert_eq!(both(&barn), "unknown-signer");
    let told = told(&barn);
    assert!(
        told.contains("is signed by tobias.fenn, who is not in the crew"),
        "{told}"
    );
    // Nobody took the key out, so it may come back; what was signed in between stays so.
    change(&mut barn, ODILE, people(true), &[(TOBIAS, Changed::Added)]);
    barn.walk(2, TOBIAS, Left::Sealed);
    assert_eq!(both(&barn), "unknown-signer");
}

/// What the program tells of the whole logbook.
fn told(barn: &Barn) -> String {
    let home = Home::new();
    lay(&barn.files, &home.path("book"));
    home.hames("verify book").run().out
}
