//! What several test files share.

pub(crate) mod agents;
pub(crate) mod good;
pub(crate) mod hardware;
pub(crate) mod home;
mod laid;
pub(crate) mod terminal;
pub(crate) mod tools;

/// The shipped hitch-up of a bumper pull, put together.
pub(crate) fn hitch_up_text() -> String {
    put_together_text("hitch-bumper")
}

/// A shipped checklist, put together where the barn has chosen nothing.
pub(crate) fn put_together_text(id: &str) -> String {
    let mut shipped = hames::checklist::shipped_by_default();
    let found = shipped.find(|put| put.checklist.id == id);
    found.unwrap_or_else(|| panic!("no {id}")).text.clone()
}
