//! A file becomes layers. Whatever is packed or written inside is opened in its turn, to a depth and a size.

use super::{Form, Layer, Vertex, archives, documents, drawing, encoded, markup, pictures, plainly, vectors};

/// Things inside things, at most so deep.
const DEEPEST: usize = 16;
/// Unpacked from one file, at most so many bytes.
const MOST: usize = 1 << 30;
/// And so many times its own size, beyond a few megabytes: what unpacks to more is a bomb.
const RATIO: usize = 400;
/// A few megabytes.
const ALLOWED: usize = 64 << 20;

/// All that one file holds.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Opened {
    /// Its layers.
    pub layers: Vec<Layer>,
    /// What it says itself is a place.
    pub vertices: Vec<Vertex>,
    /// What could not be looked into: where, and why as a message `audit-not-…`.
    pub shut: Vec<(Vec<String>, &'static str)>,
    /// Bytes still allowed.
    left: usize,
}

/// Where in a file we are.
#[derive(Debug, Clone, Default)]
pub(super) struct Here {
    pub within: Vec<String>,
    pub through: Vec<&'static str>,
    depth: usize,
}

impl Here {
    /// A file inside this one.
    pub fn inside(&self, name: &str) -> Self {
        let mut within = self.within.clone();
        within.push(name.to_owned());
        Self { within, through: self.through.clone(), depth: self.depth + 1 }
    }

    /// What was hidden here in some way.
    pub fn through(&self, way: &'static str) -> Self {
        let mut through = self.through.clone();
        if through.last() != Some(&way) {
            through.push(way);
        }
        Self { within: self.within.clone(), through, depth: self.depth + 1 }
    }
}

/// Opens a file: its name and its bytes.
pub fn open(name: &str, bytes: &[u8]) -> Opened {
    let left = bytes.len().saturating_mul(RATIO).clamp(ALLOWED, MOST);
    let mut opened = Opened { left, ..Opened::default() };
    let here = Here::default();
    opened.layer(&here, Form::Name, name.as_bytes().to_vec());
    opened.open(&here, bytes);
    opened
}

impl Opened {
    pub(super) fn layer(&mut self, here: &Here, form: Form, bytes: Vec<u8>) {
        if !bytes.is_empty() {
            self.layers.push(Layer {
                within: here.within.clone(),
                through: here.through.clone(),
                form,
                bytes,
            });
        }
    }

    pub(super) fn shut(&mut self, here: &Here, why: &'static str) {
        let told = (here.within.clone(), why);
        if !self.shut.contains(&told) {
            self.shut.push(told);
        }
    }

    /// How many bytes may still be unpacked.
    pub(super) fn left(&self) -> usize {
        self.left
    }

    /// Takes unpacked bytes into the account; `false` when there are too many.
    pub(super) fn afford(&mut self, here: &Here, bytes: usize) -> bool {
        if bytes >= self.left {
            self.left = 0;
            self.shut(here, "audit-not-too-large");
            return false;
        }
        self.left -= bytes;
        true
    }

    /// Opens bytes by what they begin with.
    pub(super) fn open(&mut self, here: &Here, bytes: &[u8]) {
        if bytes.is_empty() {
            return;
        }
        if here.depth > DEEPEST {
            return self.shut(here, "audit-not-too-deep");
        }
        let starts = |magic: &[u8]| bytes.starts_with(magic);
        let at =
            |offset: usize, magic: &[u8]| bytes.get(offset..).is_some_and(|rest| rest.starts_with(magic));
        if archives::open(self, here, bytes) {
            return;
        }
        let known = if memchr::memmem::find(bytes.get(..1024).unwrap_or(bytes), b"%PDF").is_some() {
            documents::pdf(self, here, bytes);
            true
        } else if starts(b"\x89PNG\r\n") {
            pictures::png(self, here, bytes);
            true
        } else if starts(b"\xff\xd8\xff") {
            pictures::jpeg(self, here, bytes);
            true
        } else if starts(b"RIFF") && at(8, b"WEBP") {
            pictures::webp(self, here, bytes);
            true
        } else if starts(b"II*\0") || starts(b"MM\0*") || starts(b"II+\0") || starts(b"MM\0+") {
            pictures::tiff(self, here, bytes);
            true
        } else if at(4, b"ftyp") {
            pictures::film(self, here, bytes);
            true
        } else if starts(b"SQLite format 3\0") {
            vectors::database(self, here, bytes);
            true
        } else if starts(b"\x00\x00\x27\x0a") {
            vectors::shapefile(self, here, bytes);
            true
        } else {
            false
        };
        if !known && let Some((text, way)) = encoded::decode(bytes) {
            let here = way.map_or_else(|| here.clone(), |way| here.through(way));
            return self.text(&here, &text);
        }
        // Words between other bytes, in one-byte and two-byte letters, and numbers.
        for (words, way) in encoded::words_between(bytes) {
            let here = way.map_or_else(|| here.clone(), |way| here.through(way));
            // A database's rows were read as rows; in its bytes one cell runs into the next.
            let form = if starts(b"SQLite") { Form::Hidden } else { Form::Text };
            self.layer(&here, form, words.clone().into_bytes());
            encoded::unwrap(self, &here, &words);
        }
        self.layer(here, Form::Bytes, bytes.to_vec());
        if !known || starts(b"SQLite") {
            archives::buried(self, here, bytes);
        }
    }

    /// Opens text.
    pub(super) fn text(&mut self, here: &Here, text: &str) {
        let start = text.trim_start_matches(['\u{feff}', ' ', '\n', '\r', '\t']);
        if markup::is(start) {
            markup::open(self, here, text);
            if text.contains("<svg") {
                drawing::open(self, here, text);
            }
            if text.contains("<coordinates") || text.contains(":coordinates") {
                vectors::kml(self, here, text);
            }
        } else if start.starts_with(['{', '[']) && vectors::geojson(self, here, text) {
            // Its other words and figures were taken there.
        } else {
            self.table(here, text);
            // A part of a page.
            if text.contains("</") || text.contains("<br") {
                markup::open(self, here, text);
            }
        }
        encoded::unwrap(self, here, text);
    }

    /// A text, and the columns of places where it is a table.
    pub(super) fn table(&mut self, here: &Here, text: &str) {
        // The corner of a picture is no place that anybody picked up, unless it is one of the register's.
        let form = if is_world_file(text) { Form::Drawing } else { Form::Text };
        self.layer(here, form, text.as_bytes().to_vec());
        if let Some(columns) = plainly::columns(text) {
            self.layer(here, Form::Text, columns.into_bytes());
        }
    }
}

/// Whether a text is the six lines that say where a picture lies: the size of a pixel, two turns, the size again, and
/// the first pixel's middle.
fn is_world_file(text: &str) -> bool {
    let lines = text.lines().map(str::trim).filter(|line| !line.is_empty());
    let figures: Option<Vec<f64>> = lines.map(|line| line.parse().ok()).collect();
    matches!(figures.as_deref(), Some([width, 0.0, 0.0, height, _, _]) if *width > 0.0 && *height < 0.0)
}
