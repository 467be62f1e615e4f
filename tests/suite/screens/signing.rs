//! Signing with a key that an agent holds.

use crate::screens::stations::station;
use hames::desk::KeyLies;
use hames::tui::Context;

#[test]
fn a_key_in_the_agent_wants_the_word_yes_and_enter_alone_signs_nothing() {
    for (lies, told) in [
        (KeyLies::InTheAgent, "The ssh-agent holds this key"),
        (
            KeyLies::InHardware,
            "This is a hardware key. After yes, touch it",
        ),
    ] {
        let mut bench = station("signer").bench.clone();
        bench.desk.key_lies = lies;
        let bench = bench.play("1");
        assert!(bench.text(80, 24).contains(told), "{}", bench.text(80, 24));
        let bench = bench.play("⏎");
        let refused = bench.text(80, 24);
        assert!(refused.contains("Type the word yes"), "{refused}");
        assert_eq!(bench.desk.sealed_by, None);
        let bench = bench.play("yes");
        for (columns, rows) in [(40, 12), (80, 24), (120, 40)] {
            let shown = bench.text(columns, rows);
            assert!(shown.contains("Type yes to sign: yes"), "{shown}");
        }
        let bench = bench.play("⏎");
        assert_eq!(bench.model.context(), Context::Sealed);
    }
}
