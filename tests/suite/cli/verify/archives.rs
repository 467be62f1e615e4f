//! An archive is not judged as it is, and whoever names one is told what to do.

use crate::cli::demo::sealed;
use std::process::Command;

#[test]
fn an_archive_has_to_be_unpacked_first_and_the_sentence_says_how() {
    let home = sealed();
    let made = home
        .hames("logbook export --logbook share/hames/demo --tar barn.tar")
        .run();
    assert_eq!(made.status, 0, "{}", made.out);
    home.hames("verify barn.tar").run().is(
        2,
        "",
        "barn.tar is an archive, and what is checked is the folder in it. Unpack it first: \
         tar -xf barn.tar; then: hames verify hames-export\n",
    );
    let mut unpack = Command::new("tar");
    unpack.args(["-xf", "barn.tar"]).current_dir(home.path(""));
    assert!(unpack.status().unwrap().success());
    assert_eq!(home.hames("verify hames-export").run().status, 9);

    home.put("my barn.zip", "PK\u{3}\u{4}");
    let zip = home.hames("verify").argument("my barn.zip").run();
    zip.is(
        2,
        "",
        "my barn.zip is an archive, and what is checked is the folder in it. Unpack it first: \
         unzip 'my barn.zip'; then: hames verify, with the folder that comes out\n",
    );
    home.put("trip.jsonl", "{}\n");
    let file = home.hames("verify trip.jsonl").run();
    assert_eq!(file.status, 2);
    assert!(
        file.err
            .starts_with("trip.jsonl is a file, and what is checked is a folder: "),
        "{}",
        file.err
    );
}
