//! What an ssh-agent is asked and what it answers: two messages of its protocol, as bytes
//! (draft-miller-ssh-agent). Nothing it answers is believed before it is verified.

use crate::record::{Namespace, NotAPublicKey, PublicKey, SignatureFault, sshsig};
use std::fmt;

/// The numbers of the messages.
const FAILED: u8 = 5;
const LIST: u8 = 11;
const LISTED: u8 = 12;
const SIGN: u8 = 13;
const SIGNED: u8 = 14;

/// Most keys an agent may offer; stock ones hold fewer.
const MOST_KEYS: u32 = 2048;

/// Why an agent's answer is of no use.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum AgentFault {
    /// It does not do what was asked: it is locked, its owner said no, or a hardware key was not
    /// touched in time.
    Refused,
    /// It is no answer to what was asked, or cut off.
    Unreadable,
    /// More keys than any agent holds.
    Keys(u32),
    /// What it signed does not hold.
    Signature(SignatureFault),
}

/// The question which keys there are.
pub const fn list_keys() -> [u8; 1] {
    [LIST]
}

/// The keys of an answer that could stand in a crew file; others are left out.
///
/// # Errors
/// [`AgentFault`] with the reason.
pub fn keys_listed(answer: &[u8]) -> Result<Vec<PublicKey>, AgentFault> {
    let mut rest = body(answer, LISTED)?;
    let count = number(&mut rest)?;
    if count > MOST_KEYS {
        return Err(AgentFault::Keys(count));
    }
    let mut keys = Vec::new();
    for _ in 0..count {
        let (key, _comment) = (text(&mut rest)?, text(&mut rest)?);
        keys.extend(PublicKey::read_bytes(key).ok());
    }
    if rest.is_empty() {
        Ok(keys)
    } else {
        Err(AgentFault::Unreadable)
    }
}

/// The request to sign `bytes` in `namespace` with `key`.
///
/// # Errors
/// [`NotAPublicKey`] when the key cannot be written out.
pub fn ask_to_sign(
    key: &PublicKey,
    namespace: Namespace,
    bytes: &[u8],
) -> Result<Vec<u8>, NotAPublicKey> {
    let whole = || {
        let data = sshsig::to_sign(namespace, bytes)?;
        let mut request = vec![SIGN];
        put(&mut request, &key.bytes()?)?;
        put(&mut request, &data)?;
        request.extend([0; 4]);
        Some(request)
    };
    whole().ok_or(NotAPublicKey::Unreadable)
}

/// The signature file made of an answer, once it is verified.
///
/// # Errors
/// [`AgentFault`] with the reason.
pub fn signed(
    answer: &[u8],
    key: &PublicKey,
    namespace: Namespace,
    bytes: &[u8],
) -> Result<String, AgentFault> {
    let mut rest = body(answer, SIGNED)?;
    let signature = text(&mut rest)?;
    if !rest.is_empty() {
        return Err(AgentFault::Unreadable);
    }
    let armor = sshsig::armor(key, namespace, signature).ok_or(AgentFault::Unreadable)?;
    key.verify(namespace, bytes, &armor)
        .map_err(AgentFault::Signature)?;
    Ok(armor)
}

/// What stands behind the number of the message.
fn body(answer: &[u8], wanted: u8) -> Result<&[u8], AgentFault> {
    match answer.split_first() {
        Some((kind, rest)) if *kind == wanted => Ok(rest),
        Some((&FAILED, [])) => Err(AgentFault::Refused),
        _ => Err(AgentFault::Unreadable),
    }
}

/// A number of four bytes, the greatest first.
fn number(rest: &mut &[u8]) -> Result<u32, AgentFault> {
    let (four, after) = rest.split_first_chunk().ok_or(AgentFault::Unreadable)?;
    *rest = after;
    Ok(u32::from_be_bytes(*four))
}

/// Bytes with their number before them.
fn text<'a>(rest: &mut &'a [u8]) -> Result<&'a [u8], AgentFault> {
    let length = usize::try_from(number(rest)?).map_err(|_| AgentFault::Unreadable)?;
    let (text, after) = rest
        .split_at_checked(length)
        .ok_or(AgentFault::Unreadable)?;
    *rest = after;
    Ok(text)
}

fn put(request: &mut Vec<u8>, bytes: &[u8]) -> Option<()> {
    request.extend(u32::try_from(bytes.len()).ok()?.to_be_bytes());
    request.extend(bytes);
    Some(())
}

impl fmt::Display for AgentFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Refused => f.write_str(
                "the ssh-agent refused; it may be locked, somebody may have said no, or the \
                 hardware key was not touched in time. See with ssh-add -l what it holds, then \
                 try again",
            ),
            Self::Unreadable => f.write_str(
                "the ssh-agent gave an answer that is none; start it anew, add the key with \
                 ssh-add, then try again",
            ),
            Self::Keys(count) => write!(
                f,
                "the ssh-agent says that it holds {count} keys, which no agent does; start it anew"
            ),
            Self::Signature(fault) => {
                write!(f, "what the ssh-agent signed does not hold: {fault}")
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::{Deed, DeviceKey, Dice, Id, Mode};

    const DONE: Namespace = Namespace::new(Deed::Performed, Mode::Real);

    fn key(byte: u8) -> PublicKey {
        let id = Id::read("wren.ashdown").unwrap();
        let key = DeviceKey::make(&Dice::new([byte; 52]), &id).unwrap();
        key.public().clone()
    }

    fn field(bytes: &[u8]) -> Vec<u8> {
        let mut field = Vec::new();
        put(&mut field, bytes).unwrap();
        field
    }

    /// An answer that lists these keys, as they lie in the agent.
    fn listed(keys: &[Vec<u8>]) -> Vec<u8> {
        let count = u32::try_from(keys.len()).unwrap().to_be_bytes();
        let keys = keys.iter().flat_map(|key| [field(key), field(b"home")]);
        [vec![LISTED], count.to_vec(), keys.flatten().collect()].concat()
    }

    #[test]
    fn keys_of_other_kinds_are_left_out_and_ours_are_read() {
        let rsa = [field(b"ssh-rsa"), field(&[1, 0, 1]), field(&[0; 65])].concat();
        let answer = listed(&[rsa, key(1).bytes().unwrap(), b"nonsense".to_vec()]);
        assert_eq!(keys_listed(&answer), Ok(vec![key(1)]));
        assert_eq!(keys_listed(&listed(&[])), Ok(vec![]));
    }

    #[test]
    fn an_answer_cut_off_anywhere_or_with_more_behind_it_is_none() {
        let answer = listed(&[key(1).bytes().unwrap(), key(2).bytes().unwrap()]);
        for end in 0..answer.len() {
            assert_eq!(keys_listed(&answer[..end]), Err(AgentFault::Unreadable));
        }
        let longer = [answer, vec![0]].concat();
        assert_eq!(keys_listed(&longer), Err(AgentFault::Unreadable));
    }

    #[test]
    fn a_number_of_keys_that_no_agent_holds_is_refused_before_any_is_read() {
        let answer = [&[LISTED][..], &[0xff; 4]].concat();
        assert_eq!(keys_listed(&answer), Err(AgentFault::Keys(u32::MAX)));
    }

    #[test]
    fn a_refusal_is_told_from_nonsense() {
        assert_eq!(keys_listed(&[FAILED]), Err(AgentFault::Refused));
        for nonsense in [&[][..], &[28], &[FAILED, 0], &[SIGNED, 0, 0, 0, 0]] {
            assert_eq!(keys_listed(nonsense), Err(AgentFault::Unreadable));
        }
    }

    #[test]
    fn what_is_no_signature_of_this_key_over_these_bytes_makes_no_file() {
        let plain = |bytes: &[u8]| [field(b"ssh-ed25519"), field(bytes)].concat();
        for (signature, wanted) in [
            (
                plain(&[0; 64]),
                AgentFault::Signature(SignatureFault::Changed),
            ),
            (plain(&[0; 63]), AgentFault::Unreadable),
            (b"nonsense".to_vec(), AgentFault::Unreadable),
            ([plain(&[0; 64]), vec![0]].concat(), AgentFault::Unreadable),
        ] {
            let answer = [vec![SIGNED], field(&signature)].concat();
            assert_eq!(signed(&answer, &key(1), DONE, b"seal\n"), Err(wanted));
        }
    }
}
