//! The demo barn's rigs, embedded. Every number in them is invented.

/// Juniper: a two-horse bumper pull behind a half-ton truck.
pub const JUNIPER: &str = include_str!("../../checklists/demo/juniper.yaml");

/// Mesquite: a four-horse gooseneck behind a one-ton truck.
pub const MESQUITE: &str = include_str!("../../checklists/demo/mesquite.yaml");

/// The file of the rig with this id.
pub fn named(id: &str) -> Option<&'static str> {
    match id {
        "juniper" => Some(JUNIPER),
        "mesquite" => Some(MESQUITE),
        _ => None,
    }
}

/// Whether a rig file is, to the byte, one of the demo barn's.
pub fn is_invented(text: &str) -> bool {
    [JUNIPER, MESQUITE].contains(&text)
}
