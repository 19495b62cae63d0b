//! Kernel density as plain numbers: the quick ways against a direct sum, and what holds of any surface.

use rand::{Rng, SeedableRng};
use rand_chacha::ChaCha8Rng;
use strew::analyse::kde::{
    Adaptive, At, Edge, Frame, Kernel, Observations, Sides, Smoother, adaptive_surface,
};

pub fn raster(columns: usize, rows: usize, pixel_m: f64) -> Frame {
    Frame { west_m: 400_000.0, south_m: 100_000.0, pixel_m, columns, rows }
}

struct Scatter {
    x: Vec<f64>,
    y: Vec<f64>,
    side: Vec<f64>,
    weight: Vec<f64>,
}

impl Scatter {
    /// Clusters over a raster and a little beyond it, with sides drawn by `side`.
    fn new(n: usize, frame: &Frame, seed: u64, side: impl Fn(&mut ChaCha8Rng) -> f64) -> Self {
        let mut random = ChaCha8Rng::seed_from_u64(seed);
        let (width, height) = (frame.columns as f64 * frame.pixel_m, frame.rows as f64 * frame.pixel_m);
        let mut one = Scatter { x: vec![], y: vec![], side: vec![], weight: vec![] };
        for i in 0..n {
            let tight = if i % 3 == 0 { 0.02 } else { 1.2 };
            let (cx, cy) = if i % 3 == 0 { (0.3, 0.7) } else { (-0.1, -0.1) };
            one.x.push(frame.west_m + (cx + tight * random.random::<f64>()) * width);
            one.y.push(frame.south_m + (cy + tight * random.random::<f64>()) * height);
            one.side.push(side(&mut random));
            one.weight.push(f64::from(random.random_range(1..20)));
        }
        one
    }

    fn observations(&self) -> Observations<'_> {
        Observations { x_m: &self.x, y_m: &self.y, side_m: Sides::Each(&self.side) }
    }
}

/// Density per metre of a side of length `s` about `c`, blurred by `h`, at `x`: by the error function, or by
/// the normal density for a point.
fn along(x: f64, c: f64, s: f64, h: f64) -> f64 {
    let t = (x - c) / h;
    if s == 0.0 {
        return (-t * t / 2.0).exp() / (h * (2.0 * std::f64::consts::PI).sqrt());
    }
    let half = s / 2.0 / h;
    let below = |t: f64| 0.5 * libm_erfc(-t);
    (below(t + half) - below(t - half)) / s
}

/// `erfc(t / √2)` by the continued series that any handbook gives: slow, and another than the program's.
fn libm_erfc(t: f64) -> f64 {
    let z = t / std::f64::consts::SQRT_2;
    if z.abs() < 3.0 {
        let (mut sum, mut term) = (z, z);
        for k in 1..200 {
            term *= -z * z / f64::from(k);
            sum += term / f64::from(2 * k + 1);
        }
        return 1.0 - 2.0 / std::f64::consts::PI.sqrt() * sum;
    }
    let (a, mut fraction) = (z.abs(), 0.0);
    for k in (1..60).rev() {
        fraction = f64::from(k) / 2.0 / (a + fraction);
    }
    let tail = (-a * a).exp() / std::f64::consts::PI.sqrt() / (a + fraction);
    if z > 0.0 { tail } else { 2.0 - tail }
}

/// The direct sum at the centres of pixels, pieces per hectare.
fn direct(scatter: &Scatter, kernel: Kernel, frame: &Frame) -> Vec<f64> {
    let mut values = vec![0.0; frame.columns * frame.rows];
    for i in 0..scatter.x.len() {
        let side = scatter.side[i];
        let place = |start: f64, k: usize| start + (k as f64 + 0.5) * frame.pixel_m;
        let ys: Vec<f64> = (0..frame.rows)
            .map(|r| along(place(frame.south_m, r), scatter.y[i], side, kernel.north_m))
            .collect();
        for column in 0..frame.columns {
            let x = along(place(frame.west_m, column), scatter.x[i], side, kernel.east_m);
            for (row, y) in ys.iter().enumerate() {
                values[row * frame.columns + column] += scatter.weight[i] * x * y * 1e4;
            }
        }
    }
    values
}

fn worst(a: &[f64], b: &[f64]) -> f64 {
    assert_eq!(a.len(), b.len());
    let peak = b.iter().copied().fold(0.0, f64::max);
    a.iter().zip(b).map(|(a, b)| (a - b).abs()).fold(0.0, f64::max) / peak
}

fn surface(scatter: &Scatter, kernel: Kernel, frame: Frame, window: Option<&[f64]>, edge: Edge) -> Vec<f64> {
    Smoother::new(scatter.observations(), kernel, frame, window, edge, At::Centre)
        .surface(Some(&scatter.weight))
}

#[test]
fn every_way_comes_to_the_direct_sum() {
    let frame = raster(90, 70, 20.0);
    for (name, n, kernel, sides) in [
        ("few points", 40, Kernel::round(130.0), vec![0.0]),
        ("many points", 3_000, Kernel::round(130.0), vec![0.0]),
        ("wide", 3_000, Kernel::round(600.0), vec![0.0]),
        ("narrow", 2_000, Kernel::round(30.0), vec![0.0]),
        ("narrower than a pixel", 2_000, Kernel::round(9.0), vec![0.0]),
        ("squares of many sizes", 2_000, Kernel::round(90.0), vec![0.0, 1.0, 10.0, 100.0, 137.0, 1000.0]),
        ("small beside the square", 1_500, Kernel::round(35.0), vec![100.0, 500.0, 333.3]),
        ("very small beside the square", 500, Kernel::round(8.0), vec![100.0, 500.0]),
        ("longer east", 2_000, Kernel::along_axes(200.0, 60.0), vec![0.0, 50.0]),
    ] {
        let scatter = Scatter::new(n, &frame, 7, |random| sides[random.random_range(0..sides.len())]);
        let got = surface(&scatter, kernel, frame, None, Edge::None);
        let error = worst(&got, &direct(&scatter, kernel, &frame));
        println!("{name}: {error:.1e} of the maximum");
        assert!(error < 2e-4, "{name}: {error:e} of the maximum");
    }
}

#[test]
fn one_point_anywhere_on_the_lattice_is_within_the_stated_error() {
    let frame = raster(60, 60, 20.0);
    for i in 0..25 {
        let mut scatter = Scatter::new(0, &frame, 1, |_| 0.0);
        // Enough of them that the quick way is taken, and all at one place.
        for _ in 0..30_000 {
            scatter.x.push(400_600.0 + f64::from(i) * 1.7);
            scatter.y.push(100_600.0 + f64::from(i) * 2.9);
            scatter.side.push(0.0);
            scatter.weight.push(1.0);
        }
        // A few far away, so that there are more columns than the exact way takes.
        for k in 0..400 {
            scatter.x.push(300_000.0 + f64::from(k));
            scatter.y.push(100_000.0 + f64::from(k));
            scatter.side.push(0.0);
            scatter.weight.push(0.0);
        }
        let mut one = Scatter::new(0, &frame, 1, |_| 0.0);
        one.x.push(scatter.x[0]);
        one.y.push(scatter.y[0]);
        one.side.push(0.0);
        one.weight.push(30_000.0);
        let kernel = Kernel::round(80.0);
        let got = surface(&scatter, kernel, frame, None, Edge::None);
        let error = worst(&got, &direct(&one, kernel, &frame));
        assert!(error < 2e-4, "{error:e}");
    }
}

/// A ring of ground with a hole, an islet inside the hole, and ragged shares along the edges.
fn window(frame: &Frame) -> Vec<f64> {
    let middle = (frame.columns as f64 / 2.0, frame.rows as f64 / 2.0);
    let radius = middle.0.min(middle.1);
    (0..frame.columns * frame.rows)
        .map(|i| {
            let (x, y) =
                ((i % frame.columns) as f64 + 0.5 - middle.0, (i / frame.columns) as f64 + 0.5 - middle.1);
            let r = x.hypot(y);
            let ring = (0.9 * radius - r).clamp(0.0, 1.0) * (r - 0.4 * radius).clamp(0.0, 1.0);
            let islet = (0.12 * radius - r).clamp(0.0, 1.0);
            ring.max(islet)
        })
        .collect()
}

/// The share of the kernel at a place that lies inside the window: a direct sum over pixels cut in `fine`².
fn slow_share(x: f64, y: f64, side: f64, h: f64, frame: &Frame, window: &[f64]) -> f64 {
    let fine = 16;
    let step = frame.pixel_m / fine as f64;
    let line = |start: f64, count: usize, c: f64| -> Vec<f64> {
        (0..count)
            .map(|i| {
                let at = |k: usize| start + i as f64 * frame.pixel_m + (k as f64 + 0.5) * step;
                (0..fine).map(|k| along(at(k), c, side, h)).sum::<f64>() * step
            })
            .collect()
    };
    let (xs, ys) = (line(frame.west_m, frame.columns, x), line(frame.south_m, frame.rows, y));
    let row = |(j, y): (usize, &f64)| {
        y * xs.iter().zip(&window[j * frame.columns..]).map(|(x, share)| x * share).sum::<f64>()
    };
    ys.iter().enumerate().map(row).sum()
}

#[test]
fn shares_inside_a_window_with_a_hole_and_an_islet_are_right_in_every_way() {
    let frame = raster(60, 50, 20.0);
    let window = window(&frame);
    for (n, h, sides) in
        [(30, 70.0, vec![0.0, 50.0]), (5_000, 70.0, vec![0.0, 50.0, 100.0]), (900, 15.0, vec![0.0])]
    {
        let scatter = Scatter::new(n, &frame, 5, |random| sides[random.random_range(0..sides.len())]);
        let way = Smoother::new(
            scatter.observations(),
            Kernel::round(h),
            frame,
            Some(&window),
            Edge::None,
            At::Mean,
        );
        for (i, share) in way.shares_inside().iter().enumerate().take(60) {
            let slow = slow_share(scatter.x[i], scatter.y[i], scatter.side[i], h, &frame, &window);
            assert!((share - slow).abs() < 5e-4, "{n} {h} {i}: {share} {slow}");
        }
    }
}

#[test]
fn by_observation_the_sum_is_kept_and_by_place_even_ground_is_even() {
    let frame = raster(120, 100, 20.0);
    let window = window(&frame);
    let pixel_ha = frame.pixel_m.powi(2) / 1e4;
    for n in [200, 40_000] {
        let scatter = Scatter::new(n, &frame, 3, |_| 0.0);
        let kernel = Kernel::round(70.0);
        let way = Smoother::new(scatter.observations(), kernel, frame, Some(&window), Edge::Diggle, At::Mean);
        let reached: f64 =
            way.shares_inside().iter().zip(&scatter.weight).filter(|(s, _)| **s > 1e-9).map(|(_, w)| w).sum();
        let sum: f64 = way.surface(Some(&scatter.weight)).iter().sum::<f64>() * pixel_ha;
        assert!((sum / reached - 1.0).abs() < 1e-9, "{sum} {reached}");
    }
    // One observation for each pixel, of the weight of its ground: even ground, whatever the edge.
    let (mut x, mut y) = (vec![], vec![]);
    for i in 0..window.len() {
        x.push(frame.west_m + ((i % frame.columns) as f64 + 0.5) * frame.pixel_m);
        y.push(frame.south_m + ((i / frame.columns) as f64 + 0.5) * frame.pixel_m);
    }
    for side in [0.0, frame.pixel_m] {
        let even = Observations { x_m: &x, y_m: &y, side_m: Sides::Alike(side) };
        let way = Smoother::new(even, Kernel::round(180.0), frame, Some(&window), Edge::Uniform, At::Mean);
        let surface = way.surface(Some(&window));
        for (value, share) in surface.iter().zip(&window).filter(|(_, share)| **share > 0.0) {
            assert!((value / share * pixel_ha - 1.0).abs() < 2e-3, "{value} {share}");
        }
    }
}

#[test]
fn surfaces_add_up_and_parting_a_weight_changes_nothing() {
    let frame = raster(80, 80, 20.0);
    let window = window(&frame);
    for n in [100, 20_000] {
        let scatter = Scatter::new(n, &frame, 11, |_| 0.0);
        for edge in [Edge::None, Edge::Uniform, Edge::Diggle] {
            let kernel = Kernel::round(80.0);
            let way = Smoother::new(scatter.observations(), kernel, frame, Some(&window), edge, At::Mean);
            let halves: (Vec<f64>, Vec<f64>) = scatter
                .weight
                .iter()
                .enumerate()
                .map(|(i, w)| (w * (i % 3) as f64 / 2.0, w * (1.0 - (i % 3) as f64 / 2.0)))
                .unzip();
            let (a, b) = (way.surface(Some(&halves.0)), way.surface(Some(&halves.1)));
            let sum: Vec<f64> = a.iter().zip(&b).map(|(a, b)| a + b).collect();
            assert!(worst(&sum, &way.surface(Some(&scatter.weight))) < 1e-12);
        }
    }
}

#[test]
fn a_moved_study_is_a_moved_surface_and_a_turned_one_a_turned_surface() {
    let frame = raster(80, 80, 20.0);
    for n in [60, 20_000] {
        let scatter = Scatter::new(n, &frame, 13, |_| 0.0);
        let here = surface(&scatter, Kernel::along_axes(60.0, 90.0), frame, None, Edge::None);
        let moved = Scatter {
            x: scatter.x.iter().map(|x| x + 123_456.5).collect(),
            y: scatter.y.iter().map(|y| y - 7_890.25).collect(),
            side: scatter.side.clone(),
            weight: scatter.weight.clone(),
        };
        let there = Frame { west_m: frame.west_m + 123_456.5, south_m: frame.south_m - 7_890.25, ..frame };
        let kernel = Kernel::along_axes(60.0, 90.0);
        assert!(worst(&surface(&moved, kernel, there, None, Edge::None), &here) < 1e-9);
        // A quarter turn to the left about the raster's middle.
        let width = 80.0 * 20.0;
        let turned = Scatter {
            x: scatter.y.iter().map(|y| frame.west_m + width - (y - frame.south_m)).collect(),
            y: scatter.x.iter().map(|x| frame.south_m + (x - frame.west_m)).collect(),
            side: scatter.side.clone(),
            weight: scatter.weight.clone(),
        };
        let kernel = Kernel::along_axes(90.0, 60.0);
        let other = surface(&turned, kernel, frame, None, Edge::None);
        let back: Vec<f64> = (0..80 * 80).map(|i| other[(i % 80) * 80 + 79 - i / 80]).collect();
        assert!(worst(&back, &here) < 1e-4);
    }
}

#[test]
fn the_number_of_threads_changes_no_bit() {
    let frame = raster(100, 90, 20.0);
    let window = window(&frame);
    for (n, h) in [(300, 80.0), (100_000, 80.0), (100_000, 20.0)] {
        let scatter = Scatter::new(n, &frame, 17, |_| 0.0);
        let with = |threads: usize| {
            let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
            pool.install(|| surface(&scatter, Kernel::round(h), frame, Some(&window), Edge::Diggle))
        };
        let one = with(1);
        for threads in [2, 3, 7] {
            assert!(one.iter().zip(&with(threads)).all(|(a, b)| a.to_bits() == b.to_bits()), "{n} {threads}");
        }
    }
}

#[test]
fn an_adaptive_surface_is_the_exact_sum_within_a_thousandth() {
    let frame = raster(80, 70, 20.0);
    let window = window(&frame);
    let scatter = Scatter::new(2_000, &frame, 23, |random| if random.random_bool(0.3) { 50.0 } else { 0.0 });
    let adaptive = Adaptive { h0_m: 70.0, pilot_m: 90.0 };
    let made = |window: Option<&[f64]>, edge: Edge, at: At| {
        let o = scatter.observations();
        adaptive_surface(o, Some(&scatter.weight), None, adaptive, frame, window, edge, at)
    };
    let varied = made(None, Edge::None, At::Centre);
    let mut slow = vec![0.0; frame.columns * frame.rows];
    for i in 0..scatter.x.len() {
        let one = Scatter {
            x: vec![scatter.x[i]],
            y: vec![scatter.y[i]],
            side: vec![scatter.side[i]],
            weight: vec![scatter.weight[i]],
        };
        let h = Kernel::round(varied.bandwidths_m[i]);
        slow.iter_mut().zip(direct(&one, h, &frame)).for_each(|(sum, more)| *sum += more);
    }
    let error = worst(&varied.per_hectare, &slow);
    println!("adaptive: {error:.1e} of the maximum");
    assert!(error < 1e-3, "{error:e}");
    // The spread of bandwidths is what makes it hard.
    let ends = varied.bandwidths_m.iter().fold((1e9f64, 0f64), |(a, b), h| (a.min(*h), b.max(*h)));
    assert!(ends.1 > 3.0 * ends.0, "{ends:?}");
    // By observation the sum of those on ground is kept here too.
    let on_ground = |i: usize| {
        let column = ((scatter.x[i] - frame.west_m) / frame.pixel_m).floor();
        let row = ((scatter.y[i] - frame.south_m) / frame.pixel_m).floor();
        let within = column >= 0.0 && row >= 0.0 && column < 80.0 && row < 70.0;
        within && window[row as usize * 80 + column as usize] > 0.0
    };
    let weight: Vec<f64> =
        (0..scatter.x.len()).map(|i| if on_ground(i) { scatter.weight[i] } else { 0.0 }).collect();
    let o = scatter.observations();
    let (window, edge) = (Some(&window[..]), Edge::Diggle);
    let kept = adaptive_surface(o, Some(&weight), None, adaptive, frame, window, edge, At::Mean);
    let sum: f64 = kept.per_hectare.iter().sum::<f64>() * frame.pixel_m.powi(2) / 1e4;
    let all: f64 = weight.iter().sum();
    assert!((sum / all - 1.0).abs() < 1e-4, "{sum} {all}");
}

/// A kernel that leans, against the direct sum.
#[test]
fn a_leaning_kernel_comes_to_the_direct_sum() {
    let frame = raster(80, 70, 20.0);
    let scatter = Scatter::new(300, &frame, 29, |_| 0.0);
    let kernel = Kernel::along_bearing(160.0, 70.0, 30.0);
    let got = surface(&scatter, kernel, frame, None, Edge::None);
    let xy = kernel.lean * kernel.east_m * kernel.north_m;
    let (xx, yy) = (kernel.east_m.powi(2), kernel.north_m.powi(2));
    let det = xx * yy - xy * xy;
    let mut slow = vec![0.0; frame.columns * frame.rows];
    for i in 0..scatter.x.len() {
        for (k, value) in slow.iter_mut().enumerate() {
            let dx = frame.west_m + ((k % 80) as f64 + 0.5) * 20.0 - scatter.x[i];
            let dy = frame.south_m + ((k / 80) as f64 + 0.5) * 20.0 - scatter.y[i];
            let t = (yy * dx * dx - 2.0 * xy * dx * dy + xx * dy * dy) / det;
            *value += scatter.weight[i] * (-t / 2.0).exp() / (2.0 * std::f64::consts::PI * det.sqrt()) * 1e4;
        }
    }
    let error = worst(&got, &slow);
    println!("leaning: {error:.1e} of the maximum");
    assert!(error < 1e-3, "{error:e}");
    // Without a lean the two ways agree, squares and means too.
    let scatter = Scatter::new(300, &frame, 31, |_| 50.0);
    let almost = Kernel { lean: 1e-9, ..Kernel::along_axes(100.0, 70.0) };
    let one = Smoother::new(scatter.observations(), almost, frame, None, Edge::Uniform, At::Mean);
    let straight = Kernel::along_axes(100.0, 70.0);
    let two = Smoother::new(scatter.observations(), straight, frame, None, Edge::Uniform, At::Mean);
    let weight = Some(&scatter.weight[..]);
    assert!(worst(&one.surface(weight), &two.surface(weight)) < 2e-3);
}
