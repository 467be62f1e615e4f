//! The pictures in the README are the program's own frames.

use crate::architecture::root;
use crate::plain::bench::plan;
use crate::screens::bench::Bench;
use hames::tui::picture;
use ratatui::buffer::Buffer;

/// The whole shipped hitch-up, at the latch; and the rig with a higher drawbar in thought.
#[test]
fn the_pictures_in_the_readme_are_fresh() {
    let walk = Bench::with(plan()).play("1").at_step("latch");
    is_fresh("walk.svg", &walk.frame(110, 36));
    let rig = Bench::with(plan()).play("r→→→→→→↓↓↓→");
    is_fresh("rig.svg", &rig.frame(110, 36));
}

fn is_fresh(name: &str, frame: &Buffer) {
    let fresh = picture(frame);
    let path = root().join("docs/pictures").join(name);
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
