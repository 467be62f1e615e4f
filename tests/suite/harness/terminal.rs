//! A terminal to run programs in: what is typed goes in, and what a person would see comes out.

use portable_pty::{Child, CommandBuilder, ExitStatus, MasterPty, PtySize, native_pty_system};
use std::fmt::Write as _;
use std::io::{Read, Write};
use std::path::Path;
use std::sync::{Arc, Mutex};
use std::time::{Duration, Instant};
use vt100::Parser;

/// How long anything may take before a test gives up. The machine may be busy.
const PATIENCE: Duration = Duration::from_secs(30);

/// How often is looked.
const BEAT: Duration = Duration::from_millis(4);

/// So long without a change, a frame is taken to be whole.
const SETTLED: Duration = Duration::from_millis(24);

/// A terminal with a program in it.
pub(crate) struct Terminal {
    master: Box<dyn MasterPty + Send>,
    keys: Box<dyn Write + Send>,
    child: Box<dyn Child + Send + Sync>,
    shown: Arc<Mutex<Shown>>,
}

struct Shown {
    parser: Parser,
    /// When anything last came.
    last: Instant,
    bytes: usize,
}

/// A program for a terminal, with an environment of its own.
pub(crate) fn program(path: &str, arguments: &[&str], home: &Path) -> CommandBuilder {
    let mut command = CommandBuilder::new(path);
    command.args(arguments);
    command.env_clear();
    command.env("HOME", home);
    command.env("XDG_DATA_HOME", home.join("share"));
    command.env("LC_ALL", "C.UTF-8");
    command.env("TERM", "xterm-256color");
    command.env("PATH", "/usr/bin:/bin");
    command.cwd(home);
    command
}

impl Terminal {
    /// Starts a program in a terminal of 80 columns and 24 rows.
    pub(crate) fn start(command: CommandBuilder) -> Self {
        let size = PtySize {
            rows: 24,
            cols: 80,
            pixel_width: 0,
            pixel_height: 0,
        };
        let pair = native_pty_system().openpty(size).unwrap();
        let child = pair.slave.spawn_command(command).unwrap();
        drop(pair.slave);
        let shown = Arc::new(Mutex::new(Shown {
            parser: Parser::new(24, 80, 0),
            last: Instant::now(),
            bytes: 0,
        }));
        let mut reader = pair.master.try_clone_reader().unwrap();
        let seen = Arc::clone(&shown);
        std::thread::spawn(move || {
            let mut bytes = [0; 4096];
            while let Ok(count @ 1..) = reader.read(&mut bytes) {
                let mut seen = seen.lock().unwrap();
                seen.parser.process(&bytes[..count]);
                seen.last = Instant::now();
                seen.bytes += count;
            }
        });
        Self {
            keys: pair.master.take_writer().unwrap(),
            master: pair.master,
            child,
            shown,
        }
    }

    /// The screen as text.
    pub(crate) fn text(&self) -> String {
        self.shown.lock().unwrap().parser.screen().contents()
    }

    /// How many cells are in a colour of their own.
    pub(crate) fn colours(&self) -> usize {
        let shown = self.shown.lock().unwrap();
        let screen = shown.parser.screen();
        let (rows, columns) = screen.size();
        let cells = (0..rows)
            .flat_map(|row| (0..columns).filter_map(move |column| screen.cell(row, column)));
        cells
            .filter(|cell| {
                (cell.fgcolor(), cell.bgcolor()) != (vt100::Color::Default, vt100::Color::Default)
            })
            .count()
    }

    /// How many bytes were written so far.
    pub(crate) fn bytes(&self) -> usize {
        self.shown.lock().unwrap().bytes
    }

    /// Waits until the screen shows this.
    #[track_caller]
    pub(crate) fn wait_for(&self, text: &str) {
        self.wait_until(text, |screen| screen.contains(text));
    }

    /// Waits until the screen is so.
    #[track_caller]
    pub(crate) fn wait_until(&self, what: &str, holds: impl Fn(&str) -> bool) {
        let end = Instant::now() + PATIENCE;
        while !holds(&self.text()) {
            assert!(Instant::now() < end, "never saw {what} on\n{}", self.text());
            std::thread::sleep(BEAT);
        }
    }

    /// Sends bytes as they are.
    pub(crate) fn send(&mut self, bytes: &str) {
        self.keys.write_all(bytes.as_bytes()).unwrap();
        self.keys.flush().unwrap();
    }

    /// Presses keys one by one, each once what the one before did is shown; named keys as in the
    /// tests of the screens.
    #[track_caller]
    pub(crate) fn press(&mut self, keys: &str) {
        for sign in keys.chars() {
            let before = self.bytes();
            match sign {
                '⏎' => self.send("\r"),
                '⇥' => self.send("\t"),
                '↓' => self.send("\u{1b}[B"),
                '⎋' => self.send("\u{1b}"),
                '⌫' => self.send("\u{7f}"),
                letter => self.send(letter.encode_utf8(&mut [0; 4])),
            }
            self.settle(before, sign);
        }
    }

    /// Waits until something came after `before` bytes, and then nothing for a while.
    #[track_caller]
    fn settle(&self, before: usize, sign: char) {
        let end = Instant::now() + PATIENCE;
        loop {
            std::thread::sleep(BEAT);
            let shown = self.shown.lock().unwrap();
            if shown.bytes > before && shown.last.elapsed() > SETTLED {
                return;
            }
            let text = || shown.parser.screen().contents();
            assert!(Instant::now() < end, "{sign} did nothing on\n{}", text());
        }
    }

    /// Changes the size of the window.
    pub(crate) fn resize(&self, rows: u16, cols: u16) {
        let size = PtySize {
            rows,
            cols,
            pixel_width: 0,
            pixel_height: 0,
        };
        // The emulator itself cannot be smaller than this.
        let (high, wide) = (rows.max(2), cols.max(2));
        self.shown
            .lock()
            .unwrap()
            .parser
            .screen_mut()
            .set_size(high, wide);
        self.master.resize(size).unwrap();
    }

    pub(crate) fn pid(&self) -> u32 {
        self.child.process_id().unwrap()
    }

    /// Waits until the program has ended.
    #[track_caller]
    pub(crate) fn end(&mut self) -> ExitStatus {
        let end = Instant::now() + PATIENCE;
        loop {
            if let Some(status) = self.child.try_wait().unwrap() {
                return status;
            }
            assert!(Instant::now() < end, "it goes on:\n{}", self.text());
            std::thread::sleep(BEAT);
        }
    }

    /// Whether the terminal is as it was before: the first screen, a cursor, pastes as keys,
    /// lines and echo.
    #[track_caller]
    pub(crate) fn is_given_back(&self) {
        // What was written last may still be on its way.
        let end = Instant::now() + PATIENCE;
        while !self.wrong().is_empty() {
            assert!(Instant::now() < end, "{}\n{}", self.wrong(), self.text());
            std::thread::sleep(BEAT);
        }
    }

    fn wrong(&self) -> String {
        let shown = self.shown.lock().unwrap();
        let screen = shown.parser.screen();
        let flags = self.master.get_termios().unwrap().local_flags.bits();
        let mut wrong = String::new();
        for (is, what) in [
            (screen.alternate_screen(), "still on the other screen"),
            (screen.hide_cursor(), "the cursor is hidden"),
            (screen.bracketed_paste(), "pastes are still marked"),
            (flags & libc::ICANON == 0, "lines are off"),
            (flags & libc::ECHO == 0, "echo is off"),
        ] {
            if is {
                writeln!(wrong, "{what}").unwrap();
            }
        }
        wrong
    }
}

impl Drop for Terminal {
    fn drop(&mut self) {
        drop(self.child.kill());
    }
}

/// Sends a signal to a process of ours.
pub(crate) fn signal(name: &str, pid: u32) {
    let kill = std::process::Command::new("kill")
        .args([name, &pid.to_string()])
        .status();
    assert!(kill.unwrap().success());
}
