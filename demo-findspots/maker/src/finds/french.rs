//! A summer visitor's table: eastings and northings under French headings, semicolons, decimal commas,
//! Windows-1252.

use rand::Rng;
use rand_chacha::ChaCha12Rng;
use strew::study::vocabulary::{Class, Mark, Period, Setting, Standing};

use super::faults::{Line, Lines};
use super::{Find, Written};
use crate::island::Island;

const HEADINGS: [&str; 16] = [
    "N°",
    "Désignation",
    "Datation",
    "Nombre",
    "Est (m)",
    "Nord (m)",
    "Paroisse",
    "Contexte",
    "En place",
    "Stigmates",
    "Longueur (mm)",
    "Poids (g)",
    "Matière",
    "Date de découverte",
    "Inventeur",
    "Remarques",
];
const OBJECT: usize = 1;
const COUNT: usize = 3;
const EAST: usize = 4;
const NORTH: usize = 5;
const PARISH: usize = 6;
const LENGTH: usize = 10;
const NOTES: usize = 15;

pub fn write(
    island: &Island,
    finds: Vec<Find>,
    rng: &mut ChaCha12Rng,
) -> Result<Written, Box<dyn std::error::Error>> {
    let mut table = Lines { lines: Vec::new() };
    for (i, find) in finds.into_iter().enumerate() {
        let cells = row(&find, i + 1, rng);
        table.lines.push(Line { cells, find: Some(find), faults: Vec::new() });
    }
    plant(island, &mut table, rng);
    let mut writer =
        csv::WriterBuilder::new().delimiter(b';').terminator(csv::Terminator::CRLF).from_writer(Vec::new());
    writer.write_record(HEADINGS)?;
    for line in &table.lines {
        writer.write_record(&line.cells)?;
    }
    let text = String::from_utf8(writer.into_inner()?)?;
    let (bytes, _, lost) = encoding_rs::WINDOWS_1252.encode(&text);
    if lost {
        return Err("a letter of the French table is not in Windows-1252".into());
    }
    Ok(Written { name: "finds-visitor.csv", bytes: bytes.into_owned(), faults: table.faults(1) })
}

fn comma(value: f64) -> String {
    format!("{value:.1}").replace('.', ",")
}

fn row(find: &Find, number: usize, rng: &mut ChaCha12Rng) -> Vec<String> {
    let tenths = rng.random_bool(0.3);
    let metres = |value: f64| if tenths { comma(value) } else { format!("{value:.0}") };
    let words: Vec<&str> = find
        .marks
        .list()
        .map(|mark| match mark {
            Mark::Platform => "talon",
            Mark::Bulb => "bulbe",
            Mark::Ripples => "ondes",
            Mark::DorsalScars => "nervures",
            Mark::Retouch => "retouche",
        })
        .collect();
    let day = find.day;
    vec![
        format!("HK {number:04}"),
        designation(find.class).to_owned(),
        datation(find.period).to_owned(),
        find.count.to_string(),
        metres(find.at.x),
        metres(find.at.y),
        find.parish.to_owned(),
        contexte(find.setting).to_owned(),
        if find.standing == Standing::Disturbed { "remanié".to_owned() } else { String::new() },
        words.join(", "),
        find.length_mm.map_or(String::new(), |mm| mm.to_string()),
        find.weight_g.map_or(String::new(), comma),
        matiere(find.material).to_owned(),
        format!("{:02}/{:02}/{}", day.day, day.month, day.year),
        find.finder.to_owned(),
        if rng.random_bool(0.05) { "patine blanche".to_owned() } else { String::new() },
    ]
}

fn designation(class: Class) -> &'static str {
    match class {
        Class::Flake => "éclat",
        Class::Chip => "esquille",
        Class::IrregularWaste => "débris",
        Class::Blade => "lame",
        Class::Bladelet => "lamelle",
        Class::Core => "nucléus",
        Class::CoreTrimming => "lame à crête",
        Class::Retouched => "éclat retouché",
        Class::Scraper => "grattoir",
        Class::ThumbnailScraper => "grattoir unguiforme",
        Class::Piercer => "perçoir",
        Class::Burin => "burin",
        Class::Notch => "encoche",
        Class::Truncation => "troncature",
        Class::Serrated => "microdenticulé",
        Class::Knife => "couteau",
        Class::PlanoConvexKnife => "couteau plano-convexe",
        Class::Microlith => "microlithe",
        Class::Microburin => "microburin",
        Class::LeafArrowhead => "pointe foliacée",
        Class::ChiselArrowhead => "armature tranchante",
        Class::ObliqueArrowhead => "armature oblique",
        Class::BarbedTangedArrowhead => "armature à pédoncule et ailerons",
        Class::TranchetAxehead => "hache à tranchet",
        Class::PolishedAxehead => "hache polie",
        Class::Axehead => "hache",
        Class::Dagger => "poignard",
        Class::Pick => "pic",
        Class::Fabricator => "briquet",
        Class::Hammerstone => "percuteur",
        _ => "silex taillé",
    }
}

fn datation(period: Period) -> &'static str {
    match period {
        Period::Undated => "",
        Period::LateMesolithic => "Mésolithique récent",
        Period::Mesolithic => "Mésolithique",
        Period::EarlyNeolithic => "Néolithique ancien",
        Period::Neolithic => "Néolithique",
        Period::LateNeolithic => "Néolithique final",
        Period::LateNeolithicEarlyBronzeAge => "Néolithique final / Bronze ancien",
        Period::EarlyBronzeAge => "Bronze ancien",
        Period::MesolithicEarlyNeolithic => "Mésolithique / Néolithique ancien",
        _ => "préhistorique",
    }
}

fn contexte(setting: Setting) -> &'static str {
    match setting {
        Setting::Ploughland => "labour",
        Setting::Pasture => "prairie",
        Setting::Path => "sentier",
        Setting::Beach => "plage",
        _ => "",
    }
}

fn matiere(material: &str) -> &'static str {
    match material {
        "flint" => "silex",
        "grey flint" => "silex gris",
        "beach flint" => "silex de galet",
        _ => "chert",
    }
}

fn plant(island: &Island, table: &mut Lines, rng: &mut ChaCha12Rng) {
    let flake = |find: &Find, _: &[String]| find.class == Class::Flake;
    for _ in 0..2 {
        let line = table.pick(rng, flake);
        table.lines[line].cells.swap(EAST, NORTH);
        table.lines[line].faults.push(("easting-northing-swapped", "set-aside:far-away"));
    }
    table.spoil(rng, ("figure-lost", "set-aside:place-ambiguous"), EAST, flake, |text, _| {
        text[1..].to_owned()
    });
    let deep = |find: &Find, _: &[String]| super::society_faults::well_inside(island, find.at);
    table.spoil(rng, ("wrong-parish", "doubt:other-parish"), PARISH, deep, |_, find| {
        let names = crate::parishes::NAMES;
        let own = names.iter().position(|name| *name == find.parish).unwrap_or(0);
        names[(own + 2) % names.len()].to_owned()
    });
    for _ in 0..5 {
        let tool = |find: &Find, _: &[String]| {
            matches!(find.class, Class::Scraper | Class::Core | Class::Retouched)
                && find.length_mm.is_some_and(|mm| mm % 10 != 0)
        };
        table.spoil(rng, ("centimetres", "doubt:length-unlikely"), LENGTH, tool, |_, find| {
            find.length_mm.map_or(String::new(), |mm| comma(f64::from(mm) / 10.0))
        });
    }
    table.spoil(rng, ("place-in-note", "doubt:note-gives-place"), NOTES, flake, |_, find| {
        format!("près de la source, {:.0} {:.0}", find.at.x, find.at.y)
    });
    table
        .spoil(rng, ("natural-flint", "set-aside:natural"), OBJECT, flake, |_, _| "silex naturel".to_owned());
    table.spoil(rng, ("range-became-date", "set-aside:count-unreadable"), COUNT, flake, |_, _| {
        "5 mars".to_owned()
    });
    table.spoil(
        rng,
        ("unknown-object", "doubt:class-unknown"),
        OBJECT,
        |f, _| f.class == Class::Scraper,
        |_, _| "gratoire".to_owned(),
    );
}
