//! The checklists that come with the program.

/// A checklist inside the program, as the text records bind themselves to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Shipped {
    /// The id its text gives.
    pub id: &'static str,
    /// Its text, in the format any checklist file has.
    pub text: &'static str,
}

/// Every checklist that comes with the program.
pub const SHIPPED: [Shipped; 1] = [Shipped {
    id: "hitch-bumper",
    text: include_str!("../../checklists/hitch-bumper.yaml"),
}];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checklist::Checklist;

    #[test]
    fn every_shipped_checklist_reads_without_a_fault_under_its_own_id() {
        for shipped in SHIPPED {
            let read = Checklist::read(shipped.text);
            let faults = read.as_ref().err().into_iter().flatten();
            let told: Vec<String> = faults.map(ToString::to_string).collect();
            assert!(told.is_empty(), "{}\n{}", shipped.id, told.join("\n"));
            assert_eq!(read.unwrap().id, shipped.id);
        }
    }
}
