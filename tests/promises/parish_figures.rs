//! A parish has one figure: on the map, in the layer and in every table, for audiences of bands and of exact counts;
//! and figures that are exact for the whole study are met by the parishes together.

use std::collections::BTreeMap;

use geo::wkt;
use rand::{Rng, SeedableRng};
use rand_chacha::ChaCha8Rng;
use strew::analyse::{Dimension, Table, Value, cross, finds_by_parish};
use strew::coordinates::{Cell, System};
use strew::exact::{Published, Release, ReleasedFind, ReleasedPlace, Tally};
use strew::ground::{Ground, Parish, Partition};
use strew::study::vocabulary::{Class, Period, Setting, Strength};
use strew::study::{PublicStudy, Study};

fn study(counts: &str) -> PublicStudy {
    let text = format!(
        "[study]\ntitle = \"t\"\ngrid = \"british-grid\"\n[register]\nfiles = [\"f.csv\"]\n[agreement.public]\n\
         precision = \"1 km\"\nsmallest_area = \"0.01 km2\"\ncounts = \"{counts}\"\n\
         show = [\"class\", \"period\", \"count\", \"strength\", \"setting\", \"parish\"]\n"
    );
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("study.toml"), text).unwrap();
    Study::load(&folder.path().join("study.toml")).unwrap().audience("public").unwrap().clone()
}

/// Parishes whose lines cut squares.
fn ground(study: &PublicStudy) -> Ground {
    let parish = |name: &str, shape| Parish { name: name.to_owned(), also: Vec::new(), shape };
    Ground {
        system: System::BritishGrid,
        parishes: vec![
            parish("Ash", wkt!(MULTIPOLYGON(((0. 0.,2300. 0.,1700. 6000.,0. 6000.,0. 0.))))),
            parish("Birch", wkt!(MULTIPOLYGON(((2300. 0.,6000. 0.,6000. 2800.,2020. 2800.,2300. 0.))))),
            parish(
                "Elm",
                wkt!(MULTIPOLYGON(((2020. 2800.,6000. 2800.,6000. 6000.,1700. 6000.,2020. 2800.)))),
            ),
        ],
        ..Ground::empty(study)
    }
}

fn published(study: &PublicStudy, random: &mut ChaCha8Rng) -> Published {
    let rows = random.random_range(1..160);
    let pick = |random: &mut ChaCha8Rng, n: usize| random.random_range(0..n);
    let finds: Vec<ReleasedFind> = (0..rows)
        .map(|_| {
            let (column, row) = (random.random_range(0..6), random.random_range(0..6));
            ReleasedFind {
                place: match random.random_bool(0.1) {
                    true => ReleasedPlace::Parish(["Ash", "Elm"][pick(random, 2)].to_owned()),
                    false => ReleasedPlace::Cell(Cell { side_m: 1_000, column, row }),
                },
                class: Some([Class::Flake, Class::Blade, Class::Core, Class::Scraper][pick(random, 4)]),
                period: Some([Period::Mesolithic, Period::Neolithic, Period::Undated][pick(random, 3)]),
                count: if random.random_bool(0.1) {
                    random.random_range(20..90)
                } else {
                    random.random_range(1..9)
                },
                strength: Some([Strength::Weak, Strength::Strong][pick(random, 2)]),
                out_of_place: random.random_bool(0.1),
                stated_parish: None,
                setting: Some([Setting::Ploughland, Setting::Garden][pick(random, 2)]),
                details: None,
            }
        })
        .collect();
    let tally = Tally { read: rows as u64, used: rows as u64, set_aside: Default::default() };
    Release { audience: "public".to_owned(), tally, finds, withdrawn: Vec::new() }.publish(&study.agreement)
}

fn numbers(table: &Table) -> BTreeMap<String, Vec<u64>> {
    let whole = |value: &Value| match value {
        Value::Whole(n) => *n,
        other => panic!("{other:?}"),
    };
    let label = |value: &Value| match value {
        Value::Text(label) => label.clone(),
        other => panic!("{other:?}"),
    };
    let all = table.rows.iter().chain(table.totals.iter());
    all.map(|row| (label(&row[0]), row[1..].iter().map(whole).collect())).collect()
}

#[test]
fn maps_layers_and_tables_give_a_parish_one_figure() {
    let mut random = ChaCha8Rng::seed_from_u64(5);
    let (mut shared, mut met) = (0, 0);
    for round in 0..120 {
        let study = study(if round % 3 == 0 { "exact" } else { "bands" });
        let ground = ground(&study);
        let partition = Partition::fix(&study, &ground).unwrap();
        let published = published(&study, &mut random);
        let map: BTreeMap<String, u64> = finds_by_parish(&published, &partition).into_iter().collect();
        let all = published.pieces();
        let sum: u64 = map.values().sum();
        assert!(
            all.least <= sum && all.most.is_none_or(|most| sum <= most),
            "round {round}: {sum} of {all:?}"
        );
        for columns in [Dimension::Class, Dimension::Period, Dimension::Strength, Dimension::Setting] {
            let table = cross(&published, &study, &partition, &[], Dimension::Parish, columns);
            let rows = numbers(&table);
            for (parish, pieces) in &map {
                assert_eq!(rows[parish].last(), Some(pieces), "round {round}, {parish} by {columns:?}");
            }
            // Exact figures of the whole are met by the parishes together.
            let figure = |wanted: &dyn Fn(&ReleasedFind) -> bool| published.total(wanted).exact();
            let last = rows.keys().find(|label| !map.contains_key(*label)).unwrap();
            let out = table.headings.iter().position(|heading| heading == "out of place");
            if let (Some(at), Some(exact)) = (out, figure(&|find| find.out_of_place)) {
                assert_eq!(rows[last][at - 1], exact, "round {round}, out of place by {columns:?}");
                met += 1;
            }
            for class in [Class::Flake, Class::Blade, Class::Core, Class::Scraper] {
                let at = table.headings.iter().position(|heading| heading == class.name());
                let told = published.total(|find| find.class == Some(class) && !find.out_of_place);
                if let Some(at) = at {
                    let sum = rows[last][at - 1];
                    let within = told.least <= sum && told.most.is_none_or(|most| sum <= most);
                    assert!(within, "round {round}: {sum} of {class:?}, told {told:?}");
                    met += usize::from(told.exact().is_some());
                }
            }
            shared += usize::from(!table.notes.is_empty());
        }
        let turned = cross(&published, &study, &partition, &[], Dimension::Class, Dimension::Parish);
        assert_eq!(numbers(&turned).values().filter_map(|row| row.last()).max(), Some(&sum), "round {round}");
    }
    assert!(shared > 100 && met > 100, "{shared} {met}");
}
