//! Pages of a PDF taken back to the ground: what is drawn on them, and the figures set along a map's frame.

use std::collections::BTreeMap;

use lopdf::content::{Content, Operation};
use lopdf::{Dictionary, Document, Encoding, Object, ObjectId};

use super::opening::{Here, Opened};
use super::plane::{Label, Matrix, SAME, at, fit, then, to_ground};

/// A mark is at most so large, points: 6 mm.
const LARGEST_MARK: f64 = 17.0;
/// A note on a page is as large as its sign, points.
const LARGEST_NOTE: f64 = 60.0;
/// What is not drawn by the page itself is in no plane of its letters.
const NO_PLANE: Matrix = [f64::NAN; 6];
/// What a page is drawn to: a hundredth of a millimetre, points.
const UNIT: f64 = 0.0284;
/// Figures of one frame stand in line to this, points.
const IN_LINE: f64 = 0.6;
/// Forms inside forms, at most so deep.
const DEEPEST: usize = 12;

/// Opens the drawings of every page.
pub(super) fn open(opened: &mut Opened, here: &Here, document: &Document) {
    for page in document.get_pages().into_values() {
        let Ok(content) = document.get_page_content_with_limit(page, opened.left()) else { continue };
        // Without text set, nothing says where the page lies.
        if memchr::memmem::find(&content, b"Tj").is_none() && memchr::memmem::find(&content, b"TJ").is_none()
        {
            continue;
        }
        if !opened.afford(here, content.len()) {
            return;
        }
        let mut drawn = Drawn::default();
        let resources = resources_of(document, page);
        drawn.walk(document, &resources, &content, SAME, 0);
        drawn.notes(document, page);
        let Some(fit) = fit(&drawn.labels(), IN_LINE) else { continue };
        let letters = &drawn.letters;
        // The rim around a letter is drawn where the letter is.
        let rim = |mark: &(f64, f64, Matrix)| letters.iter().any(|letter| letter.matrix == mark.2);
        let marks = drawn.marks.iter().filter(|mark| !rim(mark)).map(|(x, y, _)| (*x, *y, true));
        to_ground(opened, here, fit, UNIT, marks);
    }
}

fn resources_of(document: &Document, page: ObjectId) -> Vec<&Dictionary> {
    let Ok((own, inherited)) = document.get_page_resources(page) else { return Vec::new() };
    let inherited = inherited.into_iter().filter_map(|id| document.get_dictionary(id).ok());
    own.into_iter().chain(inherited).collect()
}

/// What one name of a kind of resource stands for.
fn resource<'a>(
    document: &'a Document,
    resources: &[&'a Dictionary],
    kind: &[u8],
    name: &[u8],
) -> Option<&'a Object> {
    resources.iter().find_map(|all| {
        let kind = all.get_deref(kind, document).and_then(Object::as_dict).ok()?;
        kind.get_deref(name, document).ok()
    })
}

/// Letters set together.
struct Letters {
    x: f64,
    y: f64,
    /// The way along which they are set, its length that of one em, points.
    along: (f64, f64),
    /// The plane that they are set in.
    matrix: Matrix,
    text: String,
}

#[derive(Default)]
struct Drawn {
    letters: Vec<Letters>,
    /// The middles of small shapes, and the plane that each is drawn in.
    marks: Vec<(f64, f64, Matrix)>,
}

/// A shape that is being drawn: its bounds on the page.
#[derive(Default)]
struct Shape(Option<[f64; 4]>);

impl Shape {
    fn add(&mut self, (x, y): (f64, f64)) {
        let b = self.0.get_or_insert([x, y, x, y]);
        *b = [b[0].min(x), b[1].min(y), b[2].max(x), b[3].max(y)];
    }

    fn take(&mut self) -> Option<(f64, f64)> {
        let [west, south, east, north] = self.0.take()?;
        ((east - west).max(north - south) <= LARGEST_MARK)
            .then_some(((west + east) / 2.0, (south + north) / 2.0))
    }
}

/// What an operator of text needs to know of those before it.
#[derive(Clone, Copy)]
struct Setting {
    size: f64,
    lead: f64,
    at: Matrix,
    line: Matrix,
}

impl Setting {
    fn line_by(&mut self, x: f64, y: f64) {
        self.line = then(self.line, [1.0, 0.0, 0.0, 1.0, x, y]);
        self.at = self.line;
    }
}

impl Drawn {
    fn walk(
        &mut self,
        document: &Document,
        resources: &[&Dictionary],
        content: &[u8],
        outer: Matrix,
        depth: usize,
    ) {
        let Ok(content) = Content::<Vec<Operation>>::decode(content) else { return };
        let mut fonts: BTreeMap<Vec<u8>, Option<Encoding<'_>>> = BTreeMap::new();
        let mut plane = outer;
        let mut saved = Vec::new();
        let mut font: Vec<u8> = Vec::new();
        let mut set = Setting { size: 1.0, lead: 0.0, at: SAME, line: SAME };
        let mut shape = Shape::default();
        let mut waiting: Vec<(f64, f64)> = Vec::new();
        for operation in &content.operations {
            let number = |index: usize| -> f64 {
                operation.operands.get(index).and_then(|value| value.as_float().ok()).map_or(0.0, f64::from)
            };
            let six = || -> Matrix { std::array::from_fn(number) };
            match operation.operator.as_str() {
                "q" => saved.push((plane, font.clone(), set)),
                "Q" => (plane, font, set) = saved.pop().unwrap_or((outer, Vec::new(), set)),
                "cm" => plane = then(plane, six()),
                "m" => {
                    waiting.extend(shape.take());
                    shape.add(at(plane, number(0), number(1)));
                }
                "l" => shape.add(at(plane, number(0), number(1))),
                "c" => shape.add(at(plane, number(4), number(5))),
                "v" | "y" => shape.add(at(plane, number(2), number(3))),
                "re" => {
                    waiting.extend(shape.take());
                    shape.add(at(plane, number(0), number(1)));
                    shape.add(at(plane, number(0) + number(2), number(1) + number(3)));
                    waiting.extend(shape.take());
                }
                "h" => waiting.extend(shape.take()),
                "f" | "F" | "f*" | "S" | "s" | "B" | "B*" | "b" | "b*" => {
                    waiting.extend(shape.take());
                    self.marks.extend(waiting.drain(..).map(|(x, y)| (x, y, plane)));
                }
                // Of a shape that only cuts, nothing is seen.
                "n" => {
                    shape.take();
                    waiting.clear();
                }
                "BT" => (set.at, set.line) = (SAME, SAME),
                "Tf" => {
                    font = operation
                        .operands
                        .first()
                        .and_then(|name| name.as_name().ok())
                        .unwrap_or_default()
                        .to_vec();
                    set.size = number(1);
                }
                "TL" => set.lead = number(0),
                "Tm" => (set.at, set.line) = (six(), six()),
                "Td" => set.line_by(number(0), number(1)),
                "TD" => {
                    set.lead = -number(1);
                    set.line_by(number(0), number(1));
                }
                "T*" => set.line_by(0.0, -set.lead),
                "Tj" | "TJ" | "'" | "\"" => {
                    if matches!(operation.operator.as_str(), "'" | "\"") {
                        set.line_by(0.0, -set.lead);
                    }
                    let encoding = fonts.entry(font.clone()).or_insert_with(|| {
                        let font = resource(document, resources, b"Font", &font)?.as_dict().ok()?;
                        font.get_font_encoding_with_limit(document, 1 << 24).ok()
                    });
                    let Some(encoding) = encoding else { continue };
                    let mut text = String::new();
                    operation.operands.iter().for_each(|value| read(value, encoding, &mut text));
                    let whole = then(plane, set.at);
                    let along = (whole[0] * set.size, whole[1] * set.size);
                    self.letters.push(Letters { x: whole[4], y: whole[5], along, matrix: plane, text });
                }
                "Do" => {
                    let name =
                        operation.operands.first().and_then(|name| name.as_name().ok()).unwrap_or_default();
                    if let Some(Object::Stream(form)) = resource(document, resources, b"XObject", name)
                        && form
                            .dict
                            .get(b"Subtype")
                            .and_then(Object::as_name)
                            .is_ok_and(|kind| kind == b"Form")
                        && depth < DEEPEST
                    {
                        self.form(document, resources, form, plane, depth);
                    }
                }
                _ => {}
            }
        }
    }

    fn form(
        &mut self,
        document: &Document,
        resources: &[&Dictionary],
        form: &lopdf::Stream,
        plane: Matrix,
        depth: usize,
    ) {
        // What a file may unpack to is bounded by the walk over its streams; here by a form's own size.
        let Ok(content) = form.get_plain_content_with_limit(1 << 26) else { return };
        let own = form.dict.get_deref(b"Resources", document).and_then(Object::as_dict);
        let all: Vec<&Dictionary> = own.into_iter().chain(resources.iter().copied()).collect();
        let matrix = form.dict.get_deref(b"Matrix", document).and_then(Object::as_array).ok();
        let matrix: Matrix = std::array::from_fn(|index| {
            let value = matrix.and_then(|matrix| matrix.get(index)).and_then(|value| value.as_float().ok());
            value.map_or(SAME[index], f64::from)
        });
        self.walk(document, &all, &content, then(plane, matrix), depth + 1);
    }

    /// Notes and marks that a reader put on the page.
    fn notes(&mut self, document: &Document, page: ObjectId) {
        for note in document.get_page_annotations(page).unwrap_or_default() {
            let Ok(edges) = note.get_deref(b"Rect", document).and_then(Object::as_array) else { continue };
            let edge = |index: usize| edges.get(index).and_then(|edge| edge.as_float().ok()).map(f64::from);
            let (Some(a), Some(b), Some(c), Some(d)) = (edge(0), edge(1), edge(2), edge(3)) else { continue };
            if (c - a).abs().max((d - b).abs()) <= LARGEST_NOTE {
                self.marks.push(((a + c) / 2.0, (b + d) / 2.0, NO_PLANE));
            }
        }
    }

    /// The words that letters stand together in: each may have been set by itself.
    fn labels(&self) -> Vec<Label> {
        let goes_on = |last: &Letters, next: &Letters| {
            let (x, y) = (next.x - last.x, next.y - last.y);
            let em = last.em().max(f64::MIN_POSITIVE);
            let on = (x * last.along.0 + y * last.along.1) / em;
            let off = (y * last.along.0 - x * last.along.1) / em;
            next.along == last.along && on > 0.0 && on < last.count() * WIDEST * em && off.abs() < 0.1 * em
        };
        self.letters.chunk_by(goes_on).filter_map(label).collect()
    }
}

/// Letters stand apart by less than this, in ems; and about by this.
const WIDEST: f64 = 1.1;
const USUAL: f64 = 0.55;

impl Letters {
    fn em(&self) -> f64 {
        self.along.0.hypot(self.along.1)
    }

    fn count(&self) -> f64 {
        self.text.chars().count().max(1) as f64
    }
}

fn label(word: &[Letters]) -> Option<Label> {
    let (first, last) = (word.first()?, word.last()?);
    // How far each letter is from the next: what is set apart says so, the last is taken to be like them.
    let set_apart = (word.len() > 1).then(|| {
        let before: f64 = word.iter().rev().skip(1).map(Letters::count).sum();
        ((last.x - first.x) / before, (last.y - first.y) / before)
    });
    let each = set_apart.unwrap_or((first.along.0 * USUAL, first.along.1 * USUAL));
    Some(Label {
        x: (first.x + last.x + each.0 * last.count()) / 2.0,
        y: (first.y + last.y + each.1 * last.count()) / 2.0,
        upright: first.along.0.abs() < first.along.1.abs(),
        text: word.iter().map(|letters| letters.text.as_str()).collect(),
    })
}

fn read(value: &Object, encoding: &Encoding<'_>, text: &mut String) {
    match value {
        Object::String(bytes, _) => {
            if let Ok(more) = Document::decode_text(encoding, bytes) {
                text.push_str(&more);
            }
        }
        Object::Array(all) => all.iter().for_each(|value| read(value, encoding, text)),
        _ => {}
    }
}
