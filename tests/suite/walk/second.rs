//! A second reading: another person's, by name, who sees nothing of the first.

use hames::checklist::{Checklist, Plan, StepKey};
use hames::rig::Rig;
use hames::rig::demo::JUNIPER;
use hames::walk::{Act, Entry, Moment, Now, Refusal, Walk, Words};

/// The ball read twice; the second reading is held to the first, and hangs on a step the rig may
/// leave out.
const LIST: &str = r#"
format: hames-checklist/1
id: twice
title: Read twice
revision: 1
rigs: [bumper-pull]
cautions: [This list is short.]
sections:
  - id: ball
    title: Ball
    style: read-do
    pause: true
    complete: Two people read the ball alike.
    steps:
      - id: spare-seen
        name: Spare
        act: Look for the spare.
        why: A tire fails.
        skipped: The rig waits.
        place: wheels
        when:
          rig: { figure: spare.count, at-or-above: 1 }
          because: there is no spare
        sighting:
          states:
            - { id: there, seen: "A spare on its rack", verdict: ok }
            - { id: gone, seen: "An empty rack", verdict: note }
            - { id: cannot-see, seen: "The rack cannot be seen", verdict: note, cannot-see: true }
          authority: default
          source: common practice, no source
      - id: spare-size
        name: Spare size
        act: Read the size of the spare.
        why: A small spare runs hot.
        skipped: The spare bursts.
        place: wheels
        when:
          answered: { step: spare-seen, state: there }
          because: there is no spare to read
        sighting:
          states:
            - { id: same, seen: "The size of the others", verdict: ok }
            - { id: other, seen: "Another size", verdict: note }
            - { id: cannot-see, seen: "The wall cannot be read", verdict: note, cannot-see: true }
          authority: default
          source: common practice, no source
      - id: first
        name: Ball size
        act: Measure the ball.
        why: A small ball lets go.
        skipped: The coupler jumps off.
        place: ball
        critical: true
        reading:
          dimension: length
          unit: in
          instrument: caliper
          plausible: { from: 1 in, to: 4 in }
          limits:
            - verdict: stop
              below: { figure: ball.diameter, plus: -0.016 in }
              authority: plate
              source: stamp on the ball
              branch: other
      - id: again
        name: Ball size again
        act: Measure the ball as the second person.
        why: Two slips are seldom the same.
        skipped: A slip stays.
        place: ball
        critical: true
        second-reading:
          dimension: length
          unit: in
          instrument: caliper
          plausible: { from: 1 in, to: 4 in }
          limits:
            - verdict: stop
              below: { step: first, plus: -0.01 in }
              authority: default
              source: a hundredth of an inch, common practice, no source
              branch: other
            - verdict: stop
              above: { step: first, plus: 0.01 in }
              authority: default
              source: a hundredth of an inch, common practice, no source
              branch: other
branches:
  - id: other
    found: Ball and reading do not agree.
    now: [Measure the ball once more.]
    ends: answer-afresh
"#;

fn moment() -> Moment {
    Moment {
        wall: chrono::DateTime::parse_from_rfc3339("2026-11-25T07:30:00-05:00").unwrap(),
        boot: "b".to_owned(),
        mono_ms: 1,
    }
}

fn walk(rig: Rig) -> Walk {
    let words = |text| Words::read(text).unwrap();
    let plan = Plan::lay(Checklist::read(LIST).unwrap(), rig).unwrap();
    Walk::begin(plan, words("Wren Ashdown"), words("Tobias Fenn"), moment())
}

fn juniper() -> Rig {
    let mut rig = Rig::read(JUNIPER).unwrap();
    rig.trailer.spare = None;
    rig
}

fn act(walk: &mut Walk, act: &Act) -> Result<Entry, Refusal> {
    let event = walk.decide(act, &moment())?;
    let entry = Entry {
        at: moment(),
        actor: walk.reader().clone(),
        event,
    };
    walk.apply(&entry);
    Ok(entry)
}

fn read(typed: &str) -> Act {
    Act::Read {
        typed: typed.to_owned(),
        instrument: "caliper".to_owned(),
    }
}

fn read_as(who: &str, typed: &str) -> Act {
    Act::ReadAs {
        who: who.to_owned(),
        typed: typed.to_owned(),
        instrument: "caliper".to_owned(),
    }
}

/// A walk at its second reading, the first being 2.31 in.
fn at_the_second() -> Walk {
    let mut walk = walk(juniper());
    for one in [Act::Open, read("2.31 in"), Act::Open] {
        act(&mut walk, &one).unwrap();
    }
    walk
}

#[test]
fn what_hangs_on_a_step_the_rig_leaves_out_is_left_out_with_it() {
    let walk = walk(juniper());
    let left: Vec<&str> = walk
        .plan()
        .left()
        .iter()
        .map(|left| left.step.as_str())
        .collect();
    assert_eq!(left, ["spare-seen", "spare-size"]);
}

#[test]
fn only_somebody_who_did_none_of_the_work_reads_a_second_time() {
    let mut walk = at_the_second();
    assert!(matches!(
        act(&mut walk, &read("2.31 in")),
        Err(Refusal::OtherAsk { .. })
    ));
    let own = act(&mut walk, &read_as("Tobias Fenn", "2.31 in"));
    assert_eq!(
        own.unwrap_err(),
        Refusal::SamePerson("Tobias Fenn".to_owned())
    );
    let typist = act(&mut walk, &read_as("Wren Ashdown", "2.31 in"));
    assert_eq!(
        typist.unwrap_err(),
        Refusal::HasSeen("Wren Ashdown".to_owned())
    );
    act(&mut walk, &read_as("Odile Marsh", "2.312 in")).unwrap();
    let (_, again) = walk.step(1).unwrap();
    let answer = again.answers.last().unwrap();
    assert_eq!(answer.doer.as_str(), "Odile Marsh");
    assert!(matches!(walk.now(), Now::SectionEnd(0)));
}

#[test]
fn two_readings_that_differ_are_a_stop_and_the_first_names_its_doer() {
    let mut walk = at_the_second();
    act(&mut walk, &read_as("Odile Marsh", "2.25 in")).unwrap();
    assert!(matches!(walk.now(), Now::Branch(1)));
    let (_, first) = walk.step(0).unwrap();
    assert_eq!(first.answers[0].doer.as_str(), "Tobias Fenn");
}

#[test]
fn the_step_is_blind_whatever_the_file_says() {
    let walk = at_the_second();
    let index = walk.plan().index(&StepKey::named("again")).unwrap();
    assert!(walk.plan().steps()[index].step.blind);
}

#[test]
fn the_journal_of_a_second_reading_is_walked_again_to_the_same() {
    let (mut walk, mut again) = (walk(juniper()), walk(juniper()));
    for one in [
        Act::Open,
        read("2.31 in"),
        Act::Open,
        // A slip is asked once more, of whoever reads.
        read_as("Odile Marsh", "0.5 in"),
        read_as("Odile Marsh", "2.31 in"),
        Act::CloseSection,
    ] {
        let entry = act(&mut walk, &one).unwrap();
        assert_eq!(again.repeat(&entry), Ok(()), "{one:?}");
    }
    assert_eq!(again, walk);
}
