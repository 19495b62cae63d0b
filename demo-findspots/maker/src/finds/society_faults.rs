//! The faults of the society's day-books.

use rand_chacha::ChaCha12Rng;
use strew::study::vocabulary::{Class, Setting};

use super::Find;
use super::faults::Lines;
use super::society::{COUNT, DATE, LENGTH, NOTES, NUMBER, OBJECT, PARISH, PERIOD, REFERENCE, reference};
use crate::island::Island;
use crate::raster::Place;

pub fn plant(island: &Island, book: &mut Lines, rng: &mut ChaCha12Rng) {
    let has_place = |find: &Find, cells: &[String]| !find.parish_only && !cells[REFERENCE].is_empty();
    let six_figures = |find: &Find, cells: &[String]| {
        !find.parish_only && cells[REFERENCE].len() == 10 && cells[REFERENCE].starts_with("OV ")
    };

    whole_field(island, book);

    for _ in 0..2 {
        book.spoil(rng, ("letters-lost", "set-aside:place-unreadable"), REFERENCE, six_figures, |text, _| {
            text.trim_start_matches("OV ").to_owned()
        });
    }
    book.spoil(rng, ("figure-lost", "set-aside:place-unreadable"), REFERENCE, six_figures, |text, _| {
        text[..text.len() - 1].to_owned()
    });
    book.spoil(rng, ("halves-swapped", "set-aside:far-away"), REFERENCE, six_figures, |text, _| {
        format!("OV {} {}", &text[7..10], &text[3..6])
    });
    book.spoil(rng, ("place-in-words", "doubt:place-in-words"), REFERENCE, six_figures, |_, _| {
        "top end by the second gate".to_owned()
    });
    book.spoil(rng, ("no-place", "set-aside:no-place"), REFERENCE, has_place, |_, _| String::new());
    if let Some(line) = book.lines.iter_mut().find(|l| l.faults.iter().any(|(kind, _)| *kind == "no-place")) {
        line.cells[PARISH] = String::new();
    }
    for _ in 0..3 {
        let deep = |find: &Find, cells: &[String]| six_figures(find, cells) && well_inside(island, find.at);
        book.spoil(rng, ("wrong-parish", "doubt:other-parish"), PARISH, deep, |_, find| {
            let names = crate::parishes::NAMES;
            let own = names.iter().position(|name| *name == find.parish).unwrap_or(0);
            names[(own + 1) % names.len()].to_owned()
        });
    }
    book.spoil(
        rng,
        ("parish-misspelt", "set-aside:parish-unknown"),
        PARISH,
        |f, _| f.parish_only,
        |_, _| "Ulverhurst".to_owned(),
    );

    for text in ["03-May", "05-Mar", "02/04/2024"] {
        let many = |find: &Find, _: &[String]| find.count > 2 && find.class == Class::Flake;
        book.spoil(rng, ("range-became-date", "set-aside:count-unreadable"), COUNT, many, |_, _| {
            text.to_owned()
        });
    }
    book.spoil(
        rng,
        ("none-kept", "set-aside:count-zero"),
        COUNT,
        |f, _| f.class == Class::Flake,
        |_, _| "0".to_owned(),
    );

    for _ in 0..7 {
        let tool = |find: &Find, cells: &[String]| {
            !cells[LENGTH].is_empty()
                && find.length_mm.is_some_and(|mm| mm % 10 != 0 && (30..110).contains(&mm))
                && !matches!(find.class, Class::Chip | Class::Bladelet | Class::Microlith | Class::Microburin)
        };
        book.spoil(rng, ("centimetres", "doubt:length-unlikely"), LENGTH, tool, |_, find| {
            find.length_mm.map_or(String::new(), |mm| format!("{:.1}", f64::from(mm) / 10.0))
        });
    }

    for text in ["natural flint", "Natural", "natural, frost-split"] {
        let flake = |find: &Find, cells: &[String]| find.class == Class::Flake && has_place(find, cells);
        book.spoil(rng, ("natural-flint", "set-aside:natural"), OBJECT, flake, |_, _| text.to_owned());
    }
    for text in ["Thumnail scarper", "pot boiler"] {
        book.spoil(
            rng,
            ("unknown-object", "doubt:class-unknown"),
            OBJECT,
            |f, _| f.class == Class::Scraper,
            |_, _| text.to_owned(),
        );
    }
    book.spoil(
        rng,
        ("queried-object", "doubt:class-queried"),
        OBJECT,
        |f, _| f.class == Class::Core,
        |_, _| "Core?".to_owned(),
    );
    book.spoil(
        rng,
        ("queried-period", "doubt:period-queried"),
        PERIOD,
        |f, _| f.class == Class::Blade,
        |_, _| "Meso?".to_owned(),
    );
    book.spoil(
        rng,
        ("unknown-period", "doubt:period-unknown"),
        PERIOD,
        |f, _| f.class == Class::Retouched,
        |_, _| "early".to_owned(),
    );
    book.spoil(rng, ("year-mistyped", "doubt:date-future"), DATE, has_place, |_, _| "14 Nov 2098".to_owned());

    for text in [
        |find: &Find| format!("twenty paces from the stile at {}", reference(find.at, 8)),
        |find: &Find| format!("same bank as {}, worth another look", reference(find.at, 6)),
    ] {
        let field = |find: &Find, cells: &[String]| has_place(find, cells) && find.setting != Setting::Beach;
        book.spoil(rng, ("place-in-note", "doubt:note-gives-place"), NOTES, field, |_, find| text(find));
    }

    for _ in 0..2 {
        bag_and_tool(book, rng);
    }
    let twice = book.pick(rng, |find, cells| has_place(find, cells) && find.class == Class::Scraper);
    let copy = book.copy(twice, rng);
    book.lines[copy].faults.push(("row-copied-twice", "doubt:row-twice"));
    let reused = book.pick(rng, |find, cells| has_place(find, cells) && find.class == Class::Core);
    let other = book.pick(rng, |find, cells| has_place(find, cells) && find.class == Class::Blade);
    book.lines[other].cells[NUMBER] = book.lines[reused].cells[NUMBER].clone();
    let later = other.max(reused);
    book.lines[later].faults.push(("number-used-twice", "doubt:number-twice"));
}

/// One reference, to ten metres, for all that a field gave: nobody found them all in one spot.
fn whole_field(island: &Island, book: &mut Lines) {
    let mut rows = std::collections::BTreeMap::<usize, Vec<usize>>::new();
    for (i, line) in book.lines.iter().enumerate() {
        if let Some(ground) = line.find.as_ref().and_then(|find| find.ground)
            && island.walked[ground].patch.is_none()
        {
            rows.entry(ground).or_default().push(i);
        }
    }
    let Some((ground, rows)) =
        rows.into_iter().filter(|(_, rows)| rows.len() < 24).max_by_key(|(_, rows)| rows.len())
    else {
        return;
    };
    let middle = reference(island.walked[ground].middle, 8);
    book.lines[rows[0]].faults.push(("one-reference-for-a-field", "doubt:one-reference"));
    for row in rows {
        book.lines[row].cells[REFERENCE] = middle.clone();
    }
}

/// A bag whose scraper also has a row of its own.
fn bag_and_tool(book: &mut Lines, rng: &mut ChaCha12Rng) {
    let bag = book.pick(rng, |find, cells| {
        find.class == Class::Flake && find.count > 4 && !cells[REFERENCE].is_empty() && !find.parish_only
    });
    let mut tool = book.lines[bag].clone();
    let number = book.lines[bag].cells[NUMBER].clone();
    let count = book.lines[bag].find.as_ref().map_or(0, |find| find.count) + 1;
    book.lines[bag].cells[COUNT] = count.to_string();
    book.lines[bag].cells[NOTES] = format!("one bag, incl. scraper no. {number}a");
    book.lines[bag].faults.push(("bag-and-its-tool", "doubt:counted-twice"));
    tool.cells[NUMBER] = format!("{number}a");
    tool.cells[OBJECT] = "Scraper".to_owned();
    tool.cells[COUNT] = "1".to_owned();
    tool.cells[LENGTH] = "31".to_owned();
    tool.cells[NOTES] = format!("from bag {number}");
    if let Some(find) = &mut tool.find {
        find.class = Class::Scraper;
        find.count = 1;
    }
    book.lines.insert(bag + 1, tool);
}

/// Whether no parish boundary comes within six hundred metres.
pub fn well_inside(island: &Island, at: Place) -> bool {
    let own = island.parish(at);
    (0..8).all(|i| {
        let (sin, cos) = (f64::from(i) * std::f64::consts::FRAC_PI_4).sin_cos();
        island.parish(Place { x: at.x + cos * 600.0, y: at.y + sin * 600.0 }) == own
    })
}
