//! When a walk was walked on paper, as it was typed.

use crate::cli::clerk::Trouble;
use crate::record::Wall;
use crate::walk::Moment;
use chrono::{NaiveDateTime, TimeZone};

/// Day and time as they are typed.
const TYPED: &str = "%Y-%m-%d %H:%M";

/// When a walk was walked on paper, by the clock of this laptop's place; nothing where nothing was
/// typed and it is walked now.
pub(super) fn walked(typed: &str, now: &Moment) -> Result<Option<Wall>, Trouble> {
    let typed = typed.trim();
    if typed.is_empty() {
        return Ok(None);
    }
    let refused = |why: &str| {
        Trouble::Said(format!(
            "“{}” {why}. Type the day and time written on the paper, such as {}.",
            typed.escape_debug(),
            now.wall.format(TYPED)
        ))
    };
    let local = NaiveDateTime::parse_from_str(typed, TYPED);
    let local = local.map_err(|_| refused("is no day and time"))?;
    let walked = now.wall.offset().from_local_datetime(&local).single();
    let walked = walked.ok_or_else(|| refused("is no day and time of this calendar"))?;
    if walked > now.wall {
        return Err(refused("has not come yet by the clock of this laptop"));
    }
    Wall::new(walked)
        .map(Some)
        .ok_or_else(|| refused("is no day and time that a record holds"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use chrono::DateTime;

    fn read(typed: &str) -> Result<Option<String>, String> {
        let now = Moment {
            wall: DateTime::parse_from_rfc3339("2026-11-25T07:30:00-05:00").unwrap(),
            boot: "b".to_owned(),
            mono_ms: 5,
        };
        match walked(typed, &now) {
            Ok(walked) => Ok(walked.map(|walked| walked.to_string())),
            Err(trouble) => Err(trouble.to_string()),
        }
    }

    #[test]
    fn the_day_and_time_on_the_paper_are_of_the_laptops_place() {
        assert_eq!(read(""), Ok(None));
        assert_eq!(read("  "), Ok(None));
        for right in ["2026-11-20 06:10", " 2026-11-20 06:10 ", "2026-11-20  6:10"] {
            let wall = "2026-11-20T06:10:00.000-05:00".to_owned();
            assert_eq!(read(right), Ok(Some(wall)), "{right}");
        }
        assert!(read("2026-11-25 07:30").is_ok());
    }

    #[test]
    fn what_is_no_date_or_has_not_come_is_refused_with_what_to_type() {
        for (wrong, why) in [
            ("yesterday", "“yesterday” is no day and time."),
            ("2026-11-20", "“2026-11-20” is no day and time."),
            ("2026-02-30 06:10", "“2026-02-30 06:10” is no day and time."),
            ("11/20/2026 06:10", "“11/20/2026 06:10” is no day and time."),
            (
                "2026-11-20 06:10 Z",
                "“2026-11-20 06:10 Z” is no day and time.",
            ),
            (
                "2026-11-25 07:31",
                "“2026-11-25 07:31” has not come yet by the clock of this laptop.",
            ),
        ] {
            assert_eq!(
                read(wrong).unwrap_err(),
                format!(
                    "{why} Type the day and time written on the paper, such as 2026-11-25 07:30."
                )
            );
        }
    }
}
