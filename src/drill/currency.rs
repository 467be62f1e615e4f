//! Whether somebody still has it in their hands.

use chrono::NaiveDate;

/// After so many days without a walk a refresher is due. Ours, no source: what was learned by
/// practice fades within months, by how much nobody measured for this work.
pub const REFRESHER_DAYS: i64 = 90;

/// After so many days a person begins as a new driver does. Ours, no source.
pub const LAPSED_DAYS: i64 = 180;

/// Whether somebody still has it in their hands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Currency {
    /// Walked within [`REFRESHER_DAYS`].
    Current,
    /// Walked longer ago.
    Refresher,
    /// Walked longer ago than [`LAPSED_DAYS`].
    Lapsed,
}

impl Currency {
    /// By the day of the last walk.
    pub fn on(today: NaiveDate, last: NaiveDate) -> Self {
        match (today - last).num_days() {
            days if days > LAPSED_DAYS => Self::Lapsed,
            days if days > REFRESHER_DAYS => Self::Refresher,
            _ => Self::Current,
        }
    }

    /// The word in JSON.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Current => "current",
            Self::Refresher => "refresher",
            Self::Lapsed => "lapsed",
        }
    }

    /// In words.
    pub const fn told(self) -> &'static str {
        match self {
            Self::Current => "current",
            Self::Refresher => "a refresher is due",
            Self::Lapsed => "lapsed",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_refresher_is_due_after_ninety_days_and_it_has_lapsed_after_a_hundred_and_eighty() {
        let today: NaiveDate = "2026-11-26".parse().unwrap();
        let after = |days| Currency::on(today, today - chrono::Days::new(days));
        let rows = [
            (0, Currency::Current),
            (90, Currency::Current),
            (91, Currency::Refresher),
            (180, Currency::Refresher),
            (181, Currency::Lapsed),
        ];
        for (days, currency) in rows {
            assert_eq!(after(days), currency, "{days}");
        }
        // A laptop whose clock runs ahead has walked today.
        assert_eq!(
            Currency::on(today, today + chrono::Days::new(400)),
            Currency::Current
        );
    }
}
