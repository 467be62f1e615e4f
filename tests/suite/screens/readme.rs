//! The picture in the README is the program's own frame.

use crate::architecture::root;
use crate::plain::bench::plan;
use crate::screens::bench::Bench;
use hames::tui::picture;

/// The whole shipped hitch-up, at the latch, in a window of 110 by 36.
#[test]
fn the_picture_in_the_readme_is_fresh() {
    let fresh = picture(
        &Bench::with(plan())
            .play("1")
            .at_step("latch")
            .frame(110, 36),
    );
    let path = root().join("docs/pictures/walk.svg");
    // Accepted the way a changed screen is.
    if std::env::var_os("INSTA_UPDATE").is_some_and(|way| way == "always") {
        std::fs::write(&path, &fresh).unwrap();
    }
    let kept = std::fs::read_to_string(&path).unwrap_or_default();
    assert!(
        kept == fresh,
        "{} is stale: INSTA_UPDATE=always cargo test",
        path.display()
    );
}
