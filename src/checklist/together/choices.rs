//! The choice of each policy where the barn has set none.

/// Each policy with its choices, the default first.
const POLICIES: [(&str, &[&str]); 8] = [
    ("lanyard", &["before-chains", "after-chains"]),
    ("chains", &["each", "together"]),
    ("tie", &["bar-first", "tie-first"]),
    ("tire-pressure", &["placard", "load-table"]),
    ("anchor", &["independent", "towbar-point"]),
    ("gooseneck-chains", &["required", "by-law"]),
    ("level", &["computed", "half-degree"]),
    ("road-side", &["right", "left"]),
];

/// Whether this is the choice where the barn has set none.
///
/// # Errors
/// What is wrong and its fix, when there is no such policy or choice.
pub fn by_default(policy: &str, choice: &str) -> Result<bool, (String, String)> {
    let known = POLICIES.iter().find(|(word, _)| *word == policy);
    let Some((_, choices)) = known else {
        let words: Vec<&str> = POLICIES.iter().map(|(word, _)| *word).collect();
        return Err((
            format!("there is no policy `{policy}`"),
            format!("write one of {}", words.join(", ")),
        ));
    };
    if !choices.contains(&choice) {
        return Err((
            format!("`{policy}` has no choice `{choice}`"),
            format!("write one of {}", choices.join(", ")),
        ));
    }
    Ok(choices.first() == Some(&choice))
}
