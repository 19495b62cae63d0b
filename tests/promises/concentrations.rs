//! Concentrations: what is planted is found, chance alone is not, and neither threads nor the order of rows
//! change a digit.

use gdal::Metadata as _;
use geo::{MultiPolygon, wkt};
use rand::{Rng, SeedableRng, seq::SliceRandom};
use rand_chacha::ChaCha8Rng;
use rayon::prelude::*;
use strew::analyse::{
    Concentrations, Dimension, Over, Value, concentration_table, concentrations, cross, density, trials,
};
use strew::coordinates::{Cell, Converter, System};
use strew::exact::{Release, ReleasedFind, ReleasedPlace, Tally};
use strew::ground::{Ground, Partition, Walked};
use strew::run::{Analysis, one_analysis};
use strew::sheet::{Scene, Sheet, compare_bandwidths};
use strew::study::PublicStudy;
use strew::study::vocabulary::{Class, Period};
use strew::words::Language;

use super::analysis::{cell, find, published, study};
use super::common::Silent;

/// Ground of 12 by 10 squares of a hectare, a corner bitten out of it: 102 squares.
fn ground(study: &PublicStudy) -> Ground {
    let land: MultiPolygon<f64> = wkt!(MULTIPOLYGON(((
        2000. 1000.,3200. 1000.,3200. 1700.,2600. 1700.,2600. 2000.,2000. 2000.,2000. 1000.
    ))));
    Ground { land, ..Ground::empty(study) }
}

fn on_land(column: i32, row: i32) -> bool {
    (20..32).contains(&column) && (10..20).contains(&row) && (row < 17 || column < 26)
}

/// A square of the ground, each as likely.
fn anywhere(random: &mut ChaCha8Rng) -> (i32, i32) {
    loop {
        let (column, row) = (random.random_range(20..32), random.random_range(10..20));
        if on_land(column, row) {
            return (column, row);
        }
    }
}

/// Records scattered evenly: single pieces, some bags, and some in larger squares.
fn even(random: &mut ChaCha8Rng, records: usize) -> Vec<ReleasedFind> {
    (0..records)
        .map(|index| {
            let (column, row) = anywhere(random);
            match index % 8 {
                0 => find(cell(column, row), 12),
                1 => {
                    let place = Cell { side_m: 500, column: column / 5, row: row / 5 };
                    find(ReleasedPlace::Cell(place), 2)
                }
                _ => find(cell(column, row), 1 + index as u32 % 3),
            }
        })
        .collect()
}

fn found(study: &PublicStudy, ground: &Ground, finds: Vec<ReleasedFind>) -> Concentrations {
    let published = published(study, finds);
    let surface = density(&published, study, ground).unwrap().unwrap();
    concentrations(&published, study, ground, &surface).unwrap()
}

const ENVELOPE: &str = "bound = \"envelope\"\nsimulations = 99\n";

fn with(more: &str) -> PublicStudy {
    study(&format!(
        "[density]\nbandwidth = \"120 m\"\npixel = \"50 m\"\n[concentrations]\nsmallest = 0\n{more}"
    ))
}

/// The chance that an even scatter shows a concentration somewhere is the level: over 1,000 patterns 5%,
/// give or take twice the standard error of 0.7%.
#[test]
fn the_global_envelope_cries_wolf_in_one_case_of_twenty() {
    let study = with(&format!("{ENVELOPE}resamples = 0\n"));
    let ground = ground(&study);
    let alarms = (0..1_000u64)
        .into_par_iter()
        .filter(|pattern| {
            let mut random = ChaCha8Rng::seed_from_u64(pattern + 1_000_000);
            let mut study = study.clone();
            // Each pattern is judged by scatters of its own.
            study.concentrations.seed = *pattern;
            let found = found(&study, &ground, even(&mut random, 40));
            let p = found.test.unwrap().p;
            assert_eq!(found.list.is_empty(), p > 0.05 + 1e-9, "{p}");
            !found.list.is_empty()
        })
        .count();
    assert!((36..=64).contains(&alarms), "{alarms} of 1000");
}

fn two_clusters() -> Vec<ReleasedFind> {
    let mut finds = Vec::new();
    for step in 0..24 {
        finds.push(find(cell(22 + step % 2, 12 + step / 12), 2));
        finds.push(find(cell(29, 14 + step % 2), 1));
    }
    finds.extend([(20, 19), (25, 16), (31, 10), (26, 11)].map(|(column, row)| find(cell(column, row), 1)));
    finds
}

#[test]
fn neither_threads_nor_the_order_of_rows_change_a_digit() {
    for more in ["", ENVELOPE, "bound = \"envelope\"\nsimulations = 99\nenvelope = \"pointwise\"\n"] {
        let study = with(&format!("{more}resamples = 40\n"));
        let ground = ground(&study);
        let mut finds = two_clusters();
        finds.push(find(ReleasedPlace::Cell(Cell { side_m: 1000, column: 2, row: 1 }), 5));
        let in_threads = |threads: usize, finds: Vec<ReleasedFind>| {
            let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
            pool.install(|| found(&study, &ground, finds))
        };
        let one = in_threads(1, finds.clone());
        assert!(one.list.len() >= 2, "{more}");
        assert_eq!(one, in_threads(3, finds.clone()));
        finds.shuffle(&mut ChaCha8Rng::seed_from_u64(3));
        assert_eq!(one, in_threads(2, finds), "{more}");
    }
}

#[test]
fn two_clear_clusters_stay_and_an_even_scatter_does_not() {
    let study = with("resamples = 200\nshare = 0.75\n");
    let ground = ground(&study);
    let clear = found(&study, &ground, two_clusters());
    assert_eq!(clear.list.iter().map(|patch| patch.letter.as_str()).collect::<Vec<_>>(), ["A", "B"]);
    for patch in &clear.list {
        assert!(patch.firm().unwrap() >= 0.9, "{}: {:?}", patch.letter, patch.stays);
    }
    let mut firm = Vec::new();
    for seed in 0..10 {
        let mut random = ChaCha8Rng::seed_from_u64(seed);
        let finds = (0..48).map(|_| anywhere(&mut random)).map(|(c, r)| find(cell(c, r), 1)).collect();
        firm.extend(found(&study, &ground, finds).list.iter().filter_map(|patch| patch.firm()));
    }
    let mean = firm.iter().sum::<f64>() / firm.len() as f64;
    assert!(mean < 0.75, "{mean}");
}

/// Two days' walks of many records each: drawn by walks, a cluster of one walk is gone in a quarter and more of
/// the resamples (both draws fall on the other walk in 1 of 4); drawn by records it hardly ever is.
#[test]
fn resamples_draw_whole_walks_where_days_and_finders_are_shown() {
    let study = with("resamples = 400\nshare = 0.9\n");
    let ground = ground(&study);
    let finds = |dated: bool| -> Vec<ReleasedFind> {
        (0..40)
            .map(|index| {
                let first = index % 2 == 0;
                let mut one = find(if first { cell(21, 11) } else { cell(30, 15) }, 1);
                one.details = Some(Box::default());
                if let (true, Some(details)) = (dated, &mut one.details) {
                    details.date = Some(if first { "2020-02-01" } else { "2021-03-01" }.to_owned());
                    details.finder = Some("A. Finder".to_owned());
                }
                one
            })
            .collect()
    };
    let firm = |dated| found(&study, &ground, finds(dated)).list[0].firm().unwrap();
    assert!((0.65..0.85).contains(&firm(true)), "{}", firm(true));
    assert!(firm(false) > 0.95, "{}", firm(false));
}

#[test]
fn a_planted_cluster_is_found_with_its_area_and_count() {
    let study = with("bound = \"envelope\"\nsimulations = 199\nresamples = 100\n");
    let ground = ground(&study);
    let mut random = ChaCha8Rng::seed_from_u64(5);
    let mut finds: Vec<ReleasedFind> =
        (0..60).map(|_| anywhere(&mut random)).map(|(c, r)| find(cell(c, r), 1)).collect();
    // Nine squares, nine records of one piece each.
    finds.extend((0..81).map(|step| find(cell(27 + step % 3, 12 + step / 27), 1)));
    let found = found(&study, &ground, finds.clone());
    assert_eq!(found.list.len(), 1, "{:?}", found.list.iter().map(|p| &p.cells).collect::<Vec<_>>());
    let a = &found.list[0];
    assert_eq!(a.letter, "A");
    for column in 27..30 {
        for row in 12..15 {
            assert!(a.cells.contains(&Cell { side_m: 100, column, row }), "{column} {row}");
        }
    }
    // Nine hectares, and what the kernel lays beside them.
    assert!((9.0..=25.0).contains(&a.hectares), "{}", a.hectares);
    let held = |find: &&ReleasedFind| a.cells.iter().any(|cell| find.place == ReleasedPlace::Cell(*cell));
    assert_eq!(a.pieces, finds.iter().filter(held).count() as u64);
    assert!((81..=105).contains(&a.pieces), "{}", a.pieces);
    // One in two hundred is the least that 199 simulations can give.
    let chance = a.chance.unwrap();
    assert_eq!((chance.global, chance.pointwise), (0.005, 0.005));
    assert_eq!(found.test.unwrap().p, 0.005);
    assert_eq!(found.test.unwrap().over, Over::Land);
    assert!(a.firm().unwrap() > 0.9);
}

/// Records that lie evenly over walked fields are thick beside the land, and are no concentration of the fields.
#[test]
fn walked_ground_is_what_finds_are_scattered_over() {
    let study = with("bound = \"envelope\"\nsimulations = 199\nresamples = 0\n");
    let land = ground(&study);
    let field: MultiPolygon<f64> =
        wkt!(MULTIPOLYGON(((2000. 1000.,2500. 1000.,2500. 1500.,2000. 1500.,2000. 1000.))));
    let mut walked = land.clone();
    walked.walked = vec![Walked { name: None, shape: field, cover: Some(0.5) }];
    let mut random = ChaCha8Rng::seed_from_u64(9);
    let mut finds: Vec<ReleasedFind> =
        (0..100).map(|_| find(cell(random.random_range(20..25), random.random_range(10..15)), 1)).collect();
    // Somebody picked one up elsewhere: that square is ground too.
    finds.push(find(cell(30, 15), 1));
    let over_land = found(&study, &land, finds.clone());
    assert!(over_land.test.unwrap().p <= 0.01);
    let over_fields = found(&study, &walked, finds);
    assert_eq!(over_fields.test.unwrap().over, Over::Walked);
    assert!(over_fields.test.unwrap().p > 0.05, "{}", over_fields.test.unwrap().p);
    assert!(over_fields.list.is_empty());
}

#[test]
fn an_envelope_needs_ground() {
    let study = with(ENVELOPE);
    let nowhere = Ground::empty(&study);
    let published = published(&study, two_clusters());
    let surface = density(&published, &study, &nowhere).unwrap().unwrap();
    let fault = concentrations(&published, &study, &nowhere, &surface).unwrap_err();
    assert_eq!(fault.id, "analyse-no-ground-for-envelope");
}

#[test]
fn prominence_parts_neighbours_and_joins_them() {
    // Two clusters 400 m apart under one hill's foot.
    let finds = || -> Vec<ReleasedFind> {
        let ridge = (24..29).map(|column| find(cell(column, 13), if column == 26 { 4 } else { 8 }));
        ridge.chain([find(cell(24, 13), 20), find(cell(28, 13), 16)]).collect()
    };
    let letters = |prominence: &str| -> usize {
        let study = study(&format!(
            "[density]\nbandwidth = \"60 m\"\npixel = \"25 m\"\n\
             [concentrations]\nshare = 0.9\nresamples = 0\nprominence = {prominence}\n"
        ));
        found(&study, &ground(&study), finds()).list.len()
    };
    assert_eq!(letters("0.2"), 2);
    assert_eq!(letters("0.9"), 1);
    assert_eq!(letters("\"1 per hectare\""), 2);
    assert_eq!(letters("\"50 per hectare\""), 1);
}

#[test]
fn the_table_tells_bands_and_no_density_of_a_single_square() {
    let study = with("resamples = 50\nshare = 0.9\n");
    let ground = ground(&study);
    let mut finds = two_clusters();
    finds.retain(|find| find.count == 2);
    // One square alone, far off.
    finds.push(find(cell(31, 11), 30));
    let published = published(&study, finds.clone());
    let found = found(&study, &ground, finds);
    let mut told = study.clone();
    told.agreement.exact_counts = false;
    let table = concentration_table(&found, &published, &told);
    let alone = found.list.iter().position(|patch| patch.pieces == 30).unwrap();
    let several = found.list.iter().position(|patch| patch.pieces == 48).unwrap();
    assert_eq!(table.rows[alone][2], Value::Text("10–49".to_owned()));
    assert_eq!((&table.rows[alone][4], &table.rows[alone][5]), (&Value::Empty, &Value::Empty));
    assert_eq!(table.rows[several][2], Value::Whole(48));
    assert!(matches!(table.rows[several][4], Value::Number(n, _) if n > 0.0));
    assert!(table.rows.iter().all(|row| row.len() == table.headings.len()));
    assert!(table.notes.iter().all(|note| !note.contains("patches-")), "{:?}", table.notes);
}

/// Told as bands, a patch has one number in all tables, a class stays within its figure, and a density within what
/// it leaves out.
#[test]
fn estimates_of_patches_agree_and_keep_to_what_is_told() {
    let mut study = with("resamples = 0\nshare = 0.9\n");
    study.agreement.exact_counts = false;
    let ground = ground(&study);
    let partition = Partition::fix(&study, &ground).unwrap();
    let mut finds = two_clusters();
    finds.retain(|find| find.count == 2);
    // One square alone, far off, and finds that are in no square.
    finds.push(find(cell(31, 11), 30));
    finds.extend((0..20).map(|_| find(ReleasedPlace::Parish("Ash".to_owned()), 3)));
    for (index, find) in finds.iter_mut().enumerate() {
        find.class = Some([Class::Flake, Class::Blade, Class::Core][index % 3]);
        find.period = Some([Period::Undated, Period::Neolithic][index % 2]);
    }
    let published = published(&study, finds.clone());
    let surface = density(&published, &study, &ground).unwrap().unwrap();
    let found = found(&study, &ground, finds);
    let list = concentration_table(&found, &published, &study);
    assert!(list.rows.iter().any(|row| row[2] == Value::Text("10–49".to_owned())), "{:?}", list.rows);
    for columns in [Dimension::Class, Dimension::Period] {
        let table = cross(&published, &study, &partition, &found.list, Dimension::Concentration, columns);
        for (patch, row) in list.rows.iter().zip(&table.rows) {
            assert_eq!((&patch[0], Some(&patch[2])), (&row[0], row.last()), "by {columns:?}");
        }
    }
    let table =
        cross(&published, &study, &partition, &found.list, Dimension::Concentration, Dimension::Class);
    for class in [Class::Flake, Class::Blade, Class::Core] {
        let at = table.headings.iter().position(|heading| heading == class.name()).unwrap();
        let told = published.total(|find| find.class == Some(class) && !find.out_of_place);
        let Value::Whole(sum) = table.totals.as_ref().unwrap()[at] else { panic!("{class:?}") };
        assert!(told.least <= sum && told.most.is_none_or(|most| sum <= most), "{class:?} {sum} {told:?}");
    }
    if let Some(all) = published.pieces().exact() {
        let others = surface.left_out_by_parish + surface.made.left_off_land;
        assert!(surface.held.most.is_some_and(|most| most <= all - others.least), "{:?}", surface.held);
    }
}

/// What `strew density --compare-bandwidths` writes.
#[test]
fn density_writes_surface_contours_table_and_bandwidths_side_by_side() {
    let mut study = study(
        "give = [\"maps\", \"tables\", \"density\"]\n[density]\nbandwidth = \"120 m\"\n[sheets]\ndpi = 72\n",
    );
    let ground = ground(&study);
    let finds = two_clusters();
    let tally = Tally { read: 52, used: 52, ..Tally::default() };
    let release = Release { audience: "public".to_owned(), tally, finds, withdrawn: Vec::new() };
    for language in [Language::English, Language::French] {
        study.language = language;
        let made = || {
            let kind = Analysis::Density { compare: true };
            one_analysis(kind, &study, &ground, &release, &Silent).unwrap()
        };
        let pack = made();
        assert_eq!(pack, made(), "the same bytes each time");
        let text = |path: &str| String::from_utf8(pack.files()[path].clone()).unwrap();

        // Small maps from the narrowest to the widest, each with its bandwidth.
        let table = text("tables/bandwidths.csv");
        assert!(table.lines().count() >= 5, "{table}");
        let numbers: Vec<f64> = table
            .lines()
            .skip(1)
            .map(|line| {
                let fields: Vec<&str> =
                    line.split(if language == Language::French { ';' } else { ',' }).collect();
                fields[fields.len() - 3].parse().unwrap()
            })
            .collect();
        assert!(
            numbers.is_sorted() && [60.0, 120.0, 240.0].iter().all(|h| numbers.contains(h)),
            "{numbers:?}"
        );
        let sheet = compared(&study, &ground, &release);
        for (number, metres) in numbers.iter().enumerate() {
            assert!(sheet.svg.contains(&format!("id=\"map-{}\"", number + 1)));
            let svg = sheet.svg.replace('\u{a0}', " ");
            assert!(svg.contains(&format!("{metres:.0} m<")), "{metres}");
        }
        assert!(
            !sheet.svg.contains(&format!("\"map-{}\"", numbers.len() + 1)) && !sheet.svg.contains("sheet-")
        );
        for ending in ["svg", "png", "pdf"] {
            assert!(pack.files().contains_key(&format!("maps/bandwidths.{ending}")));
        }

        // Contours at round levels, on land alone.
        let contours: serde_json::Value =
            serde_json::from_slice(&pack.files()["layers/contours.geojson"]).unwrap();
        assert_eq!(contours["bandwidth_m"], 120);
        assert_eq!(contours["cell_sides_m"], 100);
        let back = Converter::new(&System::Wgs84, &study.grid).unwrap();
        let features = contours["features"].as_array().unwrap();
        assert!(features.len() >= 3);
        for feature in features {
            let level = feature["properties"]["pieces_per_hectare"].as_f64().unwrap();
            let lead = level / 10f64.powf(level.log10().floor());
            assert!([1.0, 2.0, 5.0].iter().any(|round| (lead - round).abs() < 1e-9), "{level}");
            for line in feature["geometry"]["coordinates"].as_array().unwrap() {
                for place in line.as_array().unwrap() {
                    let degree = |at: usize| place[at].as_f64().unwrap();
                    let (easting, northing) = back.convert_xy(degree(0), degree(1)).unwrap();
                    // Four decimals are some ten metres.
                    let near = |v: f64, step: i32| ((v + f64::from(step) * 1.5) / 100.0).floor() as i32;
                    let on = (-1..=1).any(|e| (-1..=1).any(|n| on_land(near(easting, e), near(northing, n))));
                    assert!(on, "{easting} {northing}");
                }
            }
        }

        // The statistics travel in the surface.
        let path = format!("/vsimem/statistics-{}.tif", language.code());
        gdal::vsi::create_mem_file(&path, pack.files()["layers/density.tif"].clone()).unwrap();
        let dataset = gdal::Dataset::open(&path).unwrap();
        let said = |key: &str| dataset.metadata_item(key, "").unwrap_or_default();
        assert_eq!(
            (said("BANDWIDTH_M"), said("PIECES"), said("CELL_SIDES_M")),
            ("120".into(), "76".into(), "100".into())
        );
        assert!(
            said("EDGE").contains("itself") && said("KERNEL") == "gaussian" && !said("PIXEL_M").is_empty()
        );
    }
}

fn compared(study: &PublicStudy, ground: &Ground, release: &Release) -> Sheet {
    let published = release.publish(&study.agreement);
    let tried = trials(&published, study, ground).unwrap();
    assert_eq!(tried.iter().filter(|trial| trial.chosen).count(), 1);
    for trial in &tried {
        assert!((trial.surface.pieces - 76.0).abs() < 1e-6, "the same finds in each");
    }
    let scene = Scene {
        study,
        ground,
        published: &published,
        parishes: &[],
        surface: None,
        concentrations: &[],
        even: None,
        ladder: None,
        class: None,
        period: None,
    };
    compare_bandwidths(&tried, &scene).unwrap().remove(0)
}

/// What `strew concentrations` writes: outlines along the edges of squares, and a row each.
#[test]
fn concentrations_are_written_with_how_they_were_found() {
    let study = study(&format!(
        "give = [\"maps\", \"tables\", \"concentrations\"]\n[density]\nbandwidth = \"120 m\"\n[sheets]\ndpi = 72\n\
         [concentrations]\n{ENVELOPE}resamples = 20\nseed = 8\n"
    ));
    let ground = ground(&study);
    let release = Release {
        audience: "public".to_owned(),
        tally: Tally::default(),
        finds: two_clusters(),
        withdrawn: Vec::new(),
    };
    let pack = one_analysis(Analysis::Concentrations, &study, &ground, &release, &Silent).unwrap();
    let layer: serde_json::Value =
        serde_json::from_slice(&pack.files()["layers/concentrations.geojson"]).unwrap();
    let said = ["bound", "simulations", "level", "seed", "resamples", "scattered_over"]
        .map(|key| layer[key].clone());
    let expected = serde_json::json!(["global envelope", 99, 0.05, 8, 20, "land"]);
    assert_eq!(serde_json::Value::from(said.to_vec()), expected);
    let features = layer["features"].as_array().unwrap();
    assert!(features.len() >= 2);
    let first = &features[0]["properties"];
    assert_eq!((&first["letter"], &first["pieces"]), (&"A".into(), &"48".into()));
    assert_eq!(first["p_global"], 0.01, "one in a hundred is the least that 99 simulations can give");
    assert!(first["firm"].as_f64().unwrap() > 0.9 && first["per_hectare"].as_f64().unwrap() > 1.0);
    let table = String::from_utf8(pack.files()["tables/concentrations.csv"].clone()).unwrap();
    assert_eq!(table.lines().count(), 1 + features.len(), "{table}");
    assert!(!pack.files().contains_key("layers/density.tif"), "the surface is not given");
}
