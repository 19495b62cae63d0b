//! Parses, runs, prints what went wrong, and gives the exit code.

use std::process::ExitCode;

/// Many threads take and give back small pieces of memory.
#[global_allocator]
static MEMORY: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn main() -> ExitCode {
    strew::coordinates::start();
    strew::cli::run()
}
