//! Which steps of the year gave trouble, counted once more from its events.

use super::YEAR;
use hames::review::Steps;
use hames::walk::{Event, Round};

fn count(is: impl Fn(&Event) -> bool) -> u64 {
    let entries = YEAR.iter().flat_map(|trip| &trip.entries);
    u64::try_from(entries.filter(|entry| is(&entry.event)).count()).unwrap()
}

#[test]
fn every_slip_and_every_delay_of_the_year_is_counted_at_its_step() {
    let mut steps = Steps::default();
    for trip in YEAR.iter() {
        steps.take(&trip.walk, &trip.entries);
    }
    let all = steps.by_trouble();
    assert_eq!(steps.trips(), 600);
    let sum =
        |of: fn(&hames::review::StepCounts) -> u64| all.iter().map(|one| of(one)).sum::<u64>();
    assert_eq!(
        sum(|one| one.taken_back),
        count(|event| matches!(event, Event::Corrected { .. }))
    );
    assert_eq!(
        sum(|one| one.put_off),
        count(|event| matches!(event, Event::Deferred { .. }))
    );
    assert_eq!(
        sum(|one| one.typed_twice),
        count(|event| matches!(event, Event::Doubted { .. }))
    );
    assert_eq!(
        sum(|one| one.lived_with),
        count(|event| matches!(event, Event::Remarked { .. }))
    );
    let first = |event: &Event| {
        matches!(
            event,
            Event::Answered {
                round: Round::First,
                ..
            }
        )
    };
    assert_eq!(sum(|one| one.answered), count(first));
    // The most trouble for its answers first, held in exact fractions.
    for pair in all.windows(2) {
        let [more, less] = pair else { unreachable!() };
        assert!(more.trouble() * less.answered >= less.trouble() * more.answered);
    }
    let worst = all.first().unwrap();
    assert!(
        worst.trouble() > 0 && worst.usual_ms().is_some(),
        "{worst:?}"
    );
}
