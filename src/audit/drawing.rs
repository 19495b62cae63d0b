//! Drawings taken back to the ground: a sheet's own figures along its frame say where it lies.

use std::sync::LazyLock;

use roxmltree::{Document, Node, ParsingOptions};

use super::Form;
use super::opening::{Here, Opened};
use super::plane::{Label, Matrix, SAME, at, fit, then, to_ground};

/// A mark is at most so large, page units of a hundredth of a millimetre.
const LARGEST_MARK: f64 = 600.0;

/// A letter of a face.
struct Letter {
    glyph: u16,
    letter: char,
    /// How far the next one stands from it, the face's own units.
    advance: f64,
}

/// The letters of the faces that sheets are set in, by number: outlined text names them so.
static LETTERS: LazyLock<Vec<Vec<Letter>>> = LazyLock::new(|| {
    use dejavu::sans_condensed as font;
    [font::regular(), font::bold(), font::oblique()]
        .into_iter()
        .map(|bytes| {
            let Ok(face) = ttf_parser::Face::parse(bytes, 0) else { return Vec::new() };
            let known = (0x20..0x2200).filter_map(char::from_u32);
            let of = |letter: char| {
                let glyph = face.glyph_index(letter)?;
                let advance = f64::from(face.glyph_hor_advance(glyph).unwrap_or_default());
                Some(Letter { glyph: glyph.0, letter, advance })
            };
            let mut all: Vec<Letter> = known.filter_map(of).collect();
            all.sort_by_key(|letter| letter.glyph);
            all
        })
        .collect()
});

fn numbers(text: &str) -> Vec<f64> {
    text.split([' ', ',', '\n', '\t']).filter_map(|part| part.parse().ok()).collect()
}

fn transform(text: &str) -> Matrix {
    let mut whole = SAME;
    for part in text.split(')') {
        let Some((name, inside)) = part.split_once('(') else { continue };
        let n = numbers(inside);
        let number = |index: usize, or: f64| n.get(index).copied().unwrap_or(or);
        let one = match name.trim_matches([' ', ',']) {
            "translate" => [1.0, 0.0, 0.0, 1.0, number(0, 0.0), number(1, 0.0)],
            "scale" => [number(0, 1.0), 0.0, 0.0, number(1, number(0, 1.0)), 0.0, 0.0],
            "rotate" => {
                let (sine, cosine) = number(0, 0.0).to_radians().sin_cos();
                let turn = [cosine, sine, -sine, cosine, 0.0, 0.0];
                let (x, y) = (number(1, 0.0), number(2, 0.0));
                then(then([1.0, 0.0, 0.0, 1.0, x, y], turn), [1.0, 0.0, 0.0, 1.0, -x, -y])
            }
            "matrix" => match n[..] {
                [a, b, c, d, e, f] => [a, b, c, d, e, f],
                _ => SAME,
            },
            _ => SAME,
        };
        whole = then(whole, one);
    }
    whole
}

/// Opens every drawing of a text.
pub(super) fn open(opened: &mut Opened, here: &Here, text: &str) {
    let mut rest = text;
    while let Some(start) = rest.find("<svg") {
        let Some(end) = rest.get(start..).and_then(whole).map(|length| start + length) else { return };
        if let Some(drawing) = rest.get(start..end) {
            // A prefix that the page around it declares is declared again.
            let known = drawing.contains("xmlns:xlink") || !drawing.contains("xlink:");
            let own = if known {
                drawing.to_owned()
            } else {
                drawing.replacen("<svg", "<svg xmlns:xlink=\"http://www.w3.org/1999/xlink\"", 1)
            };
            one(opened, here, &own);
        }
        rest = rest.get(end..).unwrap_or("");
    }
}

/// How long the drawing at the start of a text is, with drawings inside it.
fn whole(text: &str) -> Option<usize> {
    let (mut at, mut open) = (0, 0_usize);
    loop {
        let rest = text.get(at..)?;
        let close = rest.find("</svg>")?;
        match rest.find("<svg").filter(|begins| *begins < close) {
            Some(begins) => {
                open += 1;
                at += begins + "<svg".len();
            }
            None => {
                open = open.saturating_sub(1);
                at += close + "</svg>".len();
                if open == 0 {
                    return Some(at);
                }
            }
        }
    }
}

/// What is drawn, and what it lies in.
struct Mark {
    x: f64,
    y: f64,
    named: bool,
}

/// Figures of one frame stand in line to this, page units.
const IN_LINE: f64 = 30.0;

fn one(opened: &mut Opened, here: &Here, text: &str) {
    let options = ParsingOptions { allow_dtd: true, ..ParsingOptions::default() };
    let Ok(document) = Document::parse_with_options(text, options) else { return };
    let mut marks = Vec::new();
    let mut labels = Vec::new();
    let mut words = String::new();
    walk(document.root_element(), SAME, (false, false), &mut marks, &mut labels, &mut words, 0);
    opened.layer(here, Form::Text, words.into_bytes());
    let Some(fit) = fit(&labels, IN_LINE) else { return };
    to_ground(opened, here, fit, 1.0, marks.into_iter().map(|mark| (mark.x, mark.y, mark.named)));
}

fn walk(
    node: Node<'_, '_>,
    outer: Matrix,
    (named, figures): (bool, bool),
    marks: &mut Vec<Mark>,
    labels: &mut Vec<Label>,
    words: &mut String,
    depth: usize,
) {
    if depth > 64 || matches!(node.tag_name().name(), "defs" | "symbol" | "clipPath" | "pattern") {
        return;
    }
    let matrix = node.attribute("transform").map_or(outer, |text| then(outer, transform(text)));
    let id = node.attribute("id").unwrap_or("");
    let named = named || (!id.is_empty() && node.tag_name().name() == "g");
    let figures = figures || id.ends_with("grid-figures");
    let number = |name: &str| node.attribute(name).and_then(|text| text.trim().parse::<f64>().ok());
    // A drawing inside the drawing.
    let matrix = match (node.tag_name().name(), depth) {
        ("svg", 1..) => {
            then(matrix, [1.0, 0.0, 0.0, 1.0, number("x").unwrap_or(0.0), number("y").unwrap_or(0.0)])
        }
        _ => matrix,
    };
    let mut mark = |x: f64, y: f64| {
        let (x, y) = at(matrix, x, y);
        marks.push(Mark { x, y, named });
    };
    match node.tag_name().name() {
        "circle" | "ellipse" => mark(number("cx").unwrap_or(0.0), number("cy").unwrap_or(0.0)),
        "rect" | "image" => {
            let size = (number("width").unwrap_or(0.0), number("height").unwrap_or(0.0));
            if size.0.max(size.1) * matrix[0].abs() <= LARGEST_MARK {
                mark(number("x").unwrap_or(0.0) + size.0 / 2.0, number("y").unwrap_or(0.0) + size.1 / 2.0);
            }
        }
        "line" => {
            mark(number("x1").unwrap_or(0.0), number("y1").unwrap_or(0.0));
            mark(number("x2").unwrap_or(0.0), number("y2").unwrap_or(0.0));
        }
        "path" | "polygon" | "polyline" => {
            for (x, y) in middles(node.attribute("d").or(node.attribute("points")).unwrap_or("")) {
                mark(x, y);
            }
        }
        "text" => {
            let text: String = node.descendants().filter_map(|n| n.text().filter(|_| n.is_text())).collect();
            let (x, y) = (number("x").unwrap_or(0.0), number("y").unwrap_or(0.0));
            words.push_str(&text);
            words.push('\n');
            if figures {
                let (x, y) = at(matrix, x, y);
                labels.push(Label { x, y, upright: matrix[0].abs() < 0.5, text });
            } else {
                mark(x, y);
            }
            return;
        }
        "use" => {
            mark(number("x").unwrap_or(0.0), number("y").unwrap_or(0.0));
        }
        "g" => {
            if let Some((text, middle)) = outlined(node) {
                words.push_str(&text);
                words.push('\n');
                if figures {
                    let (x, y) = at(matrix, middle, 0.0);
                    // Turned text has nothing along its first axis.
                    labels.push(Label { x, y, upright: matrix[0].abs() < matrix[1].abs(), text });
                } else if !named {
                    let (x, y) = at(matrix, 0.0, 0.0);
                    marks.push(Mark { x, y, named });
                }
                return;
            }
        }
        _ => {}
    }
    for child in node.children().filter(Node::is_element) {
        walk(child, matrix, (named, figures), marks, labels, words, depth + 1);
    }
}

/// The text of a group that is made of outlined letters alone, and where its middle is.
fn outlined(group: Node<'_, '_>) -> Option<(String, f64)> {
    let mut text = String::new();
    let mut last = f64::NEG_INFINITY;
    let mut ends = (f64::INFINITY, f64::NEG_INFINITY);
    for letter in group.children().filter(Node::is_element) {
        let href = letter.attribute("href").filter(|_| letter.tag_name().name() == "use")?;
        let mut parts = href.rsplitn(3, '-');
        let glyph: u16 = parts.next()?.parse().ok()?;
        let face: usize = parts.next()?.parse().ok()?;
        let letters = LETTERS.get(face)?;
        let found = letters.binary_search_by_key(&glyph, |letter| letter.glyph).ok()?;
        let found = letters.get(found)?;
        let x: f64 = letter.attribute("x").and_then(|x| x.parse().ok()).unwrap_or(0.0);
        // Spaces are not drawn: a gap of more than a wide letter is one.
        if last.is_finite() && x - last > 2000.0 {
            text.push(' ');
        }
        last = x;
        ends = (ends.0.min(x), ends.1.max(x + found.advance));
        text.push(found.letter);
    }
    (!text.is_empty()).then_some((text, (ends.0 + ends.1) / 2.0))
}

/// The middles of the small parts of a path.
fn middles(data: &str) -> Vec<(f64, f64)> {
    let mut found = Vec::new();
    let mut pen = (0.0_f64, 0.0_f64);
    let mut start = pen;
    let mut bounds: Option<[f64; 4]> = None;
    let mut close = |bounds: &mut Option<[f64; 4]>| {
        if let Some([west, south, east, north]) = bounds.take()
            && (east - west).max(north - south) <= LARGEST_MARK
        {
            found.push(((west + east) / 2.0, (south + north) / 2.0));
        }
    };
    let mut command = ' ';
    let mut values: Vec<f64> = Vec::new();
    for (c, number) in pieces(data) {
        if let Some(c) = c {
            command = c;
            values.clear();
            if matches!(c, 'z' | 'Z') {
                pen = start;
                close(&mut bounds);
            }
            continue;
        }
        values.push(number);
        let needs = match command.to_ascii_lowercase() {
            'h' | 'v' => 1,
            'c' => 6,
            's' | 'q' => 4,
            'a' => 7,
            _ => 2,
        };
        if values.len() < needs {
            continue;
        }
        let base = if command.is_ascii_lowercase() { pen } else { (0.0, 0.0) };
        let last = |back: usize| values.get(values.len() - back).copied().unwrap_or(0.0);
        let to = match command {
            'h' => (base.0 + last(1), pen.1),
            'H' => (last(1), pen.1),
            'v' => (pen.0, base.1 + last(1)),
            'V' => (pen.0, last(1)),
            _ => (base.0 + last(2), base.1 + last(1)),
        };
        values.clear();
        if matches!(command, 'm' | 'M') {
            close(&mut bounds);
            start = to;
            command = if command == 'm' { 'l' } else { 'L' };
        }
        pen = to;
        let b = bounds.get_or_insert([to.0, to.1, to.0, to.1]);
        *b = [b[0].min(to.0), b[1].min(to.1), b[2].max(to.0), b[3].max(to.1)];
    }
    close(&mut bounds);
    found
}

/// Commands and numbers of path data.
fn pieces(data: &str) -> Vec<(Option<char>, f64)> {
    let mut found = Vec::new();
    let mut number = String::new();
    let end = |number: &mut String, found: &mut Vec<(Option<char>, f64)>| {
        if let Ok(value) = number.parse() {
            found.push((None, value));
        }
        number.clear();
    };
    for c in data.chars() {
        match c {
            '0'..='9' => number.push(c),
            '.' => {
                if number.contains('.') && !number.contains('e') {
                    end(&mut number, &mut found);
                }
                number.push(c);
            }
            'e' | 'E' if !number.is_empty() => number.push('e'),
            '-' | '+' => {
                if !number.ends_with('e') {
                    end(&mut number, &mut found);
                }
                number.push(c);
            }
            c => {
                end(&mut number, &mut found);
                if c.is_ascii_alphabetic() {
                    found.push((Some(c), 0.0));
                }
            }
        }
    }
    end(&mut number, &mut found);
    found
}
