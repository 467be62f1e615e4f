//! A manager's question comes back to whoever had a hand in the trip, and the answer is in the
//! signed bytes of the walk it was given at.

use crate::clerk_manager::{books, clerk, consent, done, newest, odile, walked};
use crate::store::pretend::Pretend;
use hames::cli::clerk::{Plans, Said};
use hames::desk::{Errand, PutQuestion, Reply};
use hames::logbook::{Answer, Answers, unanswered};
use hames::record::{Answered, Finding, Id, Opinion};
use hames::store::TripFolder;
use hames::walk::{Act, Ended, Words};

const WREN: &str = "Wren Ashdown";
const TOBIAS: &str = "Tobias Fenn";

fn words(text: &str) -> Words {
    Words::read(text).unwrap()
}

fn says(disk: &Pretend, trip: &(Id, TripFolder), opinion: Opinion, remarks: Option<&str>) {
    let said = Said {
        took_ms: 61_000,
        opinion,
        opened: Vec::new(),
        remarks: remarks.map(words),
    };
    let signed = clerk(disk).countersign(trip, (&odile(disk), &consent()), said);
    signed.map(drop).map_err(|why| why.to_string()).unwrap();
}

/// What is put to these people, and what is told before.
fn put(disk: &Pretend, people: &[&str]) -> (Vec<PutQuestion>, Vec<String>) {
    let reply = clerk(disk).perform(Errand::MayBegin {
        rig: "juniper".into(),
        checklist: "rig-match".into(),
        people: people.iter().map(|name| (*name).to_owned()).collect(),
    });
    match reply {
        Reply::MayBegin { notices, questions } => (questions, notices),
        other => panic!("{other:?}"),
    }
}

/// Begins a walk of these people with an answer, and signs it where somebody does.
fn walks(
    disk: &Pretend,
    (reader, doer): (&str, &str),
    answers: &[Answered],
    signer: Option<&str>,
) -> Vec<String> {
    let mut clerk = clerk(disk);
    let begun = clerk.perform(Errand::Begin {
        rig: "juniper".into(),
        checklist: "rig-match".into(),
        reader: reader.into(),
        doer: doer.into(),
        odometer: String::new(),
        walked: String::new(),
        answers: answers.to_vec(),
    });
    done(&begun);
    done(&clerk.perform(Errand::Record(Act::End {
        outcome: Ended::Incomplete,
        words: "rain".into(),
    })));
    if let Some(signer) = signer {
        done(&clerk.perform(Errand::Seal {
            signer: signer.into(),
            consent: consent(),
        }));
    }
    match begun {
        Reply::Walking { notices, .. } => notices,
        other => panic!("{other:?}"),
    }
}

/// What was answered to the only question that is open.
fn answers(disk: &Pretend) -> Vec<Answer> {
    let books = books(disk);
    let statements = books.statements().unwrap();
    let mut answers = Answers::of(&statements);
    for (device, folder) in books.trips().unwrap() {
        let read = books.read(&device, &folder, &mut Plans::default());
        let read = read.unwrap();
        answers.take((&device, folder.seq), &read.examined, read.finding());
    }
    assert!(answers.to_unknown().is_empty());
    let open = unanswered(&statements);
    assert_eq!(open.len(), 1);
    answers.to(&open[0].by.hash)
}

#[test]
fn a_question_is_put_to_who_had_a_hand_in_the_trip_until_one_of_them_answers() {
    let disk = walked((WREN, TOBIAS), None, "wren.ashdown");
    let trip = newest(&disk);
    says(&disk, &trip, Opinion::Asked, Some("Whose rain?"));
    assert_eq!(put(&disk, &[]).0, []);
    let (none_yet, told) = put(&disk, &[TOBIAS]);
    assert_eq!(none_yet, [], "it is answered once both are named");
    assert!(
        told.iter().any(|one| one.contains("“Whose rain?”")),
        "{told:?}"
    );
    let (_, told) = put(&disk, &["Odile Marsh"]);
    assert!(!told.iter().any(|one| one.contains("rain")), "{told:?}");
    let (asked, _) = put(&disk, &["Odile Marsh", TOBIAS]);
    let [question] = asked.as_slice() else {
        panic!("{asked:?}");
    };
    assert_eq!(
        (question.to.as_str(), question.by.as_str()),
        (TOBIAS, "Odile Marsh")
    );
    assert!(
        question.about.contains("“Match the rig"),
        "{}",
        question.about
    );

    // Left for later, nothing is barred, and it is told and put again.
    let told = walks(&disk, (WREN, TOBIAS), &[], Some("wren.ashdown"));
    assert!(told.contains(&question.told()), "{told:?}");
    assert_eq!(put(&disk, &[WREN, TOBIAS]).0.len(), 1);

    let answer = Answered {
        question: question.question,
        by: words(TOBIAS),
        words: words("It rained on the ferry."),
    };
    let told = walks(
        &disk,
        (WREN, TOBIAS),
        std::slice::from_ref(&answer),
        Some("wren.ashdown"),
    );
    assert!(!told.iter().any(|one| one.contains("rain")), "{told:?}");
    assert_eq!(put(&disk, &[WREN, TOBIAS]).0, []);
    let found = answers(&disk);
    assert_eq!(found.len(), 1, "it came up, and stays open");
    assert_eq!(found[0].answered, answer);
    assert!(found[0].counts() && !found[0].stranger);
    let told = found[0].to_string();
    assert!(
        told.starts_with("“It rained on the ferry.”, answered by Tobias Fenn on 2"),
        "{told}"
    );

    // Only now is it worth asking again; then it is put again.
    says(&disk, &trip, Opinion::Asked, Some("Which ferry?"));
    let (asked, _) = put(&disk, &[WREN, TOBIAS]);
    assert_eq!(asked.len(), 1);
    assert_eq!(
        (asked[0].to.as_str(), asked[0].words.as_str()),
        (WREN, "Which ferry?")
    );
    says(&disk, &trip, Opinion::Agreed, None);
    assert_eq!(put(&disk, &[WREN, TOBIAS]).0, []);
}

#[test]
fn an_answer_counts_once_it_is_signed_and_only_where_its_trip_verifies() {
    let disk = walked((WREN, TOBIAS), None, "wren.ashdown");
    let trip = newest(&disk);
    says(&disk, &trip, Opinion::Asked, Some("Whose rain?"));
    let (asked, _) = put(&disk, &[WREN, TOBIAS]);
    let answer = |by: &str| Answered {
        question: asked[0].question,
        by: words(by),
        words: words("Nobody's."),
    };
    walks(
        &disk,
        (WREN, "June Ashdown"),
        &[answer("June Ashdown")],
        None,
    );
    let [found] = answers(&disk).try_into().unwrap();
    assert!(!found.counts() && found.stranger);
    let told = found.to_string();
    assert!(
        told.contains("answered by June Ashdown, who is not named in that trip,"),
        "{told}"
    );
    assert!(
        told.ends_with("until then the answer counts for nothing"),
        "{told}"
    );
    assert_eq!(
        put(&disk, &[WREN, TOBIAS]).0,
        [],
        "it is in a record already"
    );

    walks(&disk, (WREN, TOBIAS), &[answer(WREN)], Some("wren.ashdown"));
    let seal = newest(&disk).1.person_signature();
    let signed = disk.seen(&seal).unwrap();
    disk.place(&seal, &signed[..signed.len() / 2]);
    let last = answers(&disk).pop().unwrap();
    assert!(!last.counts() && last.finding > Finding::Unsealed);
    let told = last.to_string();
    assert!(told.contains("so the answer counts for nothing"), "{told}");
    disk.place(&seal, &signed);
    assert!(answers(&disk).pop().unwrap().counts());
}

#[test]
fn nobody_is_made_to_answer_who_is_not_on_the_walk() {
    let disk = walked((WREN, TOBIAS), None, "wren.ashdown");
    let trip = newest(&disk);
    says(&disk, &trip, Opinion::Asked, Some("Whose rain?"));
    let (asked, _) = put(&disk, &[WREN, TOBIAS]);
    let reply = clerk(&disk).perform(Errand::Begin {
        rig: "juniper".into(),
        checklist: "rig-match".into(),
        reader: WREN.into(),
        doer: WREN.into(),
        odometer: String::new(),
        walked: String::new(),
        answers: vec![Answered {
            question: asked[0].question,
            by: words(TOBIAS),
            words: words("Mine."),
        }],
    });
    let Reply::Cannot(why) = reply else {
        panic!("{reply:?}");
    };
    assert!(
        why.contains("an answer is given by whoever reads or does"),
        "{why}"
    );
    assert_eq!(newest(&disk), trip, "nothing was begun");
}

#[test]
fn where_the_walk_is_refused_it_is_told_that_the_answer_is_not_recorded() {
    let disk = walked((WREN, TOBIAS), None, "wren.ashdown");
    says(&disk, &newest(&disk), Opinion::Asked, Some("Whose rain?"));
    let (questions, _) = put(&disk, &[WREN, TOBIAS]);
    let answer = Answered {
        question: questions[0].question,
        by: words(TOBIAS),
        words: words("It rained on the ferry."),
    };
    let reply = clerk(&disk).perform(Errand::Begin {
        rig: "juniper".into(),
        checklist: "rig-match".into(),
        reader: WREN.into(),
        doer: TOBIAS.into(),
        odometer: "48 furlongs".into(),
        walked: String::new(),
        answers: vec![answer],
    });
    let Reply::Cannot(sentence) = reply else {
        panic!("{reply:?}");
    };
    assert!(
        sentence.contains("is not recorded; it is put again"),
        "{sentence}"
    );
    assert_eq!(put(&disk, &[WREN, TOBIAS]).0, questions);
}

#[test]
fn the_three_newest_questions_are_put_and_the_others_told_with_the_command_for_them() {
    let disk = walked((WREN, TOBIAS), None, "wren.ashdown");
    let days = ["first", "second", "third", "fourth", "fifth"];
    for day in days {
        says(&disk, &newest(&disk), Opinion::Asked, Some(day));
        walks(&disk, (WREN, TOBIAS), &[], Some("wren.ashdown"));
    }
    let (asked, notices) = put(&disk, &[WREN, TOBIAS]);
    let asked: Vec<&str> = asked.iter().map(|one| one.words.as_str()).collect();
    assert_eq!(asked, ["fifth", "fourth", "third"]);
    let older = "2 older questions of managers wait for an answer as well. Every question with \
                 its trip: hames logbook questions";
    assert!(notices.iter().any(|one| one == older), "{notices:#?}");
    // Neither are they told one after the other while one person is named.
    let (_, notices) = put(&disk, &[WREN]);
    let told = |day: &&str| notices.iter().any(|one| one.contains(&format!("“{day}”")));
    assert_eq!(days.map(|day| told(&day)), [false, false, true, true, true]);
    assert!(notices.iter().any(|one| one == older), "{notices:#?}");
}
