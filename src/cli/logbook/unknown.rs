//! A rig, somebody or days that are asked for and no trip here has: told with what there is and the
//! nearest, since a filter that names nothing would show an empty logbook in silence.

use crate::cli::Status;
use crate::cli::logbook::shelf::Failed;
use crate::document::nearest;
use crate::review::is_named;
use chrono::NaiveDate;
use std::collections::BTreeSet;

/// Refuses days of which the first is after the last, since no trip can be of them.
pub(super) fn days(since: Option<NaiveDate>, until: Option<NaiveDate>) -> Result<(), Failed> {
    match (since, until) {
        (Some(since), Some(until)) if since > until => refused(format!(
            "--since {since} is after --until {until}, so no day lies between them. Write the earlier \
             day behind --since."
        )),
        _ => Ok(()),
    }
}

/// The sentence for a month of which no trip is known, with the days of those that are.
pub(super) fn no_trip_of(month: NaiveDate, known: impl Iterator<Item = NaiveDate>) -> String {
    let days: BTreeSet<NaiveDate> = known.collect();
    let there_are = match (days.first(), days.last()) {
        (Some(first), Some(last)) => format!("The trips here are from {first} to {last}."),
        _ => "No trip here can be looked at.".to_owned(),
    };
    format!("No trip is known of {}. {there_are}", month.format("%B %Y"))
}

/// Refuses a rig, by its id, that no trip here was walked with.
pub(super) fn rig<'k>(
    wanted: &str,
    walked: impl IntoIterator<Item = &'k str>,
) -> Result<(), Failed> {
    no_such_rig(wanted, walked).map_or(Ok(()), refused)
}

/// The sentence for it; nothing of a rig that was walked.
pub(super) fn no_such_rig<'k>(
    wanted: &str,
    walked: impl IntoIterator<Item = &'k str>,
) -> Option<String> {
    let walked = BTreeSet::from_iter(walked);
    if walked.contains(wanted) {
        return None;
    }
    Some(format!(
        "There is no rig “{}” among the trips here{}",
        wanted.escape_debug(),
        there_is(
            nearest(wanted, walked.iter().copied()),
            "Rigs walked",
            &walked
        )
    ))
}

/// Refuses a name that nobody who took part in a trip here has.
pub(super) fn person<'k>(
    wanted: &str,
    took_part: impl IntoIterator<Item = &'k str>,
) -> Result<(), Failed> {
    let names = BTreeSet::from_iter(took_part);
    if names.iter().any(|name| is_named(wanted, name)) {
        return Ok(());
    }
    refused(format!(
        "Nobody called “{}” took part in a trip here{}",
        wanted.escape_debug(),
        there_is(nearest_name(wanted, &names), "Those who did", &names)
    ))
}

/// The one of these names that is nearest, by the whole of it or a part.
pub(super) fn nearest_name<'k>(wanted: &str, names: &BTreeSet<&'k str>) -> Option<&'k str> {
    let whole = nearest(wanted, names.iter().copied());
    whole.or_else(|| {
        let part = nearest(wanted, names.iter().flat_map(|name| name.split(' ')))?;
        let mut names = names.iter().copied();
        names.find(|name| name.split(' ').any(|one| one == part))
    })
}

/// What is said behind it: the nearest and all there are.
pub(super) fn there_is(meant: Option<&str>, named: &str, known: &BTreeSet<&str>) -> String {
    if known.is_empty() {
        return ", and no other.".to_owned();
    }
    let all: Vec<&str> = known.iter().copied().collect();
    let meant = meant.map_or_else(
        || ".".to_owned(),
        |meant| format!("; did you mean {meant}?"),
    );
    format!("{meant} {named}: {}.", all.join(", "))
}

fn refused(sentence: String) -> Result<(), Failed> {
    Err(Failed::Said(Status::Usage, sentence))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn said(refused: Result<(), Failed>) -> String {
        match refused {
            Err(Failed::Said(Status::Usage, sentence)) => sentence,
            Ok(()) => String::new(),
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn days_that_end_before_they_begin_are_refused_and_one_day_is_none_too_few() {
        let day = |text: &str| Some(text.parse().unwrap());
        let (first, second) = (day("2026-11-01"), day("2026-11-02"));
        for (since, until) in [
            (first, second),
            (first, first),
            (second, None),
            (None, first),
        ] {
            assert_eq!(said(days(since, until)), "");
        }
        assert_eq!(
            said(days(second, first)),
            "--since 2026-11-02 is after --until 2026-11-01, so no day lies between them. Write the \
             earlier day behind --since."
        );
        assert_eq!(
            no_trip_of(
                day("2030-01-01").unwrap(),
                [second, first].into_iter().flatten()
            ),
            "No trip is known of January 2030. The trips here are from 2026-11-01 to 2026-11-02."
        );
        assert_eq!(
            no_trip_of(day("2030-01-01").unwrap(), [].into_iter()),
            "No trip is known of January 2030. No trip here can be looked at."
        );
    }

    #[test]
    fn what_is_not_here_is_told_with_the_nearest_and_all_there_is() {
        let rigs = ["sumac", "juniper", "mesquite"];
        assert_eq!(said(rig("juniper", rigs)), "");
        assert_eq!(
            said(rig("junipr", rigs)),
            "There is no rig “junipr” among the trips here; did you mean juniper? Rigs walked: \
             juniper, mesquite, sumac."
        );
        assert_eq!(
            said(rig("x", [])),
            "There is no rig “x” among the trips here, and no other."
        );
        let names = ["Wren Ashdown", "Tobias Fenn"];
        for here in ["fenn", "tobias.fenn", "Fenn, T"] {
            assert_eq!(said(person(here, names)), "", "{here}");
        }
        assert_eq!(
            said(person("ashdwon", names)),
            "Nobody called “ashdwon” took part in a trip here; did you mean Wren Ashdown? Those \
             who did: Tobias Fenn, Wren Ashdown."
        );
        // Nothing typed names nobody.
        assert!(
            said(person(" ", names)).ends_with("here. Those who did: Tobias Fenn, Wren Ashdown.")
        );
    }
}
