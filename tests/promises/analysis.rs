//! What the analyses say: surfaces that hold every piece, tables that add up, patches by whole squares.

use geo::{MultiPolygon, wkt};
use std::path::PathBuf;
use strew::analyse::{Surface, density};
use strew::coordinates::Cell;
use strew::exact::{Published, Release, ReleasedFind, ReleasedPlace, Tally};
use strew::ground::{Ground, Walked};
use strew::study::vocabulary::{Class, Period, Setting};
use strew::study::{Effort, PublicStudy, Study};

pub fn study(more: &str) -> PublicStudy {
    let text = format!(
        "[study]\ntitle = \"Test\"\n[register]\nfiles = [\"finds.csv\"]\n\
         [agreement.public]\nprecision = \"100 m\"\ncounts = \"exact\"\n{more}"
    );
    Study::parse(&text, PathBuf::from(".")).unwrap().audience("public").unwrap().clone()
}

pub fn cell(column: i32, row: i32) -> ReleasedPlace {
    ReleasedPlace::Cell(Cell { side_m: 100, column, row })
}

pub fn find(place: ReleasedPlace, count: u32) -> ReleasedFind {
    ReleasedFind {
        place,
        class: Some(Class::Flake),
        period: Some(Period::Undated),
        count,
        strength: None,
        out_of_place: false,
        stated_parish: None,
        setting: None,
        details: None,
    }
}

pub fn published(study: &PublicStudy, finds: Vec<ReleasedFind>) -> Published {
    let rows = finds.len() as u64;
    let tally = Tally { read: rows, used: rows, ..Tally::default() };
    Release { audience: "public".to_owned(), tally, finds, withdrawn: Vec::new() }.publish(&study.agreement)
}

fn surface(study: &PublicStudy, ground: &Ground, finds: Vec<ReleasedFind>) -> Surface {
    density(&published(study, finds), study, ground).unwrap().unwrap()
}

fn mass(surface: &Surface) -> f64 {
    surface.per_hectare.iter().sum::<f64>() * surface.pixel_m * surface.pixel_m / 1e4
}

/// An island of 3 km by 2 km with a bay, south-west corner at (1000, 1000).
fn island(study: &PublicStudy) -> Ground {
    let land: MultiPolygon<f64> = wkt!(MULTIPOLYGON(((
        1000. 1000.,4000. 1130.,3900. 2950.,2600. 3000.,2450. 1870.,2210. 2990.,1040. 2800.,1000. 1000.
    ))));
    Ground { land, ..Ground::empty(study) }
}

pub(super) fn scatter() -> Vec<ReleasedFind> {
    vec![
        find(cell(12, 12), 30),
        find(cell(13, 12), 12),
        find(cell(12, 13), 7),
        find(cell(35, 20), 1),
        find(cell(24, 28), 3), // in the bay
        find(ReleasedPlace::Cell(Cell { side_m: 1000, column: 3, row: 2 }), 4),
    ]
}

#[test]
fn a_surface_holds_every_piece_whatever_the_window_and_the_kernel() {
    for settings in [
        "",
        "bandwidth = \"40 m\"\n",
        "bandwidth = \"900 m\"\n",
        "bandwidth = \"120 m\"\npixel = \"7 m\"\n",
        "bandwidth = [\"120 m\", \"60 m\"]\n",
        "bandwidth = [\"120 m\", \"60 m\"]\nbearing = 35\n",
        "bandwidth = \"plug-in\"\n",
        "bandwidth = \"least-squares\"\n",
        "adaptive = true\n",
        "edge_correction = false\n",
    ] {
        let study = study(&format!("[density]\noff_land = true\n{settings}"));
        for ground in [island(&study), Ground::empty(&study)] {
            let surface = surface(&study, &ground, scatter());
            assert!((mass(&surface) - 57.0).abs() < 1e-9, "{settings}: {}", mass(&surface));
            assert!((surface.pieces - 57.0).abs() < 1e-9);
            assert!(surface.per_hectare.iter().all(|v| v.is_finite() && *v >= 0.0));
            assert!(surface.per_hectare.iter().zip(&surface.inside).all(|(v, i)| *i > 0.0 || *v == 0.0));
            assert!(surface.columns <= 1024 && surface.rows <= 1024);
            assert_eq!(surface.per_hectare.len(), surface.columns * surface.rows);
        }
    }
}

#[test]
fn squares_off_the_land_are_ground() {
    let finds = vec![find(cell(12, 12), 3), find(cell(60, 12), 5)];
    // Beside finds on land only where that is asked for; where there are no others they are the surface.
    let apart = study("[density]\nbandwidth = \"30 m\"\n");
    let left = surface(&apart, &island(&apart), finds.clone());
    assert_eq!((left.pieces.round(), left.made.left_off_land.exact()), (3.0, Some(5)));
    let alone = surface(&apart, &island(&apart), vec![find(cell(60, 12), 5)]);
    assert_eq!((alone.pieces.round(), alone.made.left_off_land.exact()), (5.0, Some(0)));
    let study = study("[density]\nbandwidth = \"30 m\"\noff_land = true\n");
    let surface = surface(&study, &island(&study), finds);
    assert!((mass(&surface) - 8.0).abs() < 1e-9);
    let at = |e: f64, n: f64| {
        let column = ((e - surface.west_m) / surface.pixel_m) as usize;
        let row = ((n - surface.south_m) / surface.pixel_m) as usize;
        surface.on_ground(column, row)
    };
    // The square's 5 pieces stay on its own hectare: 5 a hectare in the mean.
    assert!(at(6050.0, 1250.0).unwrap() > 4.0);
    assert_eq!(at(5900.0, 1250.0), None, "the sea beside it is no ground");
}

/// Two walked fields on the island, one looked at by a fifth.
fn ground_with_fields(study: &PublicStudy) -> Ground {
    let field = |shape: MultiPolygon<f64>, cover| Walked { name: None, shape, cover: Some(cover) };
    let west: MultiPolygon<f64> =
        wkt!(MULTIPOLYGON(((1200. 1200.,1600. 1200.,1600. 1500.,1200. 1500.,1200. 1200.))));
    let east: MultiPolygon<f64> =
        wkt!(MULTIPOLYGON(((1600. 1200.,2000. 1200.,2000. 1500.,1600. 1500.,1600. 1200.))));
    Ground { walked: vec![field(west, 1.0), field(east, 0.2)], ..island(study) }
}

#[test]
fn where_walked_ground_is_public_the_density_is_per_hectare_walked_or_looked_at() {
    let finds = vec![find(cell(13, 13), 40), find(cell(18, 13), 8), find(cell(30, 20), 5)];
    let made = |settings: &str| {
        let study = study(&format!("[density]\nbandwidth = \"300 m\"\n{settings}"));
        surface(&study, &ground_with_fields(&study), finds.clone())
    };
    let hectares = |surface: &Surface| surface.inside.iter().sum::<f64>() * surface.pixel_m.powi(2) / 1e4;
    let walked = made("");
    // Two fields of 12 ha; the find off them is left out and counted.
    assert!((hectares(&walked) - 24.0).abs() < 1e-6, "{}", hectares(&walked));
    assert!((walked.pieces - 48.0).abs() < 1e-9);
    assert_eq!((walked.made.effort, walked.made.left_unwalked.exact()), (Effort::Walked, Some(5)));
    let covered = made("effort = \"covered\"\n");
    assert!((hectares(&covered) - 14.4).abs() < 1e-6 && (covered.pieces - 48.0).abs() < 1e-9);
    let at = |surface: &Surface, e: f64, n: f64| {
        let column = ((e - surface.west_m) / surface.pixel_m) as usize;
        let row = ((n - surface.south_m) / surface.pixel_m) as usize;
        surface.on_ground(column, row)
    };
    // A fifth of the eastern field was looked at: what was found there stands for more.
    let (few, more) = (at(&walked, 1850.0, 1350.0).unwrap(), at(&covered, 1850.0, 1350.0).unwrap());
    assert!(more > 1.5 * few, "{few} {more}");
    assert!(walked.west_m >= 1200.0 && walked.south_m >= 1200.0, "the surface ends with the walked ground");
    let land = made("effort = \"none\"\n");
    assert!((land.pieces - 53.0).abs() < 1e-9 && hectares(&land) > 100.0);
    let none = study("");
    let elsewhere = surface(&none, &ground_with_fields(&none), vec![find(cell(30, 20), 5)]);
    assert_eq!(elsewhere.made.doubts[0], "density-doubt-none-walked");
    assert!((elsewhere.pieces - 5.0).abs() < 1e-9);
}

#[test]
fn even_finds_over_a_ragged_coast_come_out_even_by_the_uniform_correction() {
    let study = study("[density]\nbandwidth = \"150 m\"\nedge = \"uniform\"\n");
    let ground = island(&study);
    // A piece for each hundredth of a hectare of land in each square.
    let partition_of = |column: i32, row: i32| {
        let square = Cell { side_m: 100, column, row }.rect();
        (strew::ground::cover::area_within(&ground.land, square) / 100.0).round() as u32
    };
    let finds: Vec<ReleasedFind> = (8..42)
        .flat_map(|column| (8..32).map(move |row| (column, row)))
        .map(|(column, row)| (column, row, partition_of(column, row)))
        .filter(|(.., pieces)| *pieces > 0)
        .map(|(column, row, pieces)| find(cell(column, row), pieces))
        .collect();
    let surface = surface(&study, &ground, finds);
    for row in 0..surface.rows {
        for column in 0..surface.columns {
            // A square's pieces lie evenly in all of it, at sea too: hence not to the last per cent.
            if let Some(density) = surface.on_ground(column, row) {
                assert!((density - 100.0).abs() < 12.0, "{column} {row}: {density}");
            }
        }
    }
}

#[test]
fn beach_finds_are_no_part_of_a_surface_of_ploughland_unless_asked_for() {
    let shown = "show = [\"class\", \"setting\"]\n";
    let mut finds = vec![find(cell(12, 12), 3), find(cell(13, 12), 4), find(cell(14, 14), 5)];
    finds[0].setting = Some(Setting::Ploughland);
    finds[1].setting = Some(Setting::Beach);
    finds[2].setting = Some(Setting::Beach);
    let made = |settings: &str, finds: &[ReleasedFind]| {
        let study = study(&format!("{shown}[density]\n{settings}"));
        surface(&study, &Ground::empty(&study), finds.to_vec())
    };
    let apart = made("", &finds);
    assert_eq!((apart.pieces.round(), apart.made.left_by_setting.exact()), (3.0, Some(9)));
    let beach = made("settings = [\"beach\"]\n", &finds);
    assert_eq!((beach.pieces.round(), beach.made.left_by_setting.exact()), (9.0, Some(3)));
    let both = made("settings = [\"beach\", \"ploughland\"]\n", &finds);
    assert_eq!(both.pieces.round(), 12.0);
    assert_eq!(made("", &finds[1..]).pieces.round(), 9.0);
    // Where settings are not shown, nothing is told by them, and the surface says so.
    let hidden = study("[density]\nsettings = [\"beach\"]\n");
    finds.iter_mut().for_each(|find| find.setting = None);
    let all = surface(&hidden, &Ground::empty(&hidden), finds);
    assert_eq!((all.pieces.round(), all.made.doubts[0]), (12.0, "density-doubt-settings-hidden"));
}

#[test]
fn places_that_are_no_squares_are_left_out_and_counted() {
    let study = study("");
    let mut astray = find(cell(12, 12), 9);
    astray.out_of_place = true;
    let finds = vec![find(cell(12, 12), 2), astray.clone(), find(ReleasedPlace::Parish("Ash".into()), 4)];
    let surface = surface(&study, &Ground::empty(&study), finds);
    assert_eq!((surface.left_out_of_place.exact(), surface.left_out_by_parish.exact()), (Some(9), Some(4)));
    assert!((surface.pieces - 2.0).abs() < 1e-9);
    let none = published(&study, vec![astray]);
    assert!(density(&none, &study, &Ground::empty(&study)).unwrap().is_none());
}

#[test]
fn a_bag_parted_in_two_is_the_same_bag_and_a_moved_study_is_a_moved_surface() {
    let study = study("[density]\nbandwidth = \"150 m\"\n");
    let one = surface(&study, &island(&study), scatter());
    let mut parted = scatter();
    parted[0].count = 11;
    parted.push(find(cell(12, 12), 19));
    assert_eq!(one, surface(&study, &island(&study), parted));

    let nowhere = Ground::empty(&study);
    let here = surface(&study, &nowhere, vec![find(cell(3, 4), 5), find(cell(9, 1), 2)]);
    let there = surface(&study, &nowhere, vec![find(cell(5303, 5604), 5), find(cell(5309, 5601), 2)]);
    assert_eq!((here.columns, here.rows), (there.columns, there.rows));
    assert_eq!(there.west_m - here.west_m, 530_000.0);
    for (a, b) in here.per_hectare.iter().zip(&there.per_hectare) {
        assert!((a - b).abs() < 1e-12);
    }
}

/// The surface the slow way: every pixel by the midpoint of a fine lattice, every cell by another, the
/// edge correction by the same lattice inside the land.
#[test]
fn a_slow_direct_sum_agrees() {
    let study = study("[density]\nbandwidth = \"110 m\"\npixel = \"25 m\"\n");
    let ground = island(&study);
    let finds = vec![find(cell(11, 11), 6), find(cell(13, 12), 1)];
    let fast = surface(&study, &ground, finds.clone());
    let h = 110.0_f64;
    let fine = 20;
    let step = fast.pixel_m / f64::from(fine);
    let lattice = |low: f64, high: f64| -> Vec<f64> {
        let n = ((high - low) / step).round() as usize;
        (0..n).map(|i| low + (i as f64 + 0.5) * step).collect()
    };
    let normal = |x: f64| (-x * x / (2.0 * h * h)).exp() / (h * (2.0 * std::f64::consts::PI).sqrt());
    let mut slow = vec![0.0; fast.per_hectare.len()];
    for find in &finds {
        let ReleasedPlace::Cell(cell) = find.place else { unreachable!() };
        let (us, vs) = (lattice(cell.west_m(), cell.east_m()), lattice(cell.south_m(), cell.north_m()));
        let along = |low: f64, points: &[f64]| -> f64 {
            let xs = lattice(low, low + fast.pixel_m);
            let sum: f64 = xs.iter().flat_map(|x| points.iter().map(move |u| normal(x - u))).sum();
            sum / (xs.len() * points.len()) as f64
        };
        let x: Vec<f64> =
            (0..fast.columns).map(|i| along(fast.west_m + i as f64 * fast.pixel_m, &us)).collect();
        let y: Vec<f64> =
            (0..fast.rows).map(|j| along(fast.south_m + j as f64 * fast.pixel_m, &vs)).collect();
        let value = |i: usize, j: usize| x[i] * y[j] * fast.inside[j * fast.columns + i];
        let total: f64 = (0..fast.rows)
            .flat_map(|j| (0..fast.columns).map(move |i| (i, j)))
            .map(|(i, j)| value(i, j))
            .sum::<f64>()
            * fast.pixel_m
            * fast.pixel_m;
        for j in 0..fast.rows {
            for i in 0..fast.columns {
                slow[j * fast.columns + i] += f64::from(find.count) * value(i, j) / total * 1e4;
            }
        }
    }
    let peak = fast.per_hectare.iter().copied().fold(0.0, f64::max);
    for (a, b) in fast.per_hectare.iter().zip(&slow) {
        assert!((a - b).abs() < 5e-5 * peak, "{a} {b}");
    }
}

/// Against SciPy: `tests/expected/density.py` says how its numbers were made.
#[test]
fn an_independent_computation_agrees() {
    let study = study("[density]\nbandwidth = \"137.5 m\"\npixel = \"50 m\"\n");
    let finds = vec![
        find(cell(0, 0), 3),
        find(cell(2, 1), 10),
        find(ReleasedPlace::Cell(Cell { side_m: 1000, column: 0, row: 0 }), 7),
    ];
    let surface = surface(&study, &Ground::empty(&study), finds);
    assert_eq!(surface.pixel_m, 50.0);
    let text = include_str!("../expected/density.csv");
    let mut seen = 0;
    for line in text.lines().skip(1) {
        let field: Vec<f64> = line.split(',').map(|field| field.parse().unwrap()).collect();
        let column = ((field[0] - surface.west_m) / surface.pixel_m).round() as usize;
        let row = ((field[1] - surface.south_m) / surface.pixel_m).round() as usize;
        let value = surface.per_hectare[row * surface.columns + column];
        // The raster cuts the kernels at 6 bandwidths and makes them whole again: under 4e-9 of a value.
        assert!((value - field[2]).abs() < 1e-8 * field[2] + 1e-12, "{line}: {value}");
        seen += 1;
    }
    assert!(seen >= 100, "{seen}");
}

#[test]
fn finer_pixels_come_together() {
    let values: Vec<f64> = ["50 m", "25 m", "10 m", "5 m"]
        .iter()
        .map(|pixel| {
            let study = study(&format!("[density]\nbandwidth = \"100 m\"\npixel = \"{pixel}\"\n"));
            let surface = surface(&study, &island(&study), scatter());
            surface.per_hectare.iter().copied().fold(0.0, f64::max)
        })
        .collect();
    let steps: Vec<f64> = values.windows(2).map(|pair| (pair[1] - pair[0]).abs()).collect();
    assert!(steps[1] < steps[0] && steps[2] < steps[1] && steps[2] < 0.005 * values[3], "{values:?}");
}
