//! Arguments in, exit status out.

use std::process::ExitCode;

fn main() -> ExitCode {
    hames::cli::run(std::env::args_os())
}
