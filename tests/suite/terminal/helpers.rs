//! Programs of the test's own, run in a terminal by running this test binary once more: a window
//! that can be closed, and screens whose errands panic.

use crate::harness::home::Home;
use crate::harness::terminal::{Terminal, program};
use crate::plain::bench::plan;
use crate::screens::bench::good_keys;
use hames::tui::{self, Look, Theme};
use hames::world::{Machine, World};
use portable_pty::CommandBuilder;
use std::io::{BufRead, BufReader, Write};
use std::path::Path;
use std::process::{Child, Command, Stdio};

/// Says to a test that it is not a test now but a helper, and in which folder.
const ROLE: &str = "HELPER_HOME";

/// A process that holds a window with a walk in it, and the program's process number. The
/// window's end is held by that process alone, so that it closes when the process is gone.
pub(super) fn window(home: &Home) -> (Child, u32) {
    let mut holder = Command::new(std::env::current_exe().unwrap())
        .args(["--exact", "terminal::helpers::hold_a_window", "--nocapture"])
        .env(ROLE, home.path(""))
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let lines = BufReader::new(holder.stdout.take().unwrap()).lines();
    let pid = lines
        .map_while(Result::ok)
        .find_map(|line| line.split_once("walking in ")?.1.trim().parse().ok())
        .unwrap();
    (holder, pid)
}

/// Closes a window at once and without a word.
pub(super) fn close(mut window: Child) {
    window.kill().unwrap();
    window.wait().unwrap();
}

/// Whether a process runs no more; one that nobody has asked after yet is over, too.
pub(super) fn is_over(pid: u32) -> bool {
    let stat = std::fs::read_to_string(format!("/proc/{pid}/stat"));
    stat.is_ok_and(|stat| stat.contains(") Z ")) || !Path::new(&format!("/proc/{pid}")).exists()
}

/// This test binary, to be run in a terminal, with screens whose first errand panics.
pub(super) fn panicking(home: &Home) -> CommandBuilder {
    let binary = std::env::current_exe().unwrap();
    let arguments = [
        "--exact",
        "terminal::helpers::panic_on_the_screens",
        "--nocapture",
    ];
    let mut command = program(binary.to_str().unwrap(), &arguments, &home.path(""));
    command.env(ROLE, home.path(""));
    command
}

#[test]
fn hold_a_window() {
    let Some(home) = std::env::var_os(ROLE) else {
        return;
    };
    let hames = program(env!("CARGO_BIN_EXE_hames"), &[], home.as_ref());
    let mut terminal = Terminal::start(hames);
    terminal.wait_for("Quillwater");
    terminal.press("11");
    terminal.press(&good_keys(&plan())[0]);
    let mut out = std::io::stdout();
    writeln!(out, "walking in {}", terminal.pid()).unwrap();
    out.flush().unwrap();
    // Until it is killed, or whoever started it is gone.
    drop(std::io::stdin().lock().read_line(&mut String::new()));
}

#[test]
fn panic_on_the_screens() {
    if std::env::var_os(ROLE).is_none() {
        return;
    }
    let machine = Machine::this();
    let look = Look {
        theme: Theme::Own,
        colour: true,
        ascii: false,
        big: false,
    };
    let mut perform = |errand| panic!("an errand nobody expected: {errand:?}");
    let begun = tui::first(look, machine.now());
    let ended = tui::run(&mut perform, &|| machine.now(), begun);
    panic!("it came back: {ended:?}");
}
