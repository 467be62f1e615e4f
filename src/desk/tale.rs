//! A trip's record told for people: what verification found, then what happened, line by line.

/// A record read back.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Tale {
    /// Rig, checklist, people, date.
    pub heading: Vec<String>,
    /// What verification found, in words.
    pub findings: Vec<String>,
    /// What happened.
    pub lines: Vec<TaleLine>,
    /// Signatures: printed name, time, meaning, role.
    pub signatures: Vec<String>,
}

/// One line of what happened.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TaleLine {
    /// Local time.
    pub time: String,
    /// What happened, in words.
    pub what: String,
    /// How much it matters.
    pub weight: Weight,
}

/// How much a line matters to someone who reads the record.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Weight {
    /// As expected.
    Plain,
    /// Out of limits, put off, corrected, held or noted.
    Exception,
}
