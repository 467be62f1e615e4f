//! Randomness from the operating system.

use getrandom::SysRng;
use getrandom::rand_core::TryRng;
use std::fmt;

/// The operating system gave no random bytes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NoRandomness;

/// `N` random bytes.
///
/// # Errors
/// [`NoRandomness`] when the operating system gives none; nothing may be made without them.
pub fn random<const N: usize>() -> Result<[u8; N], NoRandomness> {
    let mut bytes = [0; N];
    SysRng
        .try_fill_bytes(&mut bytes)
        .map_err(|_| NoRandomness)?;
    Ok(bytes)
}

impl fmt::Display for NoRandomness {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(
            "The operating system gives no random numbers, so no key and no trip can be made. \
             Restart the laptop and try again.",
        )
    }
}
