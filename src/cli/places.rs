//! What `convert` and `coarsen` share: places from arguments or standard input, and lines out.

use std::ffi::OsString;
use std::io::{BufRead, Read, Write};
use std::path::Path;

use crate::coordinates::Position;
use crate::fault::{Fault, Result};
use crate::pack::{self, Readers};
use crate::words::{Language, Words};

/// A number rounded for output: metres to 0.1 mm, degrees to as little.
pub(super) fn rounded(value: f64, decimals: i32) -> f64 {
    let scale = 10_f64.powi(decimals);
    (value * scale).round() / scale
}

/// The places given: the arguments, or the lines of standard input where there are none.
///
/// `reads` says whether a text reads as a place: arguments that only do so together ("OV 523 412" typed
/// without quotes) are one place.
pub(super) fn given(
    arguments: Vec<String>,
    reads: impl Fn(&str) -> bool,
) -> Box<dyn Iterator<Item = Result<String>>> {
    if arguments.is_empty() {
        return Box::new(lines(std::io::stdin().lock()));
    }
    if arguments.len() > 1 && !arguments.iter().any(|one| reads(one)) {
        let together = arguments.join(" ");
        if reads(&together) {
            return Box::new(std::iter::once(Ok(together)));
        }
    }
    Box::new(arguments.into_iter().map(Ok))
}

/// An argument such as "-4.5, 50.4" is a place and no option, though it begins with a minus: it goes past the
/// parser under the typographic sign, and [`place`] takes that off again.
pub(super) fn minus_kept(argument: OsString) -> OsString {
    let place = argument.to_str().and_then(|text| text.strip_prefix('-')).filter(|rest| {
        rest.starts_with(|c: char| c.is_ascii_digit())
            && rest.contains(|c: char| !c.is_ascii_digit() && c != '.')
    });
    place.map_or_else(|| argument.clone(), |rest| format!("{MINUS}{rest}").into())
}

const MINUS: char = '\u{2212}';

/// A place as it was typed.
pub(super) fn place(text: &str) -> std::result::Result<String, String> {
    Ok(text.strip_prefix(MINUS).map_or_else(|| text.to_owned(), |rest| format!("-{rest}")))
}

/// Lines that hold something, in UTF-8 or else Windows-1252.
fn lines(mut from: impl BufRead + 'static) -> impl Iterator<Item = Result<String>> {
    let mut first = true;
    std::iter::from_fn(move || {
        loop {
            let mut line = Vec::new();
            // A line without end must not fill the memory.
            match from.by_ref().take(1 << 16).read_until(b'\n', &mut line) {
                Err(why) => return Some(Err(Fault::new("convert-input-unreadable").because(&why))),
                Ok(0) => return None,
                Ok(_) => {}
            }
            let text = match std::str::from_utf8(&line) {
                Ok(text) => text.to_owned(),
                Err(_) => encoding_rs::WINDOWS_1252.decode_without_bom_handling(&line).0.into_owned(),
            };
            let text = if std::mem::take(&mut first) { text.trim_start_matches('\u{feff}') } else { &text };
            if !text.trim().is_empty() {
                return Some(Ok(text.trim().to_owned()));
            }
        }
    })
}

/// Fills standard output, or a file that appears whole or not at all and is its owner's alone.
pub(super) fn put<T>(out: Option<&Path>, fill: impl FnOnce(&mut dyn Write) -> Result<T>) -> Result<T> {
    match out {
        Some(path) => pack::write_pieces(path, Readers::Owner, fill),
        None => {
            let mut out = std::io::BufWriter::new(std::io::stdout().lock());
            let filled = fill(&mut out)?;
            flushed(&mut out)?;
            Ok(filled)
        }
    }
}

/// Flushes, so that a line shows as soon as it is done. A reader that closed its end wants no more.
pub(super) fn flushed(out: &mut dyn Write) -> Result<()> {
    out.flush().or_else(ended).map_err(not_written)
}

/// Writes a line.
pub(super) fn line(out: &mut dyn Write, text: &str) -> Result<()> {
    writeln!(out, "{text}").or_else(ended).map_err(not_written)
}

fn ended(why: std::io::Error) -> std::io::Result<()> {
    if why.kind() == std::io::ErrorKind::BrokenPipe { Ok(()) } else { Err(why) }
}

fn not_written(why: std::io::Error) -> Fault {
    Fault::new("convert-not-written").because(&why)
}

/// A position for a person, to one figure finer than a square of `square_m`.
pub(super) fn shown(position: Position, square_m: f64, language: Language) -> String {
    let words = Words::of(language);
    let digits = |per_unit_m: f64, most: i32| {
        let needed = (per_unit_m / square_m.max(1e-12)).log10().ceil() as i32 + 1;
        needed.clamp(0, most) as usize
    };
    let (id, first, second, decimals) = match position {
        Position::Geographic { latitude_deg, longitude_deg } => {
            ("convert-degrees", latitude_deg, longitude_deg, digits(111_320.0, 9))
        }
        Position::Projected { easting_m, northing_m } => {
            ("convert-metres", easting_m, northing_m, digits(1.0, 3))
        }
    };
    let written = |value: f64| format!("{value:.decimals$}");
    words.say_with(id, &[("first", written(first).into()), ("second", written(second).into())])
}

/// A length for a person: kilometres where whole, else metres to two figures that tell.
pub(super) fn length(metres: f64, language: Language) -> String {
    let words = Words::of(language);
    if metres >= 1000.0 && metres % 1000.0 == 0.0 {
        return format!("{} km", words.number(metres / 1000.0, 0));
    }
    let decimals = match metres.log10().floor() as i32 {
        2.. => 0,
        // Nothing at all has no order: `1 - order` would overflow.
        order => 1_i32.saturating_sub(order).clamp(0, 6) as usize,
    };
    let whole = format!("{metres:.decimals$}").trim_end_matches('0').ends_with('.');
    format!("{} m", words.number(metres, if whole { 0 } else { decimals }))
}

/// A language of the messages, as typed.
#[derive(Debug, Clone, Copy, clap::ValueEnum)]
pub(super) enum Spoken {
    /// English
    En,
    /// French
    Fr,
}

impl From<Spoken> for Language {
    fn from(spoken: Spoken) -> Self {
        match spoken {
            Spoken::En => Self::English,
            Spoken::Fr => Self::French,
        }
    }
}
