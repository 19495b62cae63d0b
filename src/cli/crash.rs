//! When the program itself fails: neither what it says nor what the system keeps of it names a place.

use std::panic::{AssertUnwindSafe, PanicHookInfo, catch_unwind};
use std::process::ExitCode;

/// Runs `of` so that a fault of the program's own leaves no copy of its memory and says where in the program it
/// lies, never with which values: a library's message may quote what it was given.
pub(super) fn guarded(of: impl FnOnce() -> ExitCode) -> ExitCode {
    leave_no_copy_of_memory();
    std::panic::set_hook(Box::new(say_where));
    catch_unwind(AssertUnwindSafe(of)).unwrap_or_else(|_| {
        eprintln!(
            "strew: stopped. What was being written was not put in its place. Please tell those who make strew \
             the line above: it names no find and no place."
        );
        ExitCode::FAILURE
    })
}

fn say_where(fault: &PanicHookInfo<'_>) {
    match fault.location() {
        Some(at) => eprintln!("strew: a fault of its own, at {}:{}", at.file(), at.line()),
        None => eprintln!("strew: a fault of its own"),
    }
}

/// A system may write the memory of a program that crashes to the disk, or hand it to a collector of crashes; of this
/// one it keeps nothing. Where the system refuses to be told, the work goes on: most never keep any.
#[cfg(unix)]
fn leave_no_copy_of_memory() {
    use rustix::process::{Resource, Rlimit, setrlimit};
    let _ = setrlimit(Resource::Core, Rlimit { current: Some(0), maximum: Some(0) });
    // A collector is asked in spite of the limit.
    #[cfg(any(target_os = "linux", target_os = "android"))]
    let _ = rustix::process::set_dumpable_behavior(rustix::process::DumpableBehavior::NotDumpable);
}

#[cfg(not(unix))]
fn leave_no_copy_of_memory() {}

#[cfg(test)]
mod tests {
    use super::*;

    /// Set for the process that is to fail.
    const FAILS: &str = "STREW_TEST_FAILS";

    /// A fault deep in a library, on another thread, with a place in its message.
    #[test]
    fn a_fault_of_its_own_names_no_place() {
        if std::env::var_os(FAILS).is_some() {
            let fail = || {
                let place = rayon::join(|| (523_412, 145_678), || ()).0;
                rayon::join(|| assert_eq!(place, (0, 0), "find 7 lies at {place:?}"), || ());
                ExitCode::SUCCESS
            };
            assert!(guarded(fail) == ExitCode::FAILURE);
            return;
        }
        let mut again = std::process::Command::new(std::env::current_exe().unwrap());
        again.args(["--exact", "cli::crash::tests::a_fault_of_its_own_names_no_place", "--nocapture"]);
        let output = again.env(FAILS, "1").output().unwrap();
        let said = [output.stdout, output.stderr].concat();
        let said = String::from_utf8_lossy(&said);
        assert!(output.status.success(), "{said}");
        assert!(said.contains("a fault of its own, at src/cli/crash.rs:"), "{said}");
        assert!(said.contains("strew: stopped."), "{said}");
        assert!(!said.contains("523") && !said.contains("145") && !said.contains("find 7"), "{said}");
    }
}
