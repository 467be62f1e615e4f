//! Exit statuses: one table.

use crate::record::Finding;
use std::process::ExitCode;

/// How the program ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Status {
    /// All is well.
    Fine,
    /// Something was found in a file.
    Findings,
    /// It was called in a way that means nothing, or the screens have no terminal.
    Usage,
    /// The disk or the logbook failed.
    Store,
    /// What verification found; intact is [`Fine`](Self::Fine).
    Verified(Finding),
}

impl Status {
    /// Every status that is not a verification's, with what it says.
    pub const TABLE: [(u8, &'static str); 4] = [
        (0, "all is well"),
        (
            1,
            "something was found in a file, what is due stops a rig, or a rule refuses it",
        ),
        (
            2,
            "called in a way that means nothing, left unsigned, or no terminal for the screens",
        ),
        (3, "the disk or the logbook failed"),
    ];

    /// The number the program ends with.
    pub fn number(self) -> u8 {
        match self {
            Self::Fine => 0,
            Self::Findings => 1,
            Self::Usage => 2,
            Self::Store => 3,
            Self::Verified(finding) => finding.status(),
        }
    }

    /// The table as help prints it.
    pub(super) fn help() -> String {
        let findings = Finding::TABLE.iter().skip(1);
        let verified = findings.map(|(word, status, _)| format!("  {status:2}  verify: {word}\n"));
        let others = Self::TABLE
            .iter()
            .map(|(status, what)| format!("  {status:2}  {what}\n"));
        format!(
            "Exit status:\n{}",
            others.chain(verified).collect::<String>()
        )
    }
}

impl From<Status> for ExitCode {
    fn from(status: Status) -> Self {
        Self::from(status.number())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::HashSet;

    #[test]
    fn every_way_to_end_has_its_own_number() {
        let own = [Status::Fine, Status::Findings, Status::Usage, Status::Store];
        for (status, (number, _)) in own.into_iter().zip(Status::TABLE) {
            assert_eq!(status.number(), number);
        }
        let verified = Finding::TABLE.iter().skip(1).map(|(_, status, _)| *status);
        let numbers: HashSet<u8> = own
            .into_iter()
            .map(Status::number)
            .chain(verified)
            .collect();
        assert_eq!(numbers.len(), own.len() + Finding::TABLE.len() - 1);
        assert_eq!(Status::Verified(Finding::Intact).number(), 0);
    }
}
