//! `strew convert`: places from one system to another.

use std::fs::File;
use std::io::{Read, Write};
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use serde::Serialize;

use super::places::{Spoken, flushed, given, length, line, place, put, rounded, shown};
use super::{Console, Outcome};
use crate::coordinates::{Finer, Position, System, notation};
use crate::fault::{Fault, Result};
use crate::run::convert::{Asked, Converted, Places};
use crate::run::square::SquareThere;
use crate::run::table::{Task, convert_table};
use crate::run::{Progress as _, Target};
use crate::words::{Language, Words};

/// Convert places from one coordinate system to another
///
/// Each place is given as an argument, on standard input (one a line) or in a table. The system and the
/// notation that were understood, the operation used and its accuracy are told each time. A place with
/// two readings is refused, never guessed.
#[derive(clap::Args)]
pub(super) struct Arguments {
    /// Places in any notation: "OV 523 412", "52.658, 1.716", "52°39'29"N 1°42'58"E", "EPSG:2154 652760 6861000".
    #[arg(value_name = "PLACE", allow_negative_numbers = true, value_parser = place)]
    places: Vec<String>,
    /// The system to convert to. By name: wgs84; british-grid, irish-grid, itm, jersey-grid, guernsey-grid;
    /// lambert-93, lambert-zone-1 to -4, lambert-2-extended, conic-conformal-42 to -50; dutch-grid,
    /// belgian-lambert-1972, belgian-lambert-2008; swiss-lv95, swiss-lv03; gauss-kruger-2 to -5;
    /// danish-grid-1 to -4; etrs89-utm-32n; utm (zone chosen), utm-30n, mgrs; inspire-1km (also 10 and 100 km).
    /// Any other by its code: EPSG:3035
    #[arg(long, value_name = "SYSTEM")]
    to: Target,
    /// The system of eastings and northings that say none themselves
    #[arg(long, value_name = "SYSTEM")]
    from: Option<System>,
    /// Convert a table of separated values ("-" for standard input), adding columns at the end of each row
    #[arg(long, value_name = "FILE", conflicts_with = "places")]
    table: Option<PathBuf>,
    /// The table's column of places, or (given twice) its two columns; found by their headings otherwise
    #[arg(long = "column", value_name = "HEADING", requires = "table")]
    columns: Vec<String>,
    /// Take the south-west corner of a grid reference's square, not its centre
    #[arg(long)]
    corner: bool,
    /// How far off the places may be, as their source states: metres ("12 m"). A place that says so itself
    /// ("OV 5234 4123 ± 12 m") keeps its own
    #[arg(long, value_name = "LENGTH", value_parser = stated)]
    uncertainty: Option<f64>,
    /// Nobody knows the datum of these latitudes and longitudes: what that may amount to is added to their
    /// uncertainty
    #[arg(long)]
    datum_unknown: bool,
    /// A comma between figures is a decimal mark where that is open ("651,409 313,177")
    #[arg(long)]
    decimal_comma: bool,
    /// Print one JSON object a line
    #[arg(long, conflicts_with = "table")]
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

/// Takes a whole table through; how many rows failed.
pub(super) fn whole_table(
    table: &Path,
    out: Option<&Path>,
    task: &Task,
    columns: &[String],
    console: &Console,
    language: Language,
) -> Result<u64> {
    let shown = super::console::shown(table);
    let input: Box<dyn Read> = if shown == "-" {
        Box::new(std::io::stdin().lock())
    } else {
        let file = File::open(table)
            .map_err(|why| Fault::new("convert-table-unreadable").because(&why).in_file(&shown))?;
        Box::new(file)
    };
    console.step("step-convert");
    let rows = put(out, |out| {
        convert_table(input, out, task, columns, language, &|rows| console.count(rows))
            .map_err(|fault| fault.in_file(&shown))
    })?;
    console.done();
    let words = Words::of(language);
    let counts = [
        ("read", words.number(rows.read as f64, 0).into()),
        ("done", words.number((rows.read - rows.failed) as f64, 0).into()),
        ("failed", words.number(rows.failed as f64, 0).into()),
    ];
    console.tell(&words.say_with("convert-table-rows", &counts));
    if rows.cut > 0 {
        let cells = [("cells", words.number(rows.cut as f64, 0).into())];
        console.tell(&words.say_with("coarsen-table-cut", &cells));
    }
    Ok(rows.failed)
}

/// A converted place, for a machine.
#[derive(Serialize)]
struct Line<'a> {
    input: &'a str,
    understood_as: &'a str,
    from: String,
    point: &'a str,
    system: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    latitude: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    longitude: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    easting: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    northing: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    reference: Option<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    height_m: Option<f64>,
    square_m: f64,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    outline: Vec<Corner>,
    #[serde(skip_serializing_if = "Option::is_none")]
    held_by: Option<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    held_by_side_m: Option<u32>,
    uncertainty_m: Option<f64>,
    operation: &'a str,
    accuracy_m: Option<f64>,
    grid_used: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    finer_grid: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    finer_accuracy_m: Option<f64>,
}

/// A corner of a square, for a machine: each axis by its name.
#[derive(Serialize)]
#[serde(untagged)]
enum Corner {
    Degrees { latitude: f64, longitude: f64 },
    Metres { easting: f64, northing: f64 },
}

impl Corner {
    fn of(position: Position) -> Self {
        match position {
            Position::Geographic { latitude_deg, longitude_deg } => {
                Self::Degrees { latitude: rounded(latitude_deg, 10), longitude: rounded(longitude_deg, 10) }
            }
            Position::Projected { easting_m, northing_m } => {
                Self::Metres { easting: rounded(easting_m, 4), northing: rounded(northing_m, 4) }
            }
        }
    }
}

/// A length of `--uncertainty`, metres.
fn stated(text: &str) -> std::result::Result<f64, String> {
    let folded = text.trim().to_lowercase().replace(',', ".");
    let (number, unit) = match folded.strip_suffix("km") {
        Some(number) => (number, 1000.0),
        None => (folded.strip_suffix('m').unwrap_or(&folded), 1.0),
    };
    let metres = number.trim().parse::<f64>().ok().map(|number| number * unit);
    metres
        .filter(|metres| metres.is_finite() && *metres >= 0.0)
        .ok_or_else(|| "a length is wanted, such as \"12 m\" or \"0.5 km\"".to_owned())
}

/// A place that could not be converted, for a machine.
#[derive(Serialize)]
pub(super) struct Failed<'a> {
    pub input: &'a str,
    pub error: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hint: Option<String>,
}

impl Arguments {
    pub(super) fn go(self) -> Outcome {
        let language = self.language.into();
        let console = Console::new(self.quiet, false);
        console.speak(language);
        console.or_say(self.convert(&console, language)).inspect(|_| console.done())
    }

    fn convert(self, console: &Console, language: Language) -> Result<ExitCode> {
        let asked = Asked {
            from: self.from.clone(),
            to: self.to.clone(),
            corner: self.corner,
            decimal_comma: self.decimal_comma,
            stated_m: self.uncertainty,
            datum_unknown: self.datum_unknown,
        };
        let failed = match &self.table {
            Some(table) => {
                // A wrong code is said before the table is opened.
                Places::new(asked.clone())?;
                let task = Task::Convert(asked);
                whole_table(table, self.out.as_deref(), &task, &self.columns, console, language)?
            }
            None => {
                let mut places = Places::new(asked)?;
                self.one_by_one(&mut places, console, language)?
            }
        };
        Ok(if failed == 0 { ExitCode::SUCCESS } else { ExitCode::from(3) })
    }

    fn one_by_one(self, places: &mut Places, console: &Console, language: Language) -> Result<u64> {
        console.done();
        let from = self.from.clone();
        let reads = |text: &str| notation::read(text, from.as_ref(), self.decimal_comma).is_ok();
        let inputs = given(self.places, reads);
        put(self.out.as_deref(), |out| {
            let mut failed = 0;
            for (index, input) in inputs.enumerate() {
                let input = input?;
                match places.convert(&input) {
                    Ok(converted) => {
                        let beside = Beside {
                            square: places.square_there(&converted)?,
                            finer: places.finer(&converted),
                        };
                        if self.json {
                            line(out, &json(&input, &converted, &beside)?)?;
                        } else {
                            if index > 0 {
                                line(out, "")?;
                            }
                            told(out, &input, &converted, &beside, language)?;
                        }
                    }
                    Err(fault) => {
                        failed += 1;
                        complain(out, console, &input, &fault, self.json, language)?;
                    }
                }
                flushed(out)?;
            }
            Ok(failed)
        })
    }
}

/// Says why a place was not done: on its own line for a machine, on standard error for a person.
pub(super) fn complain(
    out: &mut dyn Write,
    console: &Console,
    input: &str,
    fault: &Fault,
    json: bool,
    language: Language,
) -> Result<()> {
    let (error, hint) = (fault.text(language), fault.hint(language));
    if json {
        return line(out, &object(&Failed { input, error, hint })?);
    }
    console.warn(&format!("{input}: {error}"));
    if let Some(hint) = hint {
        console.warn(&format!("  {hint}"));
    }
    Ok(())
}

/// A JSON object on one line.
pub(super) fn object(value: &impl Serialize) -> Result<String> {
    serde_json::to_string(value).map_err(|why| Fault::new("convert-not-written").with("why", why))
}

/// What is told beside a converted place.
struct Beside {
    square: Option<SquareThere>,
    finer: Option<Finer>,
}

fn json(input: &str, converted: &Converted, beside: &Beside) -> Result<String> {
    let square = beside.square.as_ref();
    let held = square.and_then(|square| square.held_by.as_ref());
    let (mut latitude, mut longitude, mut easting, mut northing) = (None, None, None, None);
    match converted.position {
        Position::Geographic { latitude_deg, longitude_deg } => {
            latitude = Some(rounded(latitude_deg, 10));
            longitude = Some(rounded(longitude_deg, 10));
        }
        Position::Projected { easting_m, northing_m } => {
            easting = Some(rounded(easting_m, 4));
            northing = Some(rounded(northing_m, 4));
        }
    }
    object(&Line {
        input,
        understood_as: converted.written.understood_as.trim_start_matches("notation-"),
        from: converted.written.system.to_string(),
        point: converted.point.name(),
        system: converted.system.to_string(),
        latitude,
        longitude,
        easting,
        northing,
        reference: converted.reference.as_deref(),
        height_m: converted.written.height_m,
        square_m: rounded(converted.written.square_m, 6),
        outline: square.map(|square| square.outline.map(Corner::of).into()).unwrap_or_default(),
        held_by: held.map(|(reference, _)| reference.as_str()),
        held_by_side_m: held.map(|(_, side_m)| *side_m),
        uncertainty_m: converted.uncertainty_m.map(|metres| rounded(metres, 4)),
        operation: &converted.operation.description,
        accuracy_m: converted.operation.accuracy_m,
        grid_used: converted.operation.grid_used,
        finer_grid: beside.finer.as_ref().map(|finer| finer.grid.clone()),
        finer_accuracy_m: beside.finer.as_ref().map(|finer| finer.accuracy_m),
    })
}

fn told(
    out: &mut dyn Write,
    input: &str,
    converted: &Converted,
    beside: &Beside,
    language: Language,
) -> Result<()> {
    let words = Words::of(language);
    let written = &converted.written;
    let row = |label: &str, text: &str| format!("  {:<13} {text}", words.say(label));
    line(out, input)?;
    let understood = words.say_with(
        "convert-understood-text",
        &[
            ("notation", words.say(written.understood_as).into()),
            ("system", written.system.to_string().into()),
            ("square", length(written.square_m, language).into()),
            ("point", words.say(&format!("convert-point-{}", converted.point.name())).into()),
        ],
    );
    line(out, &row("convert-understood", &understood))?;
    let place = shown(converted.position, written.square_m, language);
    line(out, &format!("  {:<13} {place}", converted.system.to_string()))?;
    if let Some(reference) = &converted.reference {
        line(out, &row("convert-reference", reference))?;
    }
    if let Some(metres) = written.height_m {
        let height = ("height", format!("{metres} m").into());
        line(out, &row("convert-height", &words.say_with("convert-height-text", &[height])))?;
    }
    if let Some(square) = &beside.square {
        let corners = square.outline.map(|corner| shown(corner, written.square_m / 10.0, language));
        for (label, corner) in
            ["convert-corner-sw", "convert-corner-se", "convert-corner-ne", "convert-corner-nw"]
                .iter()
                .zip(&corners)
        {
            line(out, &row(label, corner))?;
        }
        match &square.held_by {
            Some((reference, side_m)) => {
                let id = if f64::from(*side_m) > written.square_m {
                    "convert-held-larger"
                } else {
                    "convert-held-same"
                };
                let side = ("side", length(f64::from(*side_m), language).into());
                let given = ("given", length(written.square_m, language).into());
                let text = words.say_with(id, &[("reference", reference.as_str().into()), side, given]);
                line(out, &row("convert-held", &text))?;
            }
            None if !converted.system.in_degrees() => {
                line(out, &row("convert-held", &words.say("convert-held-by-none")))?;
            }
            None => {}
        }
    }
    line(out, &row("convert-operation", &converted.operation.description))?;
    let accuracy = match converted.operation.accuracy_m {
        Some(metres) => length(metres, language),
        None => words.say("convert-accuracy-unknown"),
    };
    line(out, &row("convert-accuracy", &accuracy))?;
    if let Some(finer) = &beside.finer {
        let accuracy = ("accuracy", length(finer.accuracy_m, language).into());
        let text = words.say_with("convert-finer-text", &[("grid", finer.grid.as_str().into()), accuracy]);
        line(out, &row("convert-finer", &text))?;
    }
    if let Some(metres) = converted.uncertainty_m {
        line(out, &row("convert-uncertainty", &length(metres, language)))?;
    }
    Ok(())
}
