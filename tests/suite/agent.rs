//! Signing with a key that an agent holds: the stock one, one with a hardware key, and ones that
//! lie.

use crate::cli::demo::BEGIN;
use crate::harness::agents::{Answers, StockAgent, answering, framed};
use crate::harness::hardware::{Hardware, TOUCHED, UNTOUCHED};
use crate::harness::home::{Ended, Home, trip};
use crate::plain::bench::whole_walk;
use crate::stock::Bench;
use std::fs;
use std::path::Path;

const APPROVE: &str = "checklist approve my-list.yaml --demo";

/// A demo barn in which the key of its manager is this hardware key, and not on the laptop.
fn with_hardware(key: &Hardware) -> Home {
    let home = Home::new();
    assert_eq!(home.hames("checklist new my-list.yaml").run().status, 0);
    // Founds the barn.
    let _ = home.hames(APPROVE).typed("wrong\n").run();
    let file = home.demo().join("crew/allowed_signers");
    let crew = fs::read_to_string(&file).unwrap();
    let lines = crew.lines().map(|line| {
        if !line.starts_with("odile.marsh,") {
            return format!("{line}\n");
        }
        let (before, _) = line.split_once(" ssh-ed25519 ").unwrap();
        format!("{before} {} Odile Marsh\n", key.line())
    });
    fs::write(&file, lines.collect::<String>()).unwrap();
    fs::remove_file(home.demo().join("keys/odile.marsh")).unwrap();
    home
}

fn approved_with(home: &Home, answers: Answers, typed: &str) -> Ended {
    let folder = tempfile::tempdir().unwrap();
    let socket = answering(folder.path(), answers);
    let approve = home.hames(APPROVE).with("SSH_AUTH_SOCK", socket);
    approve.typed(typed).run()
}

fn is_kept(home: &Home) -> bool {
    home.files().iter().any(|file| file.contains("approved/"))
}

#[test]
fn a_trip_is_sealed_with_the_key_that_the_stock_agent_holds() {
    let home = Home::new();
    let agent = StockAgent::start();
    let end = "end\nabandoned\nrain\nlater\nquit\n";
    let begun = home.hames("--plain").typed(&format!("{BEGIN}{end}")).run();
    assert_eq!(begun.status, 0, "{}{}", begun.out, begun.err);
    let key = home.demo().join("keys/wren.ashdown");
    agent.add(&key, "demo");
    fs::remove_file(&key).unwrap();
    let sign = |typed: &str| {
        let program = home.hames("--plain").with("SSH_AUTH_SOCK", agent.socket());
        program.typed(&format!("1\n1\n{typed}")).run()
    };
    let no = sign("\nlater\nquit\n");
    assert!(
        no.out.contains(
            "The ssh-agent holds this key, and asks for no passphrase.\n\
             DEMO. Wren Ashdown: type yes to sign.\n> \
             Not signed: the ssh-agent holds this key. Type the word yes to sign with it.\n"
        ),
        "{}",
        no.out
    );
    assert!(!home.files().iter().any(|file| file.contains("seal")));
    let yes = sign("yes\nquit\n");
    assert!(
        yes.out
            .contains("Waiting for the ssh-agent ...\n\nDEMO. Sealed. Receipt: RECEIPT"),
        "{}",
        yes.out
    );
    let verified = home.hames("verify share/hames/demo").run();
    assert!(
        verified.out.contains("signed by Wren Ashdown, driver"),
        "{}",
        verified.out
    );
    let folder = trip(&home.demo(), 1);
    let read = |name: &str| fs::read_to_string(folder.join(name)).unwrap();
    let good = Bench::new().verify(
        read("crew.allowed_signers"),
        "wren.ashdown",
        "hames.performed.v1.demo",
        read("seal.json").as_bytes(),
        &read("seal.person.sig"),
    );
    assert!(good.good, "{}", good.said);
}

#[test]
fn a_key_file_on_the_laptop_is_asked_before_the_agent() {
    let home = Home::new();
    let agent = StockAgent::start();
    let walk = format!("{BEGIN}{}", whole_walk());
    let program = home.hames("--plain").with("SSH_AUTH_SOCK", agent.socket());
    let ended = program.typed(&format!("{walk}1\ndemo\nquit\n")).run();
    assert!(
        ended.out.contains("Passphrase of Wren Ashdown."),
        "{}",
        ended.out
    );
    assert!(ended.out.contains("Sealed. Receipt"), "{}", ended.out);
}

#[test]
fn a_locked_agent_and_one_without_the_key_are_told_apart_from_none() {
    let home = Home::new();
    let agent = StockAgent::start();
    let end = "end\nabandoned\nrain\nlater\nquit\n";
    let _ = home.hames("--plain").typed(&format!("{BEGIN}{end}")).run();
    let key = home.demo().join("keys/wren.ashdown");
    let moved = home.path("elsewhere");
    fs::rename(&key, &moved).unwrap();
    let sign = |socket: Option<&Path>| {
        let program = home.hames("--plain").typed("1\n1\nlater\nquit\n");
        match socket {
            Some(socket) => program.with("SSH_AUTH_SOCK", socket).run().out,
            None => program.run().out,
        }
    };
    let socket = agent.socket();
    for (socket, why) in [
        (None, "no ssh-agent runs here"),
        (Some(socket.as_path()), "the ssh-agent does not hold it"),
        (
            Some(Path::new("/nowhere/agent")),
            "no ssh-agent answers at /nowhere/agent, which SSH_AUTH_SOCK names",
        ),
    ] {
        let told = sign(socket);
        assert!(
            told.contains(&format!(
                "The key of Wren Ashdown is not on this laptop, and {why}"
            )),
            "{told}"
        );
    }
    agent.add(&moved, "demo");
    agent.lock();
    let told = sign(Some(&socket));
    assert!(told.contains("the ssh-agent does not hold it"), "{told}");
}

#[test]
fn a_hardware_key_signs_after_yes_and_a_touch() {
    let key = || Hardware::new(7);
    let home = with_hardware(&key());
    let no = approved_with(&home, Answers::With(key(), TOUCHED), "\n");
    assert!(
        no.err.contains("Type the word yes to sign with it."),
        "{}",
        no.err
    );
    assert!(!is_kept(&home));
    let yes = approved_with(&home, Answers::With(key(), TOUCHED), "yes\n");
    assert!(
        yes.out.contains(
            "This is a hardware key. After yes, touch it when it blinks, and type its PIN where \
             the ssh-agent asks for one.\n"
        ) && yes.out.contains("approved by Odile Marsh"),
        "{}{}",
        yes.out,
        yes.err
    );
}

#[test]
fn what_an_agent_answers_is_verified_before_anything_is_kept() {
    let (key, other) = (|| Hardware::new(7), Hardware::new(8));
    let home = with_hardware(&key());
    let untouched = "Not signed: what the ssh-agent signed does not hold: the hardware key signed \
                     without being touched, so a program may have signed unseen; sign again with \
                     a key made without the option no-touch-required.\n";
    let changed = "Not signed: what the ssh-agent signed does not hold: the signed bytes or the \
                   signature were changed after signing.\n";
    let refused = "Not signed: the ssh-agent refused; it may be locked, somebody may have said \
                   no, or the hardware key was not touched in time. See with ssh-add -l what it \
                   holds, then try again.\n";
    for (answers, why) in [
        (Answers::With(key(), UNTOUCHED), untouched),
        (Answers::WithAnother(key(), other), changed),
        (Answers::No(key()), refused),
    ] {
        let ended = approved_with(&home, answers, "yes\n");
        assert_eq!((ended.status, ended.err.as_str()), (1, why));
        assert!(!is_kept(&home));
    }
}

#[test]
fn an_answer_that_is_none_is_told_and_signs_nothing() {
    let home = with_hardware(&Hardware::new(7));
    let nothing_here = "No manager of this logbook has a key on this laptop or in an ssh-agent \
                        here, and a manager's signature is what it takes. Do it on the manager's \
                        laptop.\n";
    let huge = [&[0xff; 4][..], &[12]].concat();
    let cut_off = framed(&[12, 0, 0, 0, 9])[..7].to_vec();
    let nonsense = framed(b"\x0c\xff\xff\xff\xff");
    for bytes in [huge, cut_off, nonsense, framed(b""), Vec::new()] {
        let ended = approved_with(&home, Answers::Bytes(bytes), "yes\n");
        assert_eq!((ended.status, ended.err.as_str()), (1, nothing_here));
    }
    let waited = std::time::Instant::now();
    let ended = approved_with(&home, Answers::Never, "yes\n");
    assert_eq!((ended.status, ended.err.as_str()), (1, nothing_here));
    assert!(waited.elapsed() < std::time::Duration::from_secs(20));
}
