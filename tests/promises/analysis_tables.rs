//! Concentrations and cross tables: by hand, and whole numbers that add up.

use geo::wkt;
use std::path::PathBuf;
use strew::analyse::{Dimension, Table, Value, concentrations, cross, density, finds_by_parish};
use strew::coordinates::Cell;
use strew::exact::{ReleasedFind, ReleasedPlace};
use strew::ground::{Ground, Parish, Partition};
use strew::study::vocabulary::{Class, Period};
use strew::study::{PublicStudy, Study};

use super::analysis::{cell, find, published, scatter, study};

fn kinds(more: &[(Class, Period)]) -> Vec<ReleasedFind> {
    // A tight patch of 60 pieces, a lesser one of 20, a thin background.
    let mut finds = Vec::new();
    for (index, (class, period)) in more.iter().enumerate() {
        let index = index as i32;
        let mut one = find(cell(20 + index % 2, 20), 30);
        (one.class, one.period) = (Some(*class), Some(*period));
        finds.push(one);
        let mut two = find(cell(60, 40 + index % 2), 10);
        (two.class, two.period) = (Some(*class), Some(*period));
        finds.push(two);
        finds.push(find(cell(5 + 20 * index, 70), 1));
    }
    finds
}

#[test]
fn concentrations_by_hand() {
    let study = study("[density]\nbandwidth = \"100 m\"\n[concentrations]\nshare = 0.6\nsmallest = 5\n");
    let mut finds = kinds(&[(Class::Flake, Period::Undated), (Class::Blade, Period::LateMesolithic)]);
    let mut astray = find(cell(20, 20), 500);
    astray.out_of_place = true;
    finds.push(astray);
    finds.push(find(ReleasedPlace::Cell(Cell { side_m: 1000, column: 2, row: 2 }), 8));
    let published = published(&study, finds);
    let surface = density(&published, &study, &Ground::empty(&study)).unwrap().unwrap();
    let found = concentrations(&published, &study, &Ground::empty(&study), &surface).unwrap().list;
    let letters: Vec<&str> = found.iter().map(|patch| patch.letter.as_str()).collect();
    assert_eq!(letters, ["A", "B"]);
    let (a, b) = (&found[0], &found[1]);
    assert_eq!((a.pieces, b.pieces), (60, 20), "what is out of place is in none");
    assert_eq!(a.may_hold, 8, "the kilometre square overlaps A");
    assert_eq!(a.by_class[&Some(Class::Blade)], 30);
    assert_eq!(a.by_period[&Some(Period::LateMesolithic)], 30);
    assert_eq!(a.hectares, a.cells.len() as f64);
    assert!(a.cells.contains(&Cell { side_m: 100, column: 20, row: 20 }));
    assert_eq!(geo::Area::unsigned_area(&a.outline), a.hectares * 1e4);
    assert!(a.peak_per_hectare > b.peak_per_hectare);
    // The region holds the share it should, and would not without its thinnest square.
    let strict = {
        let mut strict = study.clone();
        strict.concentrations.smallest = 0;
        strict
    };
    let all = concentrations(&published, &strict, &Ground::empty(&study), &surface).unwrap().list;
    let cells: std::collections::BTreeSet<Cell> = all.iter().flat_map(|p| p.cells.clone()).collect();
    let mut held = std::collections::BTreeMap::new();
    for row in 0..surface.rows {
        for column in 0..surface.columns {
            let e = surface.west_m + (column as f64 + 0.5) * surface.pixel_m;
            let n = surface.south_m + (row as f64 + 0.5) * surface.pixel_m;
            let cell = Cell::holding(e, n, 100).unwrap();
            if cells.contains(&cell) {
                *held.entry(cell).or_insert(0.0) +=
                    surface.per_hectare[row * surface.columns + column] * surface.pixel_m.powi(2) / 1e4;
            }
        }
    }
    let total: f64 = held.values().sum();
    let thinnest = held.values().copied().fold(f64::MAX, f64::min);
    assert!(total >= 0.6 * surface.pieces - 1e-9);
    // Symmetric squares come together: no more than a handful are as thin as the thinnest.
    assert!(total - 8.0 * thinnest < 0.6 * surface.pieces);
}

#[test]
fn an_audience_shown_parishes_alone_gets_no_concentrations() {
    let text = "[study]\ntitle = \"T\"\n[register]\nfiles = [\"f.csv\"]\n[agreement.public]\nprecision = \"parish\"\n";
    let parish = Study::parse(text, PathBuf::from(".")).unwrap().audience("public").unwrap().clone();
    let square = study("");
    let published = published(&square, scatter());
    let surface = density(&published, &square, &Ground::empty(&square)).unwrap().unwrap();
    assert!(concentrations(&published, &parish, &Ground::empty(&square), &surface).unwrap().list.is_empty());
}

fn parishes(study: &PublicStudy) -> Ground {
    let parish = |name: &str, shape| Parish { name: name.to_owned(), also: Vec::new(), shape };
    Ground {
        parishes: vec![
            parish("Ash", wkt!(MULTIPOLYGON(((0. 0.,1030. 0.,1030. 2000.,0. 2000.,0. 0.))))),
            parish("Birch", wkt!(MULTIPOLYGON(((1030. 0.,2000. 0.,2000. 2000.,1030. 2000.,1030. 0.))))),
            parish("Elm", wkt!(MULTIPOLYGON(((2000. 0.,3000. 0.,3000. 2000.,2000. 2000.,2000. 0.))))),
        ],
        ..Ground::empty(study)
    }
}

fn numbers(table: &Table) -> (Vec<Vec<u64>>, Vec<u64>) {
    let whole = |row: &Vec<Value>| -> Vec<u64> {
        row.iter()
            .skip(1)
            .map(|value| match value {
                Value::Whole(n) => *n,
                other => panic!("{other:?} is not a whole number"),
            })
            .collect()
    };
    (table.rows.iter().map(whole).collect(), whole(table.totals.as_ref().unwrap()))
}

fn labels(table: &Table) -> Vec<String> {
    table
        .rows
        .iter()
        .map(|row| match &row[0] {
            Value::Text(text) => text.clone(),
            _ => panic!(),
        })
        .collect()
}

fn adds_up(table: &Table) {
    let (rows, totals) = numbers(table);
    for row in &rows {
        assert_eq!(row.len() + 1, table.headings.len());
        assert_eq!(row[..row.len() - 1].iter().sum::<u64>(), row[row.len() - 1]);
    }
    for (index, total) in totals.iter().enumerate() {
        assert_eq!(rows.iter().map(|row| row[index]).sum::<u64>(), *total);
    }
}

#[test]
fn class_by_period_by_hand() {
    let study = study("");
    let ground = parishes(&study);
    let partition = Partition::fix(&study, &ground).unwrap();
    let of = |class, period, count| ReleasedFind {
        class: Some(class),
        period: Some(period),
        ..find(cell(1, 1), count)
    };
    let mut astray = of(Class::Core, Period::LateMesolithic, 2);
    astray.out_of_place = true;
    let finds = vec![
        of(Class::LeafArrowhead, Period::EarlyNeolithic, 1),
        of(Class::Arrowhead, Period::Neolithic, 1),
        of(Class::Flake, Period::Undated, 40),
        of(Class::Flake, Period::LateMesolithic, 5),
        of(Class::Flake, Period::Prehistoric, 3),
        astray,
    ];
    let published = published(&study, finds);
    let table = cross(&published, &study, &partition, &[], Dimension::Class, Dimension::Period);
    assert_eq!(table.name, "class-by-period");
    assert_eq!(
        table.headings,
        [
            "class",
            "Late Mesolithic",
            "Neolithic",
            "Early Neolithic",
            "prehistoric",
            "undated",
            "out of place",
            "total"
        ]
    );
    assert_eq!(labels(&table), ["flake", "core", "arrowhead", "leaf arrowhead"]);
    let (rows, totals) = numbers(&table);
    assert_eq!(rows[0], [5, 0, 0, 3, 40, 0, 48]);
    assert_eq!(rows[1], [0, 0, 0, 0, 0, 2, 2]);
    assert_eq!(totals, [5, 1, 1, 3, 40, 2, 52]);
    assert_eq!(*totals.last().unwrap(), published.pieces().near);
    adds_up(&table);
    assert_eq!(table.notes.len(), 3, "{:?}", table.notes);
    assert!(table.notes.iter().all(|note| !note.contains("tables-")));
}

#[test]
fn parish_tables_share_by_area_and_keep_every_column() {
    let study = study("");
    let ground = parishes(&study);
    let partition = Partition::fix(&study, &ground).unwrap();
    let of = |place, class, count| ReleasedFind { class: Some(class), ..find(place, count) };
    // Cell (10, 3) is 30% Ash and 70% Birch.
    let finds = vec![
        of(cell(10, 3), Class::Flake, 5),
        of(cell(10, 3), Class::Blade, 1),
        of(cell(1, 1), Class::Flake, 2),
        of(ReleasedPlace::Parish("Birch".into()), Class::Core, 3),
        of(cell(900, 900), Class::Core, 1),
    ];
    let published = published(&study, finds);
    let table = cross(&published, &study, &partition, &[], Dimension::Parish, Dimension::Class);
    assert_eq!(labels(&table), ["Ash", "Birch", "Elm", "parish not known"]);
    assert_eq!(table.headings, ["parish", "flake", "blade", "core", "total"]);
    let (rows, totals) = numbers(&table);
    // Flakes: Ash 2 + 1.5, Birch 3.5, alike: the first by name rounds up. Blade: 0.3 and 0.7.
    assert_eq!(rows, [vec![4, 0, 0, 4], vec![3, 1, 3, 7], vec![0, 0, 0, 0], vec![0, 0, 1, 1]]);
    assert_eq!(totals, [7, 1, 4, 12]);
    adds_up(&table);
    let turned = cross(&published, &study, &partition, &[], Dimension::Class, Dimension::Parish);
    adds_up(&turned);
    assert_eq!(numbers(&turned).0.iter().map(|row| row[4]).collect::<Vec<_>>(), [7, 1, 4]);
    let exact = finds_by_parish(&published, &partition);
    let names: Vec<&str> = exact.iter().map(|(name, _)| name.as_str()).collect();
    assert_eq!(names, ["Ash", "Birch", "Elm"]);
    // 3.8 and 7.2, as whole numbers: those of the table.
    assert_eq!(exact.iter().map(|(_, pieces)| *pieces).collect::<Vec<_>>(), [4, 7, 0]);
}

#[test]
fn a_stated_parish_is_used_where_it_is_shown_and_what_is_not_shown_gives_no_rows() {
    let shown = study("show = [\"class\", \"count\", \"stated-parish\"]\n");
    let ground = parishes(&shown);
    let partition = Partition::fix(&shown, &ground).unwrap();
    let mut one = find(cell(1, 1), 2);
    one.stated_parish = Some("Elm".into());
    one.period = None;
    let finds = published(&shown, vec![one]);
    assert_eq!(finds_by_parish(&finds, &partition)[2], ("Elm".to_owned(), 2));
    let table = cross(&finds, &shown, &partition, &[], Dimension::Class, Dimension::Period);
    assert!(table.rows.is_empty());
}

#[test]
fn concentration_by_class_adds_up_to_everything() {
    let study = study("[density]\nbandwidth = \"100 m\"\n[concentrations]\nshare = 0.6\n");
    let ground = Ground::empty(&study);
    let partition = Partition::fix(&study, &ground).unwrap();
    let published =
        published(&study, kinds(&[(Class::Flake, Period::Undated), (Class::Blade, Period::Neolithic)]));
    let surface = density(&published, &study, &ground).unwrap().unwrap();
    let found = concentrations(&published, &study, &Ground::empty(&study), &surface).unwrap().list;
    let table = cross(&published, &study, &partition, &found, Dimension::Concentration, Dimension::Class);
    assert_eq!(labels(&table), ["A", "B", "elsewhere"]);
    let (rows, totals) = numbers(&table);
    assert_eq!(rows, [vec![30, 30, 60], vec![10, 10, 20], vec![2, 0, 2]]);
    assert_eq!(*totals.last().unwrap(), published.pieces().near);
    adds_up(&table);
}

#[test]
fn tables_in_french() {
    let study = study("");
    let french = PublicStudy { language: strew::words::Language::French, ..study.clone() };
    let ground = parishes(&study);
    let partition = Partition::fix(&study, &ground).unwrap();
    let finds = published(&study, scatter());
    let table = cross(&finds, &french, &partition, &[], Dimension::Parish, Dimension::Period);
    assert_eq!(table.name, "parish-by-period", "file names are the same in every language");
    assert_eq!(table.headings[0], "commune");
}
