//! How long until the program has answered, and until its first frame is there?

use criterion::Criterion;
use portable_pty::{CommandBuilder, PtySize, native_pty_system};
use std::ffi::OsStr;
use std::io::Read;
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

pub(crate) const HAMES: &str = env!("CARGO_BIN_EXE_hames");

/// Stands on the start screen of the demo barn and nowhere before it.
const FIRST_FRAME: &str = "Quillwater";

pub(crate) fn measure(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("start");
    group.sample_size(50);
    group.bench_function("hames --version", |bencher| {
        bencher.iter(|| {
            let mut program = Command::new(HAMES);
            let status = program.arg("--version").stdout(Stdio::null()).status();
            assert!(status.unwrap().success());
        });
    });
    let home = tempfile::tempdir_in(env!("CARGO_TARGET_TMPDIR")).unwrap();
    group.bench_function("first frame", |bencher| {
        let first_frame = || frame(home.path(), &[], FIRST_FRAME);
        bencher.iter_custom(|starts| (0..starts).map(|_| first_frame()).sum());
    });
    group.finish();
}

/// The time from the call to the frame with this text, in a terminal of its own.
pub(crate) fn frame(home: &Path, arguments: &[&OsStr], text: &str) -> Duration {
    let size = PtySize {
        rows: 40,
        cols: 120,
        ..PtySize::default()
    };
    let terminal = native_pty_system().openpty(size).unwrap();
    let mut program = CommandBuilder::new(HAMES);
    program.args(arguments);
    program.env_clear();
    program.env("HOME", home);
    program.env("LC_ALL", "C.UTF-8");
    program.env("TERM", "xterm-256color");
    let mut output = terminal.master.try_clone_reader().unwrap();

    let began = Instant::now();
    let mut running = terminal.slave.spawn_command(program).unwrap();
    let mut screen = vt100::Parser::new(size.rows, size.cols, 0);
    let mut bytes = [0; 4096];
    while !screen.screen().contents().contains(text) {
        let read = output.read(&mut bytes).unwrap();
        assert_ne!(read, 0, "{}", screen.screen().contents());
        screen.process(&bytes[..read]);
    }
    let took = began.elapsed();

    running.kill().unwrap();
    running.wait().unwrap();
    took
}
