//! Which trips somebody wants to see.

use crate::review::{Glance, Weight};
use chrono::NaiveDate;

/// What the trips that are shown have in common; one that says nothing takes all.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Filter {
    /// Of this rig, by its id.
    pub rig: Option<String>,
    /// Somebody who is named so took part, whoever signed.
    pub person: Option<String>,
    /// At least so grave.
    pub least: Option<Weight>,
    /// From this day on.
    pub since: Option<NaiveDate>,
    /// Up to this day, which counts.
    pub until: Option<NaiveDate>,
    /// A manager still has something to do with it.
    pub open: bool,
    /// Something is asked about it.
    pub asked: bool,
}

impl Filter {
    /// Whether it takes this trip. A trip is of the day its own clock told where it was walked.
    pub fn takes(&self, glance: &Glance) -> bool {
        let day = glance.at.date_naive();
        self.rig.as_ref().is_none_or(|rig| *rig == glance.rig)
            && self
                .person
                .as_ref()
                .is_none_or(|person| glance.people().any(|name| is_named(person, name)))
            && self.least.is_none_or(|least| glance.weight() >= least)
            && self.since.is_none_or(|since| day >= since)
            && self.until.is_none_or(|until| day <= until)
            && (!self.open || glance.is_open())
            && (!self.asked || glance.questions() > 0)
    }

    /// Each thing that is asked for, in words; names as they were typed.
    pub fn told(&self) -> Vec<String> {
        let told = [
            self.rig.as_ref().map(|rig| format!("rig {rig}")),
            self.person.as_ref().map(|person| format!("with {person}")),
            self.least.map(|least| match least {
                Weight::Doubtful => "doubtful".to_owned(),
                least => format!("{} or graver", least.key()),
            }),
            self.open.then(|| "only open".to_owned()),
            self.asked.then(|| "only asked about".to_owned()),
            self.since.map(|day| format!("since {day}")),
            self.until.map(|day| format!("until {day}")),
        ];
        told.into_iter().flatten().collect()
    }
}

/// Whether somebody with this name, or this id, is meant: each word that is asked for is a part of
/// it, so that the id of a name asks for the name. No word asks for nobody.
pub fn is_named(wanted: &str, name: &str) -> bool {
    let name = name.to_lowercase();
    let words = wanted.split(|letter: char| !letter.is_alphanumeric());
    let mut words = words.filter(|word| !word.is_empty()).peekable();
    words.peek().is_some() && words.all(|word| name.contains(&word.to_lowercase()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::Opinion;
    use crate::review::glance::bench::glance;
    use crate::rules::Verdict;

    #[test]
    fn a_trip_is_shown_when_everything_that_was_asked_is_true_of_it() {
        let mut trip = glance("juniper", "Wren Ashdown", "2026-11-03T23:30:00-05:00");
        trip.others = vec!["Tobias Fenn".to_owned()];
        trip.worst = Verdict::Fix;
        let takes = |change: fn(&mut Filter)| {
            let mut filter = Filter::default();
            change(&mut filter);
            filter.takes(&trip)
        };
        let day = |text: &str| Some(text.parse().unwrap());
        assert!(takes(|_| {}));
        assert!(takes(|one| one.rig = Some("juniper".to_owned())));
        assert!(!takes(|one| one.rig = Some("mesquite".to_owned())));
        // Whoever took part, by a part of the name.
        assert!(takes(|one| one.person = Some("fenn".to_owned())));
        assert!(takes(|one| one.person = Some("tobias.fenn".to_owned())));
        assert!(!takes(|one| one.person = Some("tobias.ashdown".to_owned())));
        assert!(!takes(|one| one.person = Some(" ".to_owned())));
        assert!(!takes(|one| one.person = Some("Odile".to_owned())));
        assert!(takes(|one| one.least = Some(Weight::Fixed)));
        assert!(!takes(|one| one.least = Some(Weight::Stopped)));
        assert!(takes(|one| one.open = true));
        // The day is the one where it was walked: in Greenwich it was the fourth already.
        for (since, until, taken) in [
            ("2026-11-03", "2026-11-03", true),
            ("2026-11-04", "2026-11-30", false),
            ("2026-11-01", "2026-11-02", false),
        ] {
            let filter = Filter {
                since: day(since),
                until: day(until),
                ..Filter::default()
            };
            assert_eq!(filter.takes(&trip), taken, "{since} to {until}");
        }
        trip.said = Some(Opinion::Agreed);
        let open = Filter {
            open: true,
            ..Filter::default()
        };
        assert!(!open.takes(&trip));
        let asked = Filter {
            asked: true,
            ..Filter::default()
        };
        assert!(!asked.takes(&trip));
        trip.doubts = 2;
        assert!(asked.takes(&trip));
        trip.doubts = 0;
        // A question keeps it open.
        trip.said = Some(Opinion::Asked);
        assert!(open.takes(&trip) && asked.takes(&trip));
    }
}
