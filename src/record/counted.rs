//! How many of something, in words that fit the number.

use std::fmt::Display;

/// `1 trip`, `2 trips`.
pub(crate) fn counted<N: Copy + Display + PartialEq + From<u8>>(count: N, what: &str) -> String {
    if count == N::from(1) {
        format!("1 {what}")
    } else {
        format!("{count} {what}s")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_is_one_and_none_and_more_are_several() {
        assert_eq!(counted(1_usize, "trip"), "1 trip");
        assert_eq!(counted(0_usize, "trip"), "0 trips");
        assert_eq!(counted(2_u64, "line"), "2 lines");
    }
}
