//! A table's bytes in blocks that end where a row ends, so that each can be read by itself.

use std::io::Read;

use memchr::{memchr, memchr3, memrchr2};

/// Bytes of a block, unless one row is longer: some thousands of rows.
const SIZE: usize = 1 << 19;

/// Cuts what is read into blocks.
pub(super) struct Blocks<R> {
    input: R,
    separator: u8,
    /// Read, and not given yet.
    rest: Vec<u8>,
    ended: bool,
}

impl<R: Read> Blocks<R> {
    pub(super) fn new(input: R) -> Self {
        Self { input, separator: b',', rest: Vec::new(), ended: false }
    }

    /// What is between cells, which tells where a quoted one begins.
    pub(super) fn separated_by(&mut self, separator: u8) {
        self.separator = separator;
    }

    /// The bytes to come, as many as a block has, without taking them.
    pub(super) fn look(&mut self) -> std::io::Result<&[u8]> {
        self.fill(SIZE)?;
        Ok(&self.rest)
    }

    /// Lets go of bytes looked at.
    pub(super) fn skip(&mut self, bytes: usize) {
        self.rest.drain(..bytes.min(self.rest.len()));
    }

    /// The next block of whole rows; empty at the end.
    pub(super) fn next(&mut self) -> std::io::Result<Vec<u8>> {
        let mut wanted = SIZE;
        loop {
            self.fill(wanted)?;
            let end = if self.ended && self.rest.len() <= wanted {
                Some(self.rest.len())
            } else {
                last_row_end(&self.rest, self.separator)
            };
            if let Some(end) = end {
                let rest = self.rest.split_off(end);
                return Ok(std::mem::replace(&mut self.rest, rest));
            }
            wanted *= 2;
        }
    }

    fn fill(&mut self, wanted: usize) -> std::io::Result<()> {
        if !self.ended && self.rest.len() < wanted {
            let missing = wanted - self.rest.len();
            self.rest.reserve(missing);
            let read = self.input.by_ref().take(missing as u64).read_to_end(&mut self.rest)?;
            self.ended = read < missing;
        }
        Ok(())
    }
}

/// Where the last whole row of `bytes` ends, after its line break.
fn last_row_end(bytes: &[u8], separator: u8) -> Option<usize> {
    if memchr(b'"', bytes).is_none() {
        return memrchr2(b'\n', b'\r', bytes).map(|at| at + 1);
    }
    let (mut end, mut quoted) = (None, Quotes::new(separator));
    for (at, byte) in bytes.iter().enumerate() {
        if quoted.ends_row(*byte) {
            end = Some(at + 1);
        }
    }
    end
}

/// Where the first row of `bytes` ends, after its line break.
pub(super) fn row_end(bytes: &[u8], separator: u8) -> usize {
    match memchr3(b'"', b'\n', b'\r', bytes) {
        None => bytes.len(),
        Some(at) if bytes[at] != b'"' => at + 1,
        Some(_) => {
            let mut quoted = Quotes::new(separator);
            bytes.iter().position(|byte| quoted.ends_row(*byte)).map_or(bytes.len(), |at| at + 1)
        }
    }
}

/// Follows a table byte by byte to where its rows end. A quote opens a cell only at its start; within, a
/// doubled one stands for itself.
struct Quotes {
    separator: u8,
    cell_start: bool,
    quoted: bool,
    /// The byte before was a quote in a quoted cell: its end, or the first of two.
    after_quote: bool,
}

impl Quotes {
    fn new(separator: u8) -> Self {
        Self { separator, cell_start: true, quoted: false, after_quote: false }
    }

    /// Takes the next byte; whether a row ends with it.
    fn ends_row(&mut self, byte: u8) -> bool {
        let (cell_start, after_quote) = (self.cell_start, self.after_quote);
        self.cell_start = false;
        self.after_quote = false;
        if self.quoted && !(after_quote && byte != b'"') {
            self.after_quote = byte == b'"' && !after_quote;
            return false;
        }
        self.quoted = byte == b'"' && cell_start;
        let ends = matches!(byte, b'\n' | b'\r');
        self.cell_start = ends || byte == self.separator;
        ends
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rows_end_outside_quotes() {
        assert_eq!(last_row_end(b"a,b\nc,d\ne", b','), Some(8));
        assert_eq!(last_row_end(b"a,\"b\nc\",d\ne", b','), Some(10));
        assert_eq!(last_row_end(b"a,\"b\"\"\nc", b','), None);
        // A quote within a cell is only a character.
        assert_eq!(last_row_end(b"6\" blade,b\nc", b','), Some(11));
        assert_eq!(last_row_end(b"no end", b','), None);
        assert_eq!(row_end(b"a,b\nc,d\n", b','), 4);
        assert_eq!(row_end(b"a;\"b\n\"\"\nc\";d\r\ne", b';'), 13);
        assert_eq!(row_end(b"a;6\" b\nc", b';'), 7);
        assert_eq!(row_end(b"\"never closed\na", b','), 15);
    }

    #[test]
    fn blocks_are_the_input_again() {
        let rows: String =
            (0..60_000).map(|i| format!("{i},\"some\n\"\"words\"\"\",{}\n", "x".repeat(i % 40))).collect();
        let mut blocks = Blocks::new(rows.as_bytes());
        let (mut whole, mut count) = (Vec::new(), 0);
        loop {
            let block = blocks.next().unwrap();
            if block.is_empty() {
                break;
            }
            assert!(block.ends_with(b"\n"));
            assert_eq!(block.iter().filter(|byte| **byte == b'"').count() % 6, 0);
            whole.extend(block);
            count += 1;
        }
        assert!(count > 2);
        assert_eq!(whole, rows.as_bytes());
    }
}
