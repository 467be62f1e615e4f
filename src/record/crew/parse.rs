//! Reading a crew file strictly: every fault with its line, nothing skipped.

use crate::record::{
    CrewFault, CrewFaults, Id, LineReason, Namespace, PrintedName, PublicKey, Role, Signer,
};

/// Largest crew file: some thousands of lines.
const LARGEST: usize = 1024 * 1024;

/// The text and everyone in it, or every fault.
pub(super) fn crew(file: &[u8]) -> Result<(&str, Vec<Signer>), CrewFaults> {
    let whole = |line, reason| CrewFaults(vec![CrewFault { line, reason }]);
    if file.len() > LARGEST {
        return Err(whole(1, LineReason::Long(file.len())));
    }
    let text = std::str::from_utf8(file).map_err(|error| {
        let before = file.iter().take(error.valid_up_to());
        whole(
            before.filter(|byte| **byte == b'\n').count() + 1,
            LineReason::NotText,
        )
    })?;
    let mut faults = Vec::new();
    let mut signers: Vec<(usize, Signer)> = Vec::new();
    let mut carried = false;
    for (number, line) in (1..).zip(text.split_inclusive('\n')) {
        let mut note = |reason| {
            faults.push(CrewFault {
                line: number,
                reason,
            });
        };
        let (line, ended) = line
            .strip_suffix('\n')
            .map_or((line, false), |line| (line, true));
        if !ended {
            note(LineReason::NoLineEnd);
        }
        match whole_line(line) {
            Ok(None) => {}
            Ok(Some(signer)) => {
                repeated(&signers, &signer).into_iter().for_each(&mut note);
                signers.push((number, signer));
            }
            Err(reasons) => {
                let told = |reason: &LineReason| *reason != LineReason::Transit || !carried;
                let transit = reasons.contains(&LineReason::Transit);
                reasons.into_iter().filter(told).for_each(note);
                carried |= transit;
            }
        }
    }
    if faults.is_empty() {
        Ok((
            text,
            signers.into_iter().map(|(_, signer)| signer).collect(),
        ))
    } else {
        Err(CrewFaults(faults))
    }
}

/// One line: nobody (blank or a comment), someone, or its faults.
fn whole_line(line: &str) -> Result<Option<Signer>, Vec<LineReason>> {
    if line.starts_with('\u{feff}') {
        return Err(vec![LineReason::Mark]);
    }
    if line.contains('\r') {
        return Err(vec![LineReason::Transit]);
    }
    if let Some(letter) = line
        .chars()
        .find(|letter| letter.is_control() && *letter != '\t')
    {
        return Err(vec![LineReason::Control(letter)]);
    }
    if line.is_empty() || line.starts_with('#') {
        return Ok(None);
    }
    if line.contains('\t') || line.split(' ').any(str::is_empty) {
        return Err(vec![LineReason::Blanks]);
    }
    someone(line).map(Some)
}

fn someone(line: &str) -> Result<Signer, Vec<LineReason>> {
    let mut faults = Vec::new();
    let mut parts = line.splitn(5, ' ');
    let principals = parts.next().unwrap_or_default();
    let mut part = |name| parts.next().ok_or_else(|| vec![LineReason::Missing(name)]);
    let options = part("namespaces=\"…\"")?;
    if options.starts_with("ssh-") || options.starts_with("sk-") {
        return Err(vec![LineReason::Missing("namespaces=\"…\"")]);
    }
    let kind = part("the kind of key")?;
    let key = part("the key")?;
    let name = parts.next().unwrap_or_default();

    let owner = owner(principals, &mut faults);
    let namespaces = namespaces(options, &mut faults);
    let key = keep(
        &mut faults,
        PublicKey::read(&format!("{kind} {key}")),
        LineReason::Key,
    );
    let name = keep(&mut faults, PrintedName::read(name), LineReason::Name);
    if let Some((_, roles)) = &owner {
        let deeds: Vec<_> = roles.iter().flat_map(|role| role.deeds()).collect();
        let stray = |one: &&Namespace| !deeds.contains(&&one.deed);
        faults.extend(
            namespaces
                .iter()
                .find(stray)
                .copied()
                .map(LineReason::OtherNamespace),
        );
        let waits = key.as_ref().is_some_and(PublicKey::is_hardware);
        if waits && roles.contains(&Role::Device) {
            faults.push(LineReason::DeviceTouched);
        }
    }
    match (owner, key, name) {
        (Some((id, roles)), Some(key), Some(name)) if faults.is_empty() => Ok(Signer {
            id,
            roles,
            namespaces,
            key,
            name,
        }),
        _ => Err(faults),
    }
}

/// The id and roles of `wren.ashdown,role:driver`.
fn owner(principals: &str, faults: &mut Vec<LineReason>) -> Option<(Id, Vec<Role>)> {
    if principals.contains(['*', '?', '!']) {
        faults.push(LineReason::Pattern(principals.to_owned()));
        return None;
    }
    let mut principals = principals.split(',');
    let id = Id::read(principals.next().unwrap_or_default());
    let id = keep(faults, id, LineReason::Id);
    let mut roles = Vec::new();
    for principal in principals {
        match principal.strip_prefix(Role::PREFIX).and_then(Role::read) {
            None => faults.push(LineReason::Principal(principal.to_owned())),
            Some(role) if roles.contains(&role) => faults.push(LineReason::RoleTwice(role)),
            Some(role) => roles.push(role),
        }
    }
    if roles.is_empty() {
        faults.push(LineReason::NoRole);
    }
    if roles.contains(&Role::Device) && roles.len() > 1 {
        faults.push(LineReason::DeviceAndPerson);
    }
    id.map(|id| (id, roles))
}

/// The namespaces of `namespaces="a,b"`.
fn namespaces(options: &str, faults: &mut Vec<LineReason>) -> Vec<Namespace> {
    let inside = options
        .strip_prefix("namespaces=\"")
        .and_then(|rest| rest.strip_suffix('"'))
        .filter(|names| !names.contains('"'));
    let Some(names) = inside else {
        let lower = options.to_ascii_lowercase();
        faults.push(if lower.contains("cert-authority") {
            LineReason::Authority
        } else if lower.contains("valid-after") || lower.contains("valid-before") {
            LineReason::Date
        } else {
            LineReason::Option(options.to_owned())
        });
        return Vec::new();
    };
    let mut known = Vec::new();
    for name in names.split(',') {
        match Namespace::read(name) {
            None => faults.push(LineReason::UnknownNamespace(name.to_owned())),
            Some(one) if known.contains(&one) => faults.push(LineReason::NamespaceTwice(one)),
            Some(one) => known.push(one),
        }
    }
    known
}

/// Ids and keys that an earlier line has.
fn repeated(earlier: &[(usize, Signer)], signer: &Signer) -> Vec<LineReason> {
    let same_id = earlier.iter().find(|(_, other)| other.id == signer.id);
    let same_key = earlier
        .iter()
        .find(|(_, other)| other.key.is_one_with(&signer.key));
    let id = same_id.map(|(line, other)| LineReason::IdTwice(other.id.clone(), *line));
    let key = same_key.map(|(line, other)| LineReason::KeyTwice(other.id.clone(), *line));
    id.into_iter().chain(key).collect()
}

fn keep<T, E>(
    faults: &mut Vec<LineReason>,
    read: Result<T, E>,
    reason: impl FnOnce(E) -> LineReason,
) -> Option<T> {
    read.map_err(|fault| faults.push(reason(fault))).ok()
}
