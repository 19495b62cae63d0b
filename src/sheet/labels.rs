//! Where names go on the map: what is in the way, what each name's places are, and the names as placed.
//!
//! The places beside a point and their order are Imhof's ("Positioning Names on Maps", The American
//! Cartographer 2(2), 1975); which place each name takes is settled for all at once (`placing`). Names keep off
//! symbols and never cover more than a little of a square of finds. A name without room is left out and counted.

use super::canvas::{Anchor, Canvas, Look, MM, Rect, Thing, Type};
use super::placing::{Candidate, Wanted, place};

/// A line of text and how it looks.
pub(super) type Line = (String, Type);

/// A name may cover this share of its box of squares, and no more: a corner of a square under one end of a word.
const MOST_COVERED: f64 = 0.04;
/// Names of places together take at most this share of the map: on a small one, only those in the best places.
const MOST_OF_MAP: f64 = 0.06;
/// What it costs a name to stand without its dot.
const DOTLESS: f64 = 0.35;
/// What a name may cost at most by its place alone, so that a name in a bad place is better than none.
const WORST_PLACE: f64 = 0.6;

/// How much it matters that a name stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Worth {
    /// A place: helps the reader to find the way.
    Place,
    /// A parish.
    Parish,
    /// It says what the map is about, and must stand.
    Must,
}

impl Worth {
    fn cost(self) -> f64 {
        match self {
            Self::Place => 1.0,
            Self::Parish => 2.0,
            Self::Must => f64::INFINITY,
        }
    }
}

/// One way to write a name: lines of text, and the points that they may be centred on, the best first.
pub(super) struct Form {
    pub lines: Vec<Line>,
    pub points: Vec<(f64, f64)>,
    /// What it costs to write it so.
    pub cost: f64,
    /// Names that it leaves out.
    pub lacks: usize,
}

/// Where a dot stands, its radius and its look.
type Dot = (f64, f64, f64, Look);

struct Ask {
    forms: Vec<Form>,
    worth: Worth,
    /// A dot that stands only if its name does, and where no symbol does.
    dot: Option<Dot>,
}

/// What is taken on the map, and the names that want room on it.
pub(super) struct Labels {
    frame: Rect,
    taken: Vec<Rect>,
    /// The dots of places.
    dots: Vec<Rect>,
    /// Quarter by quarter of a square millimetre, whether a square of finds lies there.
    busy: Vec<bool>,
    fine: bool,
    asks: Vec<Ask>,
    /// Names that found no room, once they are drawn.
    pub left_out: usize,
}

/// Side of the net that squares of finds are kept in.
const NET: f64 = 0.5 * MM;

impl Labels {
    pub fn new(frame: Rect) -> Self {
        let (columns, rows) = Self::net(frame);
        Self {
            frame,
            taken: Vec::new(),
            dots: Vec::new(),
            busy: vec![false; columns * rows],
            fine: false,
            asks: Vec::new(),
            left_out: 0,
        }
    }

    fn net(frame: Rect) -> (usize, usize) {
        let count = |length: f64| (length / NET).ceil().max(1.0) as usize;
        (count(frame.width()), count(frame.height()))
    }

    /// The parts of the net that a box touches.
    fn touched(&self, rect: Rect) -> impl Iterator<Item = usize> + use<> {
        let (columns, rows) = Self::net(self.frame);
        let span = |from: f64, to: f64, start: f64, count: usize| {
            let at = |v: f64| ((v - start) / NET).floor().clamp(0.0, count as f64 - 1.0) as usize;
            at(from)..=at((to - 1.0).max(from))
        };
        let across = span(rect.x0, rect.x1, self.frame.x0, columns);
        span(rect.y0, rect.y1, self.frame.y0, rows)
            .flat_map(move |row| across.clone().map(move |column| row * columns + column))
    }

    /// Asks names to keep off a square of finds where they can.
    pub fn avoid(&mut self, rect: Rect) {
        for at in self.touched(rect) {
            self.busy[at] = true;
        }
    }

    /// Squares of finds are so fine that a name hides none that the eye would tell apart: names keep off them
    /// where they can, and may cover them where they must.
    pub fn fine_squares(&mut self) {
        self.fine = true;
    }

    /// Keeps names off a box.
    pub fn take(&mut self, rect: Rect) {
        self.taken.push(rect);
    }

    /// Lines of text centred on the first free of several points.
    pub fn centred(&mut self, lines: &[Line], points: &[(f64, f64)], worth: Worth) {
        let form = Form { lines: lines.to_vec(), points: points.to_vec(), cost: 0.0, lacks: 0 };
        self.asks.push(Ask { forms: vec![form], worth, dot: None });
    }

    /// Lines of text that must stand at one of several points, whatever lies there.
    pub fn forced(&mut self, lines: &[Line], points: &[(f64, f64)]) {
        self.centred(lines, points, Worth::Must);
    }

    /// Words that must stand in one of several forms; of these the last stands where no other finds room.
    pub fn forced_as(&mut self, forms: Vec<Form>) {
        self.asks.push(Ask { forms, worth: Worth::Must, dot: None });
    }

    /// The box that lines of text take, centred on a point.
    pub fn room_for(lines: &[Line], point: (f64, f64)) -> Rect {
        Self::block(lines, point)
    }

    /// A name beside a point with a dot of a radius, right above, right below, left above, left below, right,
    /// left, above, below (Imhof's order), close by or a little off. The dot stands only if the name does, and where it hides no symbol.
    pub fn beside(&mut self, name: &str, look: &Type, (x, y): (f64, f64), radius: f64, dot: Look) {
        let points = [0.1 * MM, 0.7 * MM, 1.6 * MM, 2.8 * MM].into_iter().flat_map(|off| {
            let gap = radius + off;
            let w = look.width(name) / 2.0 + gap + 40.0;
            let h = (look.rise() + look.fall()) / 2.0 + gap;
            [
                (w, -0.7 * h),
                (w, 0.7 * h),
                (-w, -0.7 * h),
                (-w, 0.7 * h),
                (w, 0.0),
                (-w, 0.0),
                (0.0, -h),
                (0.0, h),
            ]
            .map(|(dx, dy)| (x + dx, y + dy))
        });
        let form =
            Form { lines: vec![(name.to_owned(), *look)], points: points.collect(), cost: 0.0, lacks: 0 };
        self.dots.push(dot_box(x, y, radius).grown(0.2 * MM));
        let dot = Some((x, y, radius, dot));
        self.asks.push(Ask { forms: vec![form], worth: Worth::Place, dot });
    }

    /// Width and height of lines of text, one under the other.
    fn size(lines: &[Line]) -> (f64, f64) {
        let width = lines.iter().map(|(text, look)| look.width(text)).fold(0.0, f64::max);
        let height: f64 = lines.iter().map(|(_, look)| look.lead()).sum();
        let tail = lines.last().map_or(0.0, |(_, last)| last.lead() - last.rise() - last.fall());
        (width, height - tail)
    }

    /// The box of lines of text centred on a point.
    fn block(lines: &[Line], (x, y): (f64, f64)) -> Rect {
        let (width, height) = Self::size(lines);
        Rect::new(x - width / 2.0, y - height / 2.0, width, height).grown(30.0)
    }

    /// Whether a symbol stands where a dot would: it may not hide one.
    fn hidden(&self, (x, y, radius, _): &Dot) -> bool {
        self.taken.iter().any(|taken| taken.meets(dot_box(*x, *y, *radius)))
    }

    /// The share of a box that covers squares of finds.
    fn covered(&self, rect: Rect) -> f64 {
        let (mut all, mut busy) = (0usize, 0usize);
        for at in self.touched(rect) {
            all += 1;
            busy += usize::from(self.busy[at]);
        }
        busy as f64 / all.max(1) as f64
    }

    /// What a name costs in a box; `None` where it may not stand.
    fn cost(&self, rect: Rect) -> Option<f64> {
        let held = self.frame.grown(-60.0).holds(rect);
        let free = held && !self.taken.iter().chain(&self.dots).any(|taken| taken.meets(rect));
        let covered = if free { self.covered(rect) } else { 1.0 };
        let most = if self.fine { 0.999 } else { MOST_COVERED };
        (free && covered <= most).then_some(covered * 2.0)
    }

    /// Moves a box into the frame.
    fn inside(&self, rect: Rect) -> (f64, f64) {
        let f = self.frame.grown(-60.0);
        let dx = (f.x0 - rect.x0).max(0.0) - (rect.x1 - f.x1).max(0.0);
        let dy = (f.y0 - rect.y0).max(0.0) - (rect.y1 - f.y1).max(0.0);
        (dx, dy)
    }

    /// The places of a name: which form, which point, which box at which cost.
    fn places(&self, ask: &Ask) -> Vec<(usize, (f64, f64), Candidate)> {
        let mut places = Vec::new();
        // A name whose dot is hidden may stand close by without it: that is better than no name.
        let dotless = if ask.dot.as_ref().is_some_and(|dot| self.hidden(dot)) { DOTLESS } else { 0.0 };
        for (number, form) in ask.forms.iter().enumerate() {
            let last = form.points.len().saturating_sub(1).max(1) as f64;
            for (rank, point) in form.points.iter().enumerate() {
                let rect = Self::block(&form.lines, *point);
                if let Some(cost) = self.cost(rect) {
                    let cost = form.cost + dotless + cost + WORST_PLACE * rank as f64 / last;
                    places.push((number, *point, Candidate { rect, cost }));
                }
            }
        }
        if places.is_empty() && ask.worth == Worth::Must {
            places.extend(self.least_bad(ask));
        }
        places
    }

    /// Where a name that must stand and has no free place does least harm: the last form, moved into the frame.
    fn least_bad(&self, ask: &Ask) -> Option<(usize, (f64, f64), Candidate)> {
        let (number, form) = ask.forms.iter().enumerate().next_back()?;
        let moved = form.points.iter().map(|(x, y)| {
            let (dx, dy) = self.inside(Self::block(&form.lines, (*x, *y)));
            let point = (x + dx, y + dy);
            let rect = Self::block(&form.lines, point);
            let hidden = self.taken.iter().filter(|taken| taken.meets(rect)).count() as f64;
            (point, rect, hidden + self.covered(rect))
        });
        let (point, rect, cost) = moved.min_by(|a, b| a.2.total_cmp(&b.2))?;
        Some((number, point, Candidate { rect, cost: form.cost + cost }))
    }

    /// Takes names of places off, those in the worst places first, until they leave the map room.
    fn thinned(&self, wanted: &[Wanted], mut taken: Vec<Option<usize>>) -> Vec<Option<usize>> {
        let candidate = |name: usize, at: usize| wanted[name].candidates[at];
        let mut places: Vec<(usize, usize)> = (0..wanted.len())
            .filter(|name| self.asks[*name].worth == Worth::Place)
            .filter_map(|name| Some((name, taken[name]?)))
            .collect();
        places.sort_by(|a, b| candidate(b.0, b.1).cost.total_cmp(&candidate(a.0, a.1).cost));
        let area = |rect: Rect| rect.width() * rect.height();
        let mut all: f64 = places.iter().map(|(name, at)| area(candidate(*name, *at).rect)).sum();
        for (name, at) in places {
            if all <= MOST_OF_MAP * area(self.frame) {
                break;
            }
            all -= area(candidate(name, at).rect);
            taken[name] = None;
        }
        taken
    }

    /// Settles where every name goes and writes those that found room.
    pub fn draw(&mut self, canvas: &mut Canvas) {
        let places: Vec<_> = self.asks.iter().map(|ask| self.places(ask)).collect();
        let wanted: Vec<Wanted> = self
            .asks
            .iter()
            .zip(&places)
            .map(|(ask, places)| Wanted {
                candidates: places.iter().map(|(_, _, candidate)| *candidate).collect(),
                worth: ask.worth.cost(),
            })
            .collect();
        let taken = self.thinned(&wanted, place(&wanted));
        let chosen: Vec<_> = taken.iter().zip(&places).map(|(at, places)| at.map(|at| places[at])).collect();
        let lacks = |ask: &Ask, form: usize| ask.forms[form].lacks;
        let missing = self
            .asks
            .iter()
            .zip(&chosen)
            .map(|(ask, chosen)| chosen.map_or(1, |(form, ..)| lacks(ask, form)));
        self.left_out = missing.sum();
        canvas.bare_group("places", |canvas| {
            for (ask, _) in self.asks.iter().zip(&chosen).filter(|(_, chosen)| chosen.is_some()) {
                if let Some(dot @ (x, y, radius, look)) = &ask.dot
                    && !self.hidden(dot)
                {
                    canvas.note(Thing::Symbol, "place", dot_box(*x, *y, *radius));
                    canvas.circle_with(*x, *y, *radius, look);
                }
            }
        });
        canvas.bare_group("names", |canvas| {
            for (ask, chosen) in self.asks.iter().zip(&chosen) {
                let Some((form, (x, y), _)) = chosen else { continue };
                let lines = &ask.forms[*form].lines;
                let mut top = y - Self::size(lines).1 / 2.0;
                for (text, look) in lines {
                    canvas.text(*x, top + look.rise(), text, &look.anchored(Anchor::Middle));
                    top += look.lead();
                }
            }
        });
    }
}

fn dot_box(x: f64, y: f64, radius: f64) -> Rect {
    Rect::new(x, y, 0.0, 0.0).grown(radius)
}
