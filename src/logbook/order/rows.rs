//! Rows of numbers between two trips: which of them are missing, and which a trip goes on over.

use crate::logbook::order::device::History;
use crate::logbook::order::placed::Placed;

/// The first and the last number of a row.
type Row = (u64, u64);

impl<'s> History<'s> {
    /// The trips this one goes on from: of the nearest number whose end it names. That is the one
    /// before it, or since a closed fork one before numbers that only other histories used.
    pub(super) fn before<'a>(
        &'a self,
        trip: &Placed<'_>,
    ) -> impl Iterator<Item = &'a Placed<'s>> + use<'a, 's> {
        let (seq, previous) = (trip.stub.seq, trip.stub.previous);
        let is_named = move |one: &&Placed<'s>| one.stands_to(previous).is_none();
        let numbers = self.numbers.range(self.goes_back_to(seq)..seq).rev();
        let mut rows = numbers.map(|(_, trips)| trips.iter());
        let named = rows.find(|trips| trips.clone().any(|one| is_named(&one)));
        named.into_iter().flatten().filter(is_named)
    }

    /// The lowest number that the trip with this one may go on from.
    pub(super) fn goes_back_to(&self, seq: u64) -> u64 {
        let forks = self.closed.iter().map(|(fork, _)| fork.seq);
        forks.chain([seq.saturating_sub(1)]).min().unwrap_or(seq)
    }

    /// The numbers of a row before a trip that are missing, in rows; in each number that is here
    /// only histories that ended have a trip. They leave no gap where the trip goes over the row,
    /// or where another number of it may be the one the trip names.
    pub(super) fn missing(&self, row: Row, goes_over: bool) -> Vec<Row> {
        let (from, to) = row;
        let used = || self.numbers.range(from..=to).map(|(seq, _)| (*seq, *seq));
        let all = u64::try_from(used().count()).is_ok_and(|used| used > to.saturating_sub(from));
        let rows = self.not_accepted(row);
        if all && !goes_over {
            return rows;
        }
        used().fold(rows, without)
    }

    /// The numbers of a row whose loss no manager accepts, in rows.
    pub(super) fn not_accepted(&self, row: Row) -> Vec<Row> {
        let lost = self.lost.iter().map(|(loss, _)| (loss.from, loss.to));
        let mut rows = lost.fold(vec![row], without);
        rows.sort_unstable();
        rows.dedup();
        rows
    }
}

/// These rows without the numbers of another.
fn without(rows: Vec<Row>, (first, last): Row) -> Vec<Row> {
    let cut = |(from, to): Row| {
        let before = (from, to.min(first.saturating_sub(1)));
        let after = (from.max(last.saturating_add(1)), to);
        let whole = |(from, to): &Row| from <= to;
        [before, after].into_iter().filter(whole)
    };
    rows.into_iter().flat_map(cut).collect()
}

/// Whether any of these trips names the end of any of those.
pub(super) fn goes_on_from(here: &[&Placed<'_>], before: &[&Placed<'_>]) -> bool {
    let names = |trip: &Placed<'_>, one: &Placed<'_>| one.stands_to(trip.stub.previous).is_none();
    here.iter()
        .any(|trip| before.iter().any(|one| names(trip, one)))
}

/// Rising numbers as rows of the first and the last.
pub(super) fn in_rows(numbers: impl Iterator<Item = u64>) -> Vec<Row> {
    let mut rows: Vec<Row> = Vec::new();
    for number in numbers {
        match rows.last_mut() {
            Some((_, to)) if to.saturating_add(1) == number => *to = number,
            _ => rows.push((number, number)),
        }
    }
    rows
}
