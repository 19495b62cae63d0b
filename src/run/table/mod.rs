//! Converting or coarsening a table: each row goes out as it came in, with columns added at its end (and,
//! where places are coarsened, without the columns that gave them finer).

mod blocks;
mod cells;
mod columns;
mod plain;
mod rows;
mod task;

use std::borrow::Cow;
use std::collections::VecDeque;
use std::io::{Read, Write};
use std::sync::mpsc;

use blocks::Blocks;
use cells::Cells;
use columns::{Spot, separator, spot};
use rows::{Done, Work};
pub use task::Task;

use crate::fault::{Fault, Result};
use crate::words::Language;

/// How many rows there were.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Rows {
    /// Rows read, without the header.
    pub read: u64,
    /// Rows whose place could not be converted; each has its reason in the column `error`.
    pub failed: u64,
    /// Cells of other columns from which something was cut that reads as a place; when coarsening.
    pub cut: u64,
}

/// Lines looked at for headings: a title or two may stand above them.
const LINES_ABOVE: usize = 10;

/// Converts or coarsens a table of separated values (comma, semicolon or tab; UTF-8 or Windows-1252) block
/// by block on every core, so that its length does not matter; rows go out in the order they came in.
/// `columns` names the place's column or its two; they are found by their headings where it is empty. `told`
/// hears how many rows have gone out.
pub fn convert_table(
    input: impl Read,
    output: &mut dyn Write,
    task: &Task,
    columns: &[String],
    language: Language,
    told: &dyn Fn(u64),
) -> Result<Rows> {
    let mut blocks = Blocks::new(input);
    let head = head(&mut blocks, columns)?;
    let work = Work::new(task, &head, language);
    let put = |output: &mut dyn Write, bytes: &[u8]| output.write_all(bytes).map_err(unwritable);
    put(output, &work.headings(&head))?;
    let workers = std::thread::available_parallelism().map_or(1, usize::from);
    std::thread::scope(|scope| {
        // Each worker has a queue of its own and is served in turn, which keeps the order.
        let queues: Vec<_> = (0..workers)
            .map(|_| {
                let (give, take) = mpsc::sync_channel::<Vec<u8>>(2);
                let (done, finished) = mpsc::sync_channel(2);
                let work = &work;
                scope.spawn(move || {
                    let mut doing = task.begin();
                    let mut cells = Cells::new(work.separator);
                    for block in take {
                        let outcome = match &mut doing {
                            Ok(doing) => work.through(&block, doing, &mut cells),
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
        let mut collect = |worker: usize, rows: &mut Rows| -> Result<()> {
            let Done { bytes, read, failed, cut } = queues[worker].1.recv().map_err(unreadable)??;
            put(output, &bytes)?;
            rows.read += read;
            rows.failed += failed;
            rows.cut += cut;
            told(rows.read);
            Ok(())
        };
        for turn in (0..workers).cycle() {
            let block = blocks.next().map_err(unreadable)?;
            if block.is_empty() {
                break;
            }
            if waiting.len() == 2 * workers
                && let Some(worker) = waiting.pop_front()
            {
                collect(worker, &mut rows)?;
            }
            queues[turn].0.send(block).map_err(unreadable)?;
            waiting.push_back(turn);
        }
        for worker in waiting {
            collect(worker, &mut rows)?;
        }
        Ok(rows)
    })
}

/// What stands above the rows.
struct Head {
    separator: u8,
    /// Lines above the headings, as they are.
    above: Vec<u8>,
    headings: Vec<String>,
    spot: Spot,
}

/// Takes the lines down to the headings: the first that name a place's columns.
fn head(blocks: &mut Blocks<impl Read>, columns: &[String]) -> Result<Head> {
    if blocks.look().map_err(unreadable)?.starts_with(b"\xef\xbb\xbf") {
        blocks.skip(3);
    }
    let start = blocks.look().map_err(unreadable)?;
    let separator = separator(start);
    let mut reader = reader(separator, start);
    let mut record = csv::ByteRecord::new();
    let (mut above, mut first_fault) = (0, None);
    for _ in 0..LINES_ABOVE {
        if !reader.read_byte_record(&mut record).map_err(unreadable)? {
            break;
        }
        let end = reader.position().byte() as usize;
        let headings: Vec<String> = record.iter().map(|cell| decoded(cell).into_owned()).collect();
        match spot(&headings, columns) {
            Ok(spot) => {
                let above = start[..above].to_vec();
                blocks.skip(end);
                blocks.separated_by(separator);
                return Ok(Head { separator, above, headings, spot });
            }
            // The first line's reason, which lists what is mostly the headings.
            Err(fault) => first_fault = first_fault.or(Some(fault)),
        }
        above = end;
    }
    Err(first_fault.unwrap_or_else(|| Fault::new("convert-no-place-column").with("known", "")))
}

fn reader(separator: u8, bytes: &[u8]) -> csv::Reader<&[u8]> {
    csv::ReaderBuilder::new().delimiter(separator).flexible(true).has_headers(false).from_reader(bytes)
}

fn unreadable(why: impl std::fmt::Display) -> Fault {
    Fault::new("convert-table-unreadable").with("why", why)
}

fn unwritable(why: std::io::Error) -> Fault {
    Fault::new("convert-not-written").because(&why)
}

/// A cell's text: UTF-8, or else Windows-1252 (which never fails).
fn decoded(bytes: &[u8]) -> Cow<'_, str> {
    match std::str::from_utf8(bytes) {
        Ok(text) => Cow::Borrowed(text),
        Err(_) => encoding_rs::WINDOWS_1252.decode_without_bom_handling(bytes).0,
    }
}
