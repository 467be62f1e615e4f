//! Where the whole lines of a journal end.

/// Parts a journal into its whole lines and what a lost write left behind them.
///
/// A line is written and synced alone, so only the last one can be torn. Torn is what has no
/// line break, and a last line with a NUL in it: a part of the write that never arrived reads
/// as zeros, and no line has one of its own.
pub fn split_torn(journal: &[u8]) -> (&[u8], &[u8]) {
    let breaks = |part: &[u8]| part.iter().rposition(|byte| *byte == b'\n');
    let Some(last) = breaks(journal) else {
        return (&[], journal);
    };
    let (lines, _) = journal.split_at(last);
    let last_line = breaks(lines).map_or(0, |at| at + 1);
    let holed = lines.iter().skip(last_line).any(|byte| *byte == 0);
    journal.split_at(if holed { last_line } else { last + 1 })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[track_caller]
    fn parted(journal: &str, whole: &str, torn: &str) {
        let (a, b) = split_torn(journal.as_bytes());
        assert_eq!((a, b), (whole.as_bytes(), torn.as_bytes()));
    }

    #[test]
    fn what_follows_the_last_line_break_is_torn() {
        parted("", "", "");
        parted("a\nb\n", "a\nb\n", "");
        parted("a\nb", "a\n", "b");
        parted("b", "", "b");
    }

    #[test]
    fn a_last_line_with_a_hole_is_torn_and_an_earlier_one_is_left_to_verification() {
        parted("a\nb\0c\n", "a\n", "b\0c\n");
        parted("\0\0c\n", "", "\0\0c\n");
        parted("a\0\nb\n", "a\0\nb\n", "");
    }

    proptest! {
        #[test]
        fn cut_anywhere_a_journal_keeps_its_whole_lines(
            lines in prop::collection::vec("[a-z]{1,9}\n", 0..5),
        ) {
            let text = lines.concat();
            for cut in 0..=text.len() {
                let (whole, torn) = split_torn(&text.as_bytes()[..cut]);
                prop_assert_eq!([whole, torn].concat(), &text.as_bytes()[..cut]);
                prop_assert!(whole.is_empty() || whole.ends_with(b"\n"));
                prop_assert!(!torn.contains(&b'\n'));
            }
        }
    }
}
