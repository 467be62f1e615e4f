//! Which seal a receipt was read off.

use crate::record::{Digest, Receipt};

/// Where a receipt leads, among the seals there are.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Sought<T> {
    /// To no seal.
    Nowhere,
    /// To one seal, and every place where a copy of it lies.
    To(Vec<T>),
    /// To different seals that begin with the same forty bits.
    Several(Vec<T>),
}

/// Looks for the seals with this receipt. What stands beside each hash says where that seal is.
pub fn seek<T>(receipt: Receipt, seals: impl IntoIterator<Item = (Digest, T)>) -> Sought<T> {
    let matching = seals
        .into_iter()
        .filter(|(hash, _)| Receipt::of(hash) == receipt);
    let (hashes, places): (Vec<Digest>, Vec<T>) = matching.unzip();
    match hashes.split_first() {
        None => Sought::Nowhere,
        Some((first, others)) if others.iter().all(|hash| hash == first) => Sought::To(places),
        Some(_) => Sought::Several(places),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn seal(start: &str, end: char) -> Digest {
        Digest::read(&format!("{start:0<63}{end}")).unwrap()
    }

    #[test]
    fn a_receipt_leads_to_its_seal_wherever_copies_of_it_lie() {
        let (one, other) = (seal("aa", '1'), seal("bb", '1'));
        let receipt = Receipt::of(&one);
        assert_eq!(seek(receipt, [(other, "b")]), Sought::Nowhere);
        assert_eq!(
            seek(receipt, [(one, "a"), (other, "b")]),
            Sought::To(vec!["a"])
        );
        assert_eq!(
            seek(receipt, [(one, "a"), (one, "copy")]),
            Sought::To(vec!["a", "copy"])
        );
    }

    #[test]
    fn different_seals_with_the_same_receipt_are_all_named() {
        let (one, other) = (seal("aa", '1'), seal("aa", '2'));
        assert_eq!(
            seek(Receipt::of(&one), [(one, "a"), (other, "b"), (one, "c")]),
            Sought::Several(vec!["a", "b", "c"])
        );
    }
}
