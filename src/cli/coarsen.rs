//! `strew coarsen`: the square of an agreed side that holds each place.

use std::io::Write;
use std::path::PathBuf;
use std::process::ExitCode;

use serde::Serialize;

use super::convert::{complain, object, whole_table};
use super::places::{Spoken, flushed, given, length, line, place, put};
use super::{Console, Outcome};
use crate::coordinates::{System, notation};
use crate::fault::{Fault, Result};
use crate::run::coarsen::{Coarsened, Coarsening, Squares};
use crate::run::table::Task;
use crate::study::Precision;
use crate::words::{Language, Words};

/// Cut places down to the square of an agreed side that holds them
///
/// The square is found by truncation, never by rounding, and is never finer than the place was given.
/// Places are given as arguments, on standard input (one a line) or in a table.
#[derive(clap::Args)]
pub(super) struct Arguments {
    /// Places in any notation
    #[arg(value_name = "PLACE", allow_negative_numbers = true, value_parser = place)]
    places: Vec<String>,
    /// Side of the square: "10 m", "100 m", "1 km", "2 km" …
    #[arg(long, value_name = "SIDE")]
    precision: Precision,
    /// The grid of the square; the British grid where the place lies in it, or the place's own grid
    #[arg(long, value_name = "SYSTEM")]
    to: Option<System>,
    /// The system of eastings and northings that say none themselves
    #[arg(long, value_name = "SYSTEM")]
    from: Option<System>,
    /// A comma between figures is a decimal mark where that is open
    #[arg(long)]
    decimal_comma: bool,
    /// Coarsen a table of separated values: columns are added at the end of each row, and those that gave the place finer are left out
    #[arg(long, value_name = "FILE", conflicts_with_all = ["places", "json"])]
    table: Option<PathBuf>,
    /// The table's column of places, or (given twice) its two columns; found by their headings otherwise
    #[arg(long = "column", value_name = "HEADING", requires = "table")]
    columns: Vec<String>,
    /// Print one JSON object a line
    #[arg(long)]
    json: bool,
    /// Write to this file instead of standard output
    #[arg(long, short, value_name = "FILE")]
    out: Option<PathBuf>,
    /// Print nothing on standard error but faults
    #[arg(long, short)]
    quiet: bool,
    /// The language of what is said
    #[arg(long, value_enum, default_value = "en")]
    language: Spoken,
}

/// A coarsened place, for a machine: `easting` and `northing` are the square's south-west corner.
#[derive(Serialize)]
struct Line<'a> {
    input: &'a str,
    understood_as: &'a str,
    from: String,
    system: String,
    reference: &'a str,
    square_m: u32,
    easting: f64,
    northing: f64,
    centre_easting: f64,
    centre_northing: f64,
    coarser_than_asked: bool,
}

impl Arguments {
    pub(super) fn go(self) -> Outcome {
        let language = self.language.into();
        let console = Console::new(self.quiet, false);
        console.speak(language);
        console.done();
        console.or_say(self.coarsen(&console, language))
    }

    fn coarsen(self, console: &Console, language: Language) -> Result<ExitCode> {
        let side_m = self.precision.side_m().ok_or_else(|| Fault::new("coarsen-parish"))?;
        let how = Coarsening { from: self.from, to: self.to, side_m, decimal_comma: self.decimal_comma };
        if let Some(table) = &self.table {
            let out = self.out.as_deref();
            let failed = whole_table(table, out, &Task::Coarsen(how), &self.columns, console, language)?;
            console.tell(&Words::of(language).say("coarsen-table-caution"));
            return Ok(if failed == 0 { ExitCode::SUCCESS } else { ExitCode::from(3) });
        }
        let from = how.from.clone();
        let reads = |text: &str| notation::read(text, from.as_ref(), self.decimal_comma).is_ok();
        let inputs = given(self.places, reads);
        let mut squares = Squares::new(how);
        let failed = put(self.out.as_deref(), |out| {
            let mut failed = 0_u64;
            for input in inputs {
                let input = input?;
                match squares.coarsen(&input) {
                    Ok(coarsened) if self.json => line(out, &json(&input, &coarsened)?)?,
                    Ok(coarsened) => told(out, &input, &coarsened, language)?,
                    Err(fault) => {
                        failed += 1;
                        complain(out, console, &input, &fault, self.json, language)?;
                    }
                }
                flushed(out)?;
            }
            Ok(failed)
        })?;
        Ok(if failed == 0 { ExitCode::SUCCESS } else { ExitCode::from(3) })
    }
}

/// The middle of a square's side.
fn middle(low: f64, high: f64) -> f64 {
    f64::midpoint(low, high)
}

fn json(input: &str, coarsened: &Coarsened) -> Result<String> {
    let cell = coarsened.cell;
    object(&Line {
        input,
        understood_as: coarsened.written.understood_as.trim_start_matches("notation-"),
        from: coarsened.written.system.to_string(),
        system: coarsened.system.to_string(),
        reference: &coarsened.reference,
        square_m: cell.side_m,
        easting: cell.west_m(),
        northing: cell.south_m(),
        centre_easting: middle(cell.west_m(), cell.east_m()),
        centre_northing: middle(cell.south_m(), cell.north_m()),
        coarser_than_asked: coarsened.coarser_than_asked,
    })
}

fn told(out: &mut dyn Write, input: &str, coarsened: &Coarsened, language: Language) -> Result<()> {
    let words = Words::of(language);
    let cell = coarsened.cell;
    let metres = |value: f64| format!("{value}");
    let text = words.say_with(
        "coarsen-told",
        &[
            ("input", input.into()),
            ("reference", coarsened.reference.as_str().into()),
            ("side", length(f64::from(cell.side_m), language).into()),
            ("system", coarsened.system.to_string().into()),
        ],
    );
    line(out, &text)?;
    let corners = words.say_with(
        "coarsen-corner",
        &[
            ("east", metres(cell.west_m()).into()),
            ("north", metres(cell.south_m()).into()),
            ("centre_east", metres(middle(cell.west_m(), cell.east_m())).into()),
            ("centre_north", metres(middle(cell.south_m(), cell.north_m())).into()),
        ],
    );
    line(out, &format!("  {corners}"))?;
    if coarsened.coarser_than_asked {
        line(out, &format!("  {}", words.say("coarsen-coarser")))?;
    }
    Ok(())
}
