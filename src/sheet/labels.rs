//! Where names go on the map.
//!
//! A greedy choice over ranked positions, in order of importance: the positions and their ranking are
//! Imhof's ("Positioning Names on Maps", The American Cartographer 2(2), 1975), the greedy search is the
//! baseline of Christensen, Marks and Shieber ("An Empirical Study of Algorithms for Point-Feature Label
//! Placement", ACM Transactions on Graphics 14(3), 1995). A name without room is left out and counted.

use super::canvas::{Anchor, Canvas, MM, Rect, Type};

/// A line of text and how it looks.
pub(super) type Line = (String, Type);

/// What is already taken on the map, and the names placed so far.
pub(super) struct Labels {
    frame: Rect,
    taken: Vec<Rect>,
    /// Millimetre by millimetre, whether something lies there that names had better not cover.
    busy: Vec<bool>,
    placed: Vec<(f64, f64, String, Type)>,
    /// Names that found no room.
    pub left_out: usize,
}

impl Labels {
    pub fn new(frame: Rect) -> Self {
        let (columns, rows) = Self::net(frame);
        Self { frame, taken: Vec::new(), busy: vec![false; columns * rows], placed: Vec::new(), left_out: 0 }
    }

    fn net(frame: Rect) -> (usize, usize) {
        let count = |length: f64| (length / MM).ceil().max(1.0) as usize;
        (count(frame.width()), count(frame.height()))
    }

    /// The millimetres of the frame that a box touches.
    fn touched(&self, rect: Rect) -> impl Iterator<Item = usize> + use<> {
        let (columns, rows) = Self::net(self.frame);
        let span = |from: f64, to: f64, start: f64, count: usize| {
            let at = |v: f64| ((v - start) / MM).floor().clamp(0.0, count as f64 - 1.0) as usize;
            at(from)..=at(to - 1.0)
        };
        let across = span(rect.x0, rect.x1, self.frame.x0, columns);
        span(rect.y0, rect.y1, self.frame.y0, rows)
            .flat_map(move |row| across.clone().map(move |column| row * columns + column))
    }

    /// Asks names to keep off a box where they can.
    pub fn avoid(&mut self, rect: Rect) {
        for at in self.touched(rect) {
            self.busy[at] = true;
        }
    }

    /// Keeps names off a box.
    pub fn take(&mut self, rect: Rect) {
        self.taken.push(rect);
    }

    fn free(&self, rect: Rect) -> bool {
        self.frame.grown(-60.0).holds(rect) && !self.taken.iter().any(|taken| taken.meets(rect))
    }

    /// Width and height of lines of text, one under the other.
    fn size(lines: &[Line]) -> (f64, f64) {
        let width = lines.iter().map(|(text, look)| look.width(text)).fold(0.0, f64::max);
        let height: f64 = lines.iter().map(|(_, look)| look.lead()).sum();
        let (_, last) = &lines[lines.len() - 1];
        (width, height - last.lead() + last.rise() + last.fall())
    }

    /// The box of lines of text centred on (x, y).
    fn block(lines: &[Line], x: f64, y: f64) -> Rect {
        let (width, height) = Self::size(lines);
        Rect::new(x - width / 2.0, y - height / 2.0, width, height).grown(30.0)
    }

    fn put(&mut self, lines: &[Line], x: f64, y: f64) {
        self.taken.push(Self::block(lines, x, y));
        let mut top = y - Self::size(lines).1 / 2.0;
        for (text, look) in lines {
            self.placed.push((x, top + look.rise(), text.clone(), look.anchored(Anchor::Middle)));
            top += look.lead();
        }
    }

    /// Puts lines of text centred on the first free of several points. Says whether there was room.
    pub fn centred(&mut self, lines: &[Line], points: &[(f64, f64)]) -> bool {
        let quiet = |block: Rect| self.touched(block).all(|at| !self.busy[at]);
        let blocks = || points.iter().map(|point| (point, Self::block(lines, point.0, point.1)));
        let free = blocks()
            .find(|(_, block)| self.free(*block) && quiet(*block))
            .or_else(|| blocks().find(|(_, block)| self.free(*block)))
            .map(|(point, _)| point);
        match free {
            Some(&(x, y)) => self.put(lines, x, y),
            None => self.left_out += 1,
        }
        free.is_some()
    }

    /// Puts lines of text at the first point whatever lies there, inside the frame: for words that
    /// must not be left out.
    pub fn forced(&mut self, lines: &[Line], points: &[(f64, f64)]) {
        let left_out = self.left_out;
        if !self.centred(lines, points) {
            self.left_out = left_out;
            if let Some(&(x, y)) = points.first() {
                let block = Self::block(lines, x, y);
                let f = self.frame.grown(-60.0);
                let dx = (f.x0 - block.x0).max(0.0) - (block.x1 - f.x1).max(0.0);
                let dy = (f.y0 - block.y0).max(0.0) - (block.y1 - f.y1).max(0.0);
                self.put(lines, x + dx, y + dy);
            }
        }
    }

    /// Puts a name beside a point that has a mark of radius `gap`: right above, right below, left above,
    /// left below, right, left, above, below (Imhof's order). Says whether there was room.
    pub fn beside(&mut self, name: &str, look: &Type, x: f64, y: f64, gap: f64) -> bool {
        let (w, h) = (look.width(name) / 2.0 + gap + 40.0, (look.rise() + look.fall()) / 2.0 + gap);
        let points = [
            (x + w, y - h * 0.7),
            (x + w, y + h * 0.7),
            (x - w, y - h * 0.7),
            (x - w, y + h * 0.7),
            (x + w, y),
            (x - w, y),
            (x, y - h),
            (x, y + h),
        ];
        self.centred(&[(name.to_owned(), *look)], &points)
    }

    /// Writes the names.
    pub fn draw(&self, canvas: &mut Canvas) {
        canvas.bare_group("names", |canvas| {
            for (x, y, text, look) in &self.placed {
                canvas.text(*x, *y, text, look);
            }
        });
    }
}
