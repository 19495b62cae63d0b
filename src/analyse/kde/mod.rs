//! Kernel density of weighted squares and points on a raster, and how wide the kernel should be. Pure
//! numbers: knows no find, no study and no ground.
//!
//! An observation is a square of side `s ≥ 0` (0: a point) over which its weight lies evenly; the kernel is
//! a Gaussian; the window is the share of each pixel that counts as ground. [`Smoother`] prepares all that
//! does not depend on the weights once, so that thousands of surfaces of other weights cost little each.
//!
//! Three ways lead to the same surface (`docs/method.md`, *How the sums are done*), chosen by what they
//! would cost:
//!
//! - `squares`: exact to rounding. The kernel of a square is a product of a function east and one north, so
//!   all squares of one column are added up along it first. For squares of a grid.
//! - `lattice`: observations are shared out over a lattice fine beside the kernel, and the lattice is
//!   smoothed. For many points. Within 1e-4 of the maximum.
//! - `each`: every observation by itself, exact. For few, and for kernels narrow beside a pixel.
//!
//! A kernel whose axes lean away from east and north does not part into two directions: `turned` smooths it
//! by Fourier transform. `select` and what it calls choose the bandwidth.

mod adaptive;
mod crossing;
mod diggle;
mod each;
mod lags;
mod lattice;
mod line;
mod plugin;
mod power;
mod search;
mod select;
mod spectrum;
mod spline;
mod squares;
mod turned;

use rayon::prelude::*;

pub use adaptive::{Adaptive, Varied, adaptive_surface};
pub use select::{Chosen, Selector, choose_bandwidth};

pub use crate::ground::cover::Frame;
pub(in crate::analyse) use line::{REACH_SD, mean_over};

/// Observations: the centre of each square, and its side.
#[derive(Debug, Clone, Copy)]
pub struct Observations<'a> {
    /// Eastings of the centres, metres.
    pub x_m: &'a [f64],
    /// Northings of the centres, metres; as many.
    pub y_m: &'a [f64],
    /// Sides.
    pub side_m: Sides<'a>,
}

/// The sides of observations, metres.
#[derive(Debug, Clone, Copy)]
pub enum Sides<'a> {
    /// All alike; 0 for points.
    Alike(f64),
    /// One each; 0 for a point.
    Each(&'a [f64]),
}

impl Observations<'_> {
    /// How many there are.
    pub fn len(&self) -> usize {
        self.x_m.len().min(self.y_m.len())
    }

    /// Whether there is none.
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    fn side(&self, index: usize) -> f64 {
        match self.side_m {
            Sides::Alike(side) => side,
            Sides::Each(sides) => sides.get(index).copied().unwrap_or(0.0),
        }
    }

    fn largest_side(&self) -> f64 {
        match self.side_m {
            Sides::Alike(side) => side,
            Sides::Each(sides) => sides.iter().copied().fold(0.0, f64::max),
        }
    }
}

/// A Gaussian kernel by its standard deviations, metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Kernel {
    /// Standard deviation east and west.
    pub east_m: f64,
    /// Standard deviation north and south.
    pub north_m: f64,
    /// Correlation of the two, between −1 and 1: 0 for a kernel whose axes run east and north.
    pub lean: f64,
}

impl Kernel {
    /// The same in every direction.
    pub fn round(h_m: f64) -> Self {
        Self { east_m: h_m, north_m: h_m, lean: 0.0 }
    }

    /// Standard deviations east and north.
    pub fn along_axes(east_m: f64, north_m: f64) -> Self {
        Self { east_m, north_m, lean: 0.0 }
    }

    /// Standard deviations along a bearing (degrees from north, clockwise) and across it.
    pub fn along_bearing(along_m: f64, across_m: f64, bearing_deg: f64) -> Self {
        let (sin, cos) = (libm::sin(bearing_deg.to_radians()), libm::cos(bearing_deg.to_radians()));
        let (a, c) = (along_m * along_m, across_m * across_m);
        Self::of(spectrum::Spread {
            xx: a * sin * sin + c * cos * cos,
            xy: (a - c) * sin * cos,
            yy: a * cos * cos + c * sin * sin,
        })
    }

    /// One standard deviation that spreads over as much ground: the root of the area that the kernel takes.
    pub fn mean_m(&self) -> f64 {
        (self.east_m * self.north_m).sqrt() * (1.0 - self.lean * self.lean).max(0.0).powf(0.25)
    }

    fn of(spread: spectrum::Spread) -> Self {
        let (east_m, north_m) = (spread.xx.sqrt(), spread.yy.sqrt());
        let lean = spread.xy / (east_m * north_m);
        // What rounding leaves of no lean at all is none.
        Self { east_m, north_m, lean: if lean.abs() < 1e-12 { 0.0 } else { lean } }
    }

    fn spread(&self) -> spectrum::Spread {
        let xy = self.lean * self.east_m * self.north_m;
        spectrum::Spread { xx: self.east_m.powi(2), xy, yy: self.north_m.powi(2) }
    }
}

/// What is done about the kernel that falls outside the window.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Edge {
    /// Nothing: it is lost.
    None,
    /// The finished surface is divided, pixel by pixel, by the share of a kernel there that lies inside.
    /// Even ground comes out even; the sum of the weights is not kept.
    Uniform,
    /// Each observation's weight is divided by the share of its own kernel that lies inside. The sum of the
    /// weights is kept exactly.
    Diggle,
}

/// What the value of a pixel is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum At {
    /// The mean over the pixel, so that values times area add up.
    Mean,
    /// The value at its centre, as other programs give it.
    Centre,
}

/// An observation with less of its kernel inside than this has none.
const LEAST_INSIDE: f64 = 1e-9;

/// All that does not depend on the weights.
pub struct Smoother<'a> {
    frame: Frame,
    window: Option<&'a [f64]>,
    at: At,
    way: Way<'a>,
    /// For `Uniform`: what each pixel is multiplied by, its share of ground included.
    factors: Option<Vec<f64>>,
    /// For `Diggle`: the share of each observation's kernel that lies inside.
    inside: Option<Vec<f64>>,
}

enum Way<'a> {
    Squares(squares::Squares),
    Lattice(lattice::Lattice<'a>),
    Each(each::Each<'a>),
    Turned(Box<turned::Turned<'a>>),
}

impl<'a> Smoother<'a> {
    /// Prepares. `window` holds the share of each pixel that is ground, row by row from the south; `None`
    /// for all ground. A window of another size than the raster counts as none.
    pub fn new(
        observations: Observations<'a>,
        kernel: Kernel,
        frame: Frame,
        window: Option<&'a [f64]>,
        edge: Edge,
        at: At,
    ) -> Self {
        let window = window.filter(|window| window.len() == frame.columns * frame.rows);
        let way = choose(observations, kernel, frame, at);
        let mut smoother = Self { frame, window, at, way, factors: None, inside: None };
        match edge {
            Edge::None => (),
            Edge::Diggle => smoother.inside = Some(smoother.shares_inside()),
            Edge::Uniform => {
                let mass = smoother.masses_of_pixels(kernel);
                let mut factors = mass;
                factors.par_iter_mut().enumerate().for_each(|(i, factor)| {
                    let share = window.map_or(1.0, |window| window[i]);
                    *factor = if share > 0.0 && *factor > LEAST_INSIDE { share / *factor } else { 0.0 };
                });
                smoother.factors = Some(factors);
            }
        }
        smoother
    }

    /// The share of each observation's kernel that lies inside the window, 0 to 1.
    pub fn shares_inside(&self) -> Vec<f64> {
        let whole;
        let window = match self.window {
            Some(window) => window,
            None => {
                whole = vec![1.0; self.frame.columns * self.frame.rows];
                &whole
            }
        };
        match &self.way {
            Way::Squares(way) => way.shares_inside(window),
            Way::Lattice(way) => way.shares_inside(window),
            Way::Each(way) => way.shares_inside(window),
            Way::Turned(way) => way.shares_inside(window),
        }
    }

    /// Pieces per hectare over each whole pixel, row by row from the south; nothing outside the window.
    /// `None`: every observation weighs 1.
    pub fn surface(&self, weights: Option<&[f64]>) -> Vec<f64> {
        let corrected: Option<Vec<f64>> = self.inside.as_ref().map(|inside| {
            let weight = |(i, inside): (usize, &f64)| {
                let weight = weights.map_or(1.0, |weights| weights.get(i).copied().unwrap_or(0.0));
                if *inside > LEAST_INSIDE { weight / inside } else { 0.0 }
            };
            inside.par_iter().enumerate().map(weight).collect()
        });
        let weights = corrected.as_deref().or(weights);
        let mut values = match &self.way {
            Way::Squares(way) => way.surface(weights),
            Way::Lattice(way) => way.surface(weights),
            Way::Each(way) => way.surface(weights),
            Way::Turned(way) => way.surface(weights),
        };
        let by = |values: &mut [f64], factors: &[f64]| {
            values.par_iter_mut().zip(factors).for_each(|(value, factor)| *value *= factor * 1e4);
        };
        match (&self.factors, self.window) {
            (Some(factors), _) => by(&mut values, factors),
            (None, Some(window)) => by(&mut values, window),
            (None, None) => values.par_iter_mut().for_each(|value| *value *= 1e4),
        }
        if let (Way::Turned(_), Some(weights), Some(inside)) = (&self.way, weights, &self.inside) {
            // The other ways keep the sum by the very numbers they divide by; a transform keeps it to its error only.
            let kept: f64 = inside.iter().zip(weights).map(|(inside, weight)| inside * weight).sum();
            let area = self.frame.pixel_m * self.frame.pixel_m / 1e4;
            let sum = values.iter().sum::<f64>() * area;
            if sum > 0.0 && kept > 0.0 {
                values.par_iter_mut().for_each(|value| *value *= kept / sum);
            }
        }
        values
    }

    /// The share inside the window of the kernel of each pixel: of the pixel as a square where values are
    /// means, of its centre otherwise.
    fn masses_of_pixels(&self, kernel: Kernel) -> Vec<f64> {
        match self.window {
            Some(window) => self.masses_in(window, kernel),
            None => masses_of_frame(&self.frame, kernel, self.at)
                .unwrap_or_else(|| self.masses_in(&vec![1.0; self.frame.columns * self.frame.rows], kernel)),
        }
    }

    fn masses_in(&self, window: &[f64], kernel: Kernel) -> Vec<f64> {
        match &self.way {
            Way::Lattice(way) => way.masses_of_pixels(window),
            Way::Turned(way) => way.masses_of_pixels(window),
            Way::Squares(squares::Squares { at, .. }) | Way::Each(each::Each { at, .. }) => {
                if lattice::Lattice::fits(kernel, &self.frame) {
                    let none = Observations { x_m: &[], y_m: &[], side_m: Sides::Alike(0.0) };
                    return lattice::Lattice::new(none, kernel, self.frame, *at).masses_of_pixels(window);
                }
                squares::blurred(window, kernel, &self.frame, *at)
            }
        }
    }
}

/// The part of each pixel's kernel that lies in the raster, where the raster is all the window: two directions
/// multiply. `None` where the kernel leans.
fn masses_of_frame(frame: &Frame, kernel: Kernel, at: At) -> Option<Vec<f64>> {
    let part = |count: usize, h: f64| -> Vec<f64> {
        let (pixel, length) = (frame.pixel_m, frame.pixel_m * count as f64);
        let of = |i: usize| match at {
            At::Mean => line::mean_over(i as f64 * pixel, (i + 1) as f64 * pixel, 0.0, length, h),
            At::Centre => line::value_at((i as f64 + 0.5) * pixel, 0.0, length, h),
        };
        (0..count).map(|i| length * of(i)).collect()
    };
    let (east, north) = (part(frame.columns, kernel.east_m), part(frame.rows, kernel.north_m));
    let all = north.iter().flat_map(|north| east.iter().map(move |east| north * east));
    (kernel.lean == 0.0).then(|| all.collect())
}

/// The surface in one go: see [`Smoother`].
pub fn surface_of(
    observations: Observations<'_>,
    weights: Option<&[f64]>,
    kernel: Kernel,
    frame: Frame,
    window: Option<&[f64]>,
    edge: Edge,
) -> Vec<f64> {
    Smoother::new(observations, kernel, frame, window, edge, At::Mean).surface(weights)
}

/// The cheapest of the ways that are exact enough: see the head of the module.
fn choose(observations: Observations<'_>, kernel: Kernel, frame: Frame, at: At) -> Way<'_> {
    let n = observations.len();
    if kernel.lean != 0.0 {
        return Way::Turned(Box::new(turned::Turned { observations, kernel, frame, at }));
    }
    let lattice = lattice::Lattice::fits(kernel, &frame);
    // Beyond this many distinct columns of squares, adding up along columns gains nothing.
    let most = 2 * frame.columns.max(frame.rows).max(128);
    if let Some(squares) = squares::Squares::new(observations, kernel, frame, at, most) {
        let (squares, cost) = squares;
        if !lattice || cost <= lattice::Lattice::cost(n, observations.largest_side(), kernel, &frame) {
            return Way::Squares(squares);
        }
    }
    if lattice {
        Way::Lattice(lattice::Lattice::new(observations, kernel, frame, at))
    } else {
        Way::Each(each::Each { observations, kernel, frame, at })
    }
}

/// How many parts a sum over `n` observations is cut into: by their number and by the memory that a part
/// takes, never by the number of threads, so that the sum is the same to the last bit.
fn parts(n: usize, values: usize) -> usize {
    let most = (4_000_000 / values.max(1)).clamp(2, 8);
    (n / 32_768).clamp(1, most)
}
