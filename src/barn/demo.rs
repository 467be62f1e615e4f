//! The demo barn's settings, embedded. Everything in them is invented.

/// Quillwater Stables, with comments.
pub const DEMO: &str = include_str!("../../checklists/demo/barn.yaml");
