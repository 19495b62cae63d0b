//! What was typed: one file a command, arguments and printing only.
#![allow(clippy::print_stdout, clippy::print_stderr)] // printing is this room's work

mod audit;
mod blank;
mod check;
mod coarsen;
mod console;
mod convert;
mod crash;
mod density;
mod ledger;
mod licences;
mod map;
mod new;
mod parish;
mod photographs;
mod places;
mod report;
mod shore;
mod submit;
mod table;

use std::process::ExitCode;

use clap::{Parser, Subcommand};

use crate::fault::Fault;
use crate::words::Language;

pub(crate) use console::{Console, StudyArguments};

/// From a register of stone-tool finds to what may be shown to whom: places converted and cut to the
/// agreed precision, distribution maps, tables and a report that draw thieves no map.
#[derive(Parser)]
#[command(name = "strew", version, about, max_term_width = 100, after_help = AFTER_HELP)]
struct Typed {
    #[command(subcommand)]
    command: Command,
}

const AFTER_HELP: &str = "A precise place, once published, invites illegal digging and cannot be called back. \
Ask the landowner before you walk, report finds to the record office, and follow the law where you are.";

#[derive(Subcommand)]
enum Command {
    Convert(convert::Arguments),
    Coarsen(coarsen::Arguments),
    New(new::Arguments),
    Check(check::Arguments),
    Map(map::Arguments),
    Table(table::Arguments),
    Density(density::DensityArguments),
    Concentrations(density::ConcentrationsArguments),
    Shore(shore::Arguments),
    Report(report::Arguments),
    ParishSheet(parish::Arguments),
    Blank(blank::Arguments),
    Submit(submit::Arguments),
    Ledger(ledger::Arguments),
    Audit(audit::Arguments),
    Photographs(photographs::Arguments),
    Licences(licences::Arguments),
}

/// Parses the command line, runs the command and prints what went wrong.
///
/// Exit codes: 0 done; 1 refused or failed; 2 wrong usage; 3 (`check`, `convert` and `coarsen`) done,
/// but rows were set aside.
pub fn run() -> ExitCode {
    crash::guarded(typed)
}

fn typed() -> ExitCode {
    let typed = Typed::parse_from(std::env::args_os().map(places::minus_kept));
    let outcome = match typed.command {
        Command::Convert(arguments) => arguments.go(),
        Command::Coarsen(arguments) => arguments.go(),
        Command::New(arguments) => arguments.go(),
        Command::Check(arguments) => arguments.go(),
        Command::Map(arguments) => arguments.go(),
        Command::Table(arguments) => arguments.go(),
        Command::Density(arguments) => arguments.go(),
        Command::Concentrations(arguments) => arguments.go(),
        Command::Shore(arguments) => arguments.go(),
        Command::Report(arguments) => arguments.go(),
        Command::ParishSheet(arguments) => arguments.go(),
        Command::Blank(arguments) => arguments.go(),
        Command::Submit(arguments) => arguments.go(),
        Command::Ledger(arguments) => arguments.go(),
        Command::Audit(arguments) => arguments.go(),
        Command::Photographs(arguments) => arguments.go(),
        Command::Licences(arguments) => arguments.go(),
    };
    match outcome {
        Ok(code) => code,
        Err((fault, language)) => {
            console::complain(&fault, fault.language.unwrap_or(language));
            ExitCode::FAILURE
        }
    }
}

/// What a command gives back: an exit code, or a fault and the language to say it in.
pub(crate) type Outcome = Result<ExitCode, (Fault, Language)>;
