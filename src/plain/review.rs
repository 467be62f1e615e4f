//! The logbook looked over, as lines of text: the days, then the trips, newest first.

use crate::record::{Finding, counted};
use crate::review::{Day, Filter, Glance, days, months};
use crate::text::{harmless, put};
use chrono::{DateTime, FixedOffset};

/// The trips somebody asked for and by what, of `all` that there are, and the folders, as commands name them, of
/// those that cannot be looked at. No line is longer than 80 columns but for such a name.
pub fn look(
    glances: &[&Glance],
    (filter, all): (&Filter, usize),
    closed: &[(String, Finding)],
) -> String {
    let mut text = String::new();
    let shown = counted(glances.len(), "trip");
    let asked = harmless(&filter.told().join(", "));
    if asked.is_empty() {
        put(&mut text, 0, &format!("{shown}."));
    } else {
        put(&mut text, 0, &format!("{shown} of {all}: {asked}."));
    }
    for (folder, finding) in closed {
        put(&mut text, 0, &format!("A trip is {finding}. See why:"));
        // In one piece, to be typed.
        text.push_str("  hames verify ");
        text.push_str(folder);
        text.push('\n');
    }
    for (month, days) in months(&days(glances.iter().copied())).into_iter().rev() {
        text.push('\n');
        put(&mut text, 0, &month.format("%B %Y").to_string());
        for day in days.iter().rev() {
            put(&mut text, 2, &of_day(day));
            let own = glances.iter().filter(|one| one.at.date_naive() == day.date);
            let mut own: Vec<&&Glance> = own.collect();
            own.sort_by_key(|one| std::cmp::Reverse(one.at));
            for glance in own {
                put(&mut text, 4, &of_trip(glance));
            }
        }
    }
    text
}

/// One day: `Tue 3 Nov: 2 trips, the gravest: something had to be put right; 1 open`.
pub(super) fn of_day(day: &Day) -> String {
    let open = match day.open {
        0 => "none open".to_owned(),
        some => format!("{some} open"),
    };
    format!(
        "{}: {}, {}{}; {open}",
        day.date.format("%a %-d %b"),
        counted(day.trips, "trip"),
        if day.trips > 1 { "the gravest: " } else { "" },
        day.worst.told()
    )
}

/// One trip on a line.
pub(super) fn of_trip(glance: &Glance) -> String {
    let others = match glance.others.as_slice() {
        [] => String::new(),
        others => format!(" with {}", others.join(", ")),
    };
    let asked = match glance.questions() {
        0 => String::new(),
        some => format!("; {}", counted(some, "question")),
    };
    format!(
        "{} {}  {}, {}: {}{others}; {}; {}; {}{asked}. Trip {}",
        time(&glance.at),
        glance.weight().sign(),
        glance.rig,
        glance.title,
        glance.who,
        glance.ended_as(),
        glance.counts,
        glance.stands(),
        glance.named(),
    )
}

fn time(at: &DateTime<FixedOffset>) -> String {
    at.format("%H:%M").to_string()
}
