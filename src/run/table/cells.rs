//! The cells of one row, read and written. The readers and writers of whole tables build tables of their own
//! that take longer than a row does, so one is kept for all the rows of a worker.

use csv_core::{ReadRecordResult, Reader, ReaderBuilder};
use memchr::memchr3;

/// Takes rows apart.
pub(super) struct Cells {
    reader: Reader,
    /// The row's cells, one after another, and where each ends.
    bytes: Vec<u8>,
    ends: Vec<usize>,
    count: usize,
}

impl Cells {
    pub(super) fn new(separator: u8) -> Self {
        let reader = ReaderBuilder::new().delimiter(separator).build();
        Self { reader, bytes: Vec::new(), ends: vec![0; 64], count: 0 }
    }

    /// Takes a row apart.
    pub(super) fn read(&mut self, row: &[u8]) {
        self.reader.reset();
        // Cells never take more bytes than the row they come from.
        self.bytes.resize(row.len() + 1, 0);
        let (mut from, mut bytes, mut count) = (0, 0, 0);
        loop {
            // An empty input says that the row ends.
            let (result, taken, given, ended) =
                self.reader.read_record(&row[from..], &mut self.bytes[bytes..], &mut self.ends[count..]);
            from += taken;
            bytes += given;
            count += ended;
            match result {
                ReadRecordResult::InputEmpty => {}
                ReadRecordResult::OutputFull => self.bytes.resize(self.bytes.len() * 2, 0),
                ReadRecordResult::OutputEndsFull => self.ends.resize(self.ends.len() * 2, 0),
                ReadRecordResult::Record | ReadRecordResult::End => break,
            }
        }
        self.count = count;
    }

    /// How many cells the row has.
    pub(super) fn len(&self) -> usize {
        self.count
    }

    /// A cell; empty where the row is short.
    pub(super) fn get(&self, index: usize) -> &[u8] {
        if index >= self.count {
            return b"";
        }
        let start = if index == 0 { 0 } else { self.ends[index - 1] };
        &self.bytes[start..self.ends[index]]
    }
}

/// Writes a cell and what follows it, quoted where it must be.
pub(super) fn put(out: &mut Vec<u8>, cell: &[u8], separator: u8, after: u8) {
    if cell.contains(&separator) || memchr3(b'"', b'\n', b'\r', cell).is_some() {
        out.push(b'"');
        for byte in cell {
            if *byte == b'"' {
                out.push(b'"');
            }
            out.push(*byte);
        }
        out.push(b'"');
    } else {
        out.extend(cell);
    }
    out.push(after);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn apart_and_together() {
        let mut cells = Cells::new(b';');
        let long = "x".repeat(300);
        let many = vec!["y"; 200].join(";");
        for (row, expected) in [
            ("a;b;c", vec!["a", "b", "c"]),
            ("a;\"b;\"\"c\"\"\";", vec!["a", "b;\"c\"", ""]),
            ("\"two\nlines\";6\" blade", vec!["two\nlines", "6\" blade"]),
            (long.as_str(), vec![long.as_str()]),
            (many.as_str(), vec!["y"; 200]),
        ] {
            cells.read(row.as_bytes());
            let read: Vec<&str> =
                (0..cells.len()).map(|i| std::str::from_utf8(cells.get(i)).unwrap()).collect();
            assert_eq!(read, expected);
            // What is written reads as the same, by the whole reader too.
            let mut out = Vec::new();
            for cell in &read {
                put(&mut out, cell.as_bytes(), b';', b';');
            }
            out.pop();
            let mut whole =
                csv::ReaderBuilder::new().delimiter(b';').has_headers(false).from_reader(&out[..]);
            let record = whole.records().next().unwrap().unwrap();
            assert_eq!(record.iter().collect::<Vec<_>>(), expected);
        }
        assert_eq!(cells.get(500), b"");
    }
}
