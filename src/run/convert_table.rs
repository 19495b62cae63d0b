//! Converting or coarsening a table: each row goes out as it came in, with columns added at its end (and,
//! where places are coarsened, without the columns that gave them finer).

use std::borrow::Cow;
use std::collections::VecDeque;
use std::io::{BufRead, BufReader, Read, Write};
use std::sync::mpsc;

use super::table_task::{Doing, Place, Task};
use crate::coordinates::notation::Pair;
use crate::fault::{Fault, Result};
use crate::words::Language;

/// How many rows there were.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Rows {
    /// Rows read, without the header.
    pub read: u64,
    /// Rows whose place could not be converted; each has its reason in the column `error`.
    pub failed: u64,
}

/// Where the place stands in a row.
#[derive(Clone, Copy)]
pub(super) enum Spot {
    One(usize),
    Two(usize, usize, Pair),
}

/// Headings of a column that holds whole places, as people write them (lower case, letters alone).
const WHOLE: &[&str] = &[
    "place",
    "gridref",
    "gridreference",
    "ngr",
    "osgridref",
    "osgridreference",
    "gr",
    "reference",
    "ref",
    "coordinates",
    "coords",
    "location",
    "position",
    "latlong",
    "latlon",
    "nationalgridreference",
    "lieu",
    "coordonnees",
    "coordonnées",
    "localisation",
    "carroyage",
    "findspot",
];
/// Headings of two columns, each pair in the order that [`Pair`] names.
const PAIRS: &[(&[&str], &[&str], Pair)] = &[
    (
        &["latitude", "lat", "latdeg", "latitudedeg"],
        &["longitude", "long", "lon", "lng", "londeg", "longitudedeg"],
        Pair::LatitudeLongitude,
    ),
    (
        &["easting", "eastings", "east", "e", "x", "xl93", "xlambert", "est", "eastingm"],
        &["northing", "northings", "north", "n", "y", "yl93", "ylambert", "nord", "northingm"],
        Pair::EastingNorthing,
    ),
];

/// Rows that a worker takes at a time.
const BLOCK: usize = 4096;

/// Converts or coarsens a table of separated values (comma, semicolon or tab; UTF-8 or Windows-1252) block by block on
/// every core, so that its length does not matter; rows go out in the order they came in. `columns` names
/// the place's column or its two; they are found by their headings where it is empty. `told` hears how many
/// rows have gone out.
pub fn convert_table(
    input: impl Read,
    output: &mut dyn Write,
    task: &Task,
    columns: &[String],
    language: Language,
    told: &dyn Fn(u64),
) -> Result<Rows> {
    let mut input = BufReader::with_capacity(1 << 16, input);
    let start = input.fill_buf().map_err(unreadable)?;
    let bom = start.starts_with(b"\xef\xbb\xbf");
    let separator = separator(start);
    if bom {
        input.consume(3);
    }
    let mut reader = csv::ReaderBuilder::new().delimiter(separator).flexible(true).from_reader(input);
    let headings: Vec<String> =
        reader.byte_headers().map_err(unreadable)?.iter().map(|cell| decoded(cell).into_owned()).collect();
    let spot = spot(&headings, columns)?;
    let names = task.added(&headings);
    let mut first = sheet(separator);
    let kept =
        headings.iter().enumerate().filter(|(index, _)| !task.cuts(spot, *index)).map(|(_, name)| name);
    first.write_record(kept.chain(&names)).map_err(unwritable)?;
    output.write_all(&written(first)?).map_err(|why| unwritable(why.into()))?;
    let work = Work { task, spot, width: headings.len(), added: names.len(), separator, language };
    let workers = std::thread::available_parallelism().map_or(1, usize::from);
    std::thread::scope(|scope| {
        // Each worker has a queue of its own and is served in turn, which keeps the order.
        let queues: Vec<_> = (0..workers)
            .map(|_| {
                let (give, take) = mpsc::sync_channel::<Vec<csv::ByteRecord>>(2);
                let (done, finished) = mpsc::sync_channel(2);
                let work = &work;
                scope.spawn(move || {
                    let mut doing = task.begin();
                    for block in take {
                        let outcome = match &mut doing {
                            Ok(doing) => work.convert(&block, doing),
                            Err(fault) => Err(fault.clone()),
                        };
                        // Nobody takes the outcome when an earlier block has failed.
                        if done.send(outcome).is_err() {
                            break;
                        }
                    }
                });
                (give, finished)
            })
            .collect();
        let mut rows = Rows::default();
        let mut waiting: VecDeque<usize> = VecDeque::new();
        let mut put = |worker: usize, rows: &mut Rows| -> Result<()> {
            let (bytes, read, failed) = queues[worker].1.recv().map_err(unreadable)??;
            output.write_all(&bytes).map_err(|why| unwritable(why.into()))?;
            rows.read += read;
            rows.failed += failed;
            told(rows.read);
            Ok(())
        };
        for turn in (0..workers).cycle() {
            let mut block = Vec::with_capacity(BLOCK);
            let mut record = csv::ByteRecord::new();
            while block.len() < BLOCK && reader.read_byte_record(&mut record).map_err(unreadable)? {
                block.push(std::mem::take(&mut record));
            }
            if block.is_empty() {
                break;
            }
            if waiting.len() == 2 * workers
                && let Some(worker) = waiting.pop_front()
            {
                put(worker, &mut rows)?;
            }
            queues[turn].0.send(block).map_err(unreadable)?;
            waiting.push_back(turn);
        }
        for worker in waiting {
            put(worker, &mut rows)?;
        }
        Ok(rows)
    })
}

/// What every worker is told.
struct Work<'a> {
    task: &'a Task,
    spot: Spot,
    /// Columns of the table as it came.
    width: usize,
    /// Columns added.
    added: usize,
    separator: u8,
    language: Language,
}

impl Work<'_> {
    /// Converts a block of rows: the bytes that go out, how many rows, and how many failed.
    fn convert(&self, block: &[csv::ByteRecord], doing: &mut Doing) -> Result<(Vec<u8>, u64, u64)> {
        let mut out = sheet(self.separator);
        let mut failed = 0;
        for record in block {
            let mut field = |cell: &[u8]| out.write_field(cell).map_err(unwritable);
            for (index, cell) in record.iter().enumerate() {
                if !self.task.cuts(self.spot, index) {
                    field(decoded(cell).as_bytes())?;
                }
            }
            for index in record.len()..self.width {
                if !self.task.cuts(self.spot, index) {
                    field(b"")?;
                }
            }
            let cell = |index: usize| decoded(record.get(index).unwrap_or_default());
            let place = match self.spot {
                Spot::One(index) => Place::One(cell(index)),
                Spot::Two(first, second, pair) => Place::Two(cell(first), cell(second), pair),
            };
            match doing.row(&place) {
                Ok(cells) => {
                    for cell in cells {
                        field(cell.as_bytes())?;
                    }
                    field(b"")?;
                }
                Err(fault) => {
                    failed += 1;
                    for _ in 1..self.added {
                        field(b"")?;
                    }
                    field(said(&fault, self.language).as_bytes())?;
                }
            }
            out.write_record(None::<&[u8]>).map_err(unwritable)?;
        }
        Ok((written(out)?, block.len() as u64, failed))
    }
}

fn sheet(separator: u8) -> csv::Writer<Vec<u8>> {
    csv::WriterBuilder::new().delimiter(separator).flexible(true).from_writer(Vec::new())
}

fn written(sheet: csv::Writer<Vec<u8>>) -> Result<Vec<u8>> {
    sheet.into_inner().map_err(|why| unwritable(why.into_error().into()))
}

/// A fault and what to do about it, in one cell.
fn said(fault: &Fault, language: Language) -> String {
    let text = fault.text(language);
    match fault.hint(language) {
        Some(hint) => format!("{text}. {hint}"),
        None => text,
    }
}

fn unreadable(why: impl std::fmt::Display) -> Fault {
    Fault::new("convert-table-unreadable").with("why", why)
}

fn unwritable(why: csv::Error) -> Fault {
    Fault::new("convert-not-written").with("why", why)
}

/// A cell's text: UTF-8, or else Windows-1252 (which never fails).
fn decoded(bytes: &[u8]) -> Cow<'_, str> {
    match std::str::from_utf8(bytes) {
        Ok(text) => Cow::Borrowed(text),
        Err(_) => encoding_rs::WINDOWS_1252.decode_without_bom_handling(bytes).0,
    }
}

/// The separator that the first line has most of, outside quotes.
fn separator(start: &[u8]) -> u8 {
    let mut quoted = false;
    let mut counts = [0_usize; 3];
    for byte in start {
        match byte {
            b'"' => quoted = !quoted,
            b'\n' if !quoted => break,
            b',' if !quoted => counts[0] += 1,
            b';' if !quoted => counts[1] += 1,
            b'\t' if !quoted => counts[2] += 1,
            _ => {}
        }
    }
    let most = (0..3).max_by_key(|index| (counts[*index], std::cmp::Reverse(*index))).unwrap_or(0);
    b",;\t"[most]
}

/// A heading with nothing but its letters and figures.
fn folded(heading: &str) -> String {
    heading.to_lowercase().chars().filter(|c| c.is_alphanumeric()).collect()
}

fn spot(headings: &[String], columns: &[String]) -> Result<Spot> {
    let folded_headings: Vec<String> = headings.iter().map(|heading| folded(heading)).collect();
    let named = |name: &String| {
        headings
            .iter()
            .position(|heading| heading.trim() == name.trim())
            .or_else(|| folded_headings.iter().position(|heading| *heading == folded(name)))
            .ok_or_else(|| {
                Fault::new("convert-no-column").with("name", name).with("known", headings.join(", "))
            })
    };
    let among = |known: &[&str]| folded_headings.iter().position(|heading| known.contains(&heading.as_str()));
    match columns {
        [] => {
            for (first, second, pair) in PAIRS {
                if let (Some(first), Some(second)) = (among(first), among(second)) {
                    return Ok(Spot::Two(first, second, *pair));
                }
            }
            among(WHOLE)
                .map(Spot::One)
                .ok_or_else(|| Fault::new("convert-no-place-column").with("known", headings.join(", ")))
        }
        [one] => Ok(Spot::One(named(one)?)),
        [first, second] => {
            let (first, second) = (named(first)?, named(second)?);
            let latitude = |index: usize| PAIRS[0].0.contains(&folded_headings[index].as_str());
            let longitude = |index: usize| PAIRS[0].1.contains(&folded_headings[index].as_str());
            let northing = |index: usize| PAIRS[1].1.contains(&folded_headings[index].as_str());
            Ok(if latitude(first) {
                Spot::Two(first, second, Pair::LatitudeLongitude)
            } else if longitude(first) {
                Spot::Two(second, first, Pair::LatitudeLongitude)
            } else if northing(first) {
                Spot::Two(second, first, Pair::EastingNorthing)
            } else {
                Spot::Two(first, second, Pair::EastingNorthing)
            })
        }
        _ => Err(Fault::new("convert-many-columns")),
    }
}
