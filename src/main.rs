//! Parses, runs, prints what went wrong, and gives the exit code.

use std::process::ExitCode;

fn main() -> ExitCode {
    strew::coordinates::start();
    strew::cli::run()
}
