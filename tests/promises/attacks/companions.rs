//! Companions: a find of a strict class is narrowed by what is told of those that it was found with, joined by the day
//! that is shown, or by the number that stands on their bags.

use std::fmt::Write as _;

use rand::Rng;
use rand_chacha::ChaCha8Rng;
use strew::coordinates::Cell;
use strew::exact::{Release, ReleasedPlace};
use strew::study::vocabulary::Class;

use super::{Bench, Rate, judge, seeded};

const STRICT: &str = "[[agreement.public.stricter]]\nclass = [\"arrowhead\"]\nprecision = \"1 km\"\n";
const DAYS: usize = 60;

/// A day's walk: places of its flakes, and that of its arrowhead, all within one patch of ploughland.
struct Day {
    flakes: Vec<(f64, f64)>,
    arrowhead: (f64, f64),
}

fn days(random: &mut ChaCha8Rng) -> Vec<Day> {
    days_within(random, 40_000)
}

/// Days all of whose patches begin so near to each other, metres.
fn days_within(random: &mut ChaCha8Rng, reach_m: i32) -> Vec<Day> {
    (0..DAYS)
        .map(|_| {
            let mut from = || f64::from(random.random_range(0..reach_m));
            let (west, south) = (540_000.0 + from(), 530_000.0 + from());
            let mut at = || {
                (
                    west + random.random_range(0.0..80.0_f64).floor(),
                    south + random.random_range(0.0..80.0_f64).floor(),
                )
            };
            Day { flakes: (0..9).map(|_| at()).collect(), arrowhead: at() }
        })
        .collect()
}

/// The square of 100 m that the attacker bets on: the one that most companions were told in, where it lies in the
/// arrowhead's own square; else one of that at random.
fn bet(random: &mut ChaCha8Rng, arrowhead: &ReleasedPlace, companions: &[Cell]) -> Option<Cell> {
    let within = |cell: &Cell| match arrowhead {
        ReleasedPlace::Cell(square) => cell.within(square.side_m) == Some(*square),
        ReleasedPlace::Parish(_) => true,
    };
    let fine = companions.iter().filter(|cell| cell.side_m == 100).filter(|cell| within(cell));
    let most = fine.max_by_key(|cell| (companions.iter().filter(|other| other == cell).count(), **cell));
    most.copied().or_else(|| match arrowhead {
        ReleasedPlace::Cell(square) => {
            let mut part = |from: i32| from * 10 + random.random_range(0..10);
            Some(Cell { side_m: 100, column: part(square.column), row: part(square.row) })
        }
        ReleasedPlace::Parish(_) => None,
    })
}

/// How often the bet is right. `key` joins a find to its day.
fn won(random: &mut ChaCha8Rng, days: &[Day], told: &[(usize, bool, ReleasedPlace)]) -> Rate {
    let mut rate = Rate::default();
    for (day, walk) in days.iter().enumerate() {
        let of = |strict: bool| told.iter().filter(move |(of, is, _)| (*of, *is) == (day, strict));
        let Some((.., arrowhead)) = of(true).next() else { continue };
        let companions: Vec<Cell> = of(false)
            .filter_map(|(.., place)| match place {
                ReleasedPlace::Cell(cell) => Some(*cell),
                ReleasedPlace::Parish(_) => None,
            })
            .collect();
        let truth = Cell::holding(walk.arrowhead.0, walk.arrowhead.1, 100);
        rate.add(bet(random, arrowhead, &companions) == truth);
    }
    rate
}

fn told(
    release: &Release,
    day: impl Fn(&strew::exact::Details) -> Option<usize>,
) -> Vec<(usize, bool, ReleasedPlace)> {
    let each = release.finds.iter().filter_map(|find| {
        let strict = find.class.is_some_and(|class| class.is(Class::Arrowhead));
        Some((day(find.details.as_deref()?)?, strict, find.place.clone()))
    });
    each.collect()
}

/// What a program without ties tells: each find alone.
fn untied(days: &[Day]) -> Vec<(usize, bool, ReleasedPlace)> {
    let cell = |place: (f64, f64), side| ReleasedPlace::Cell(Cell::holding(place.0, place.1, side).unwrap());
    let each = days.iter().enumerate().flat_map(|(day, walk)| {
        let flakes = walk.flakes.iter().map(move |place| (day, false, cell(*place, 100)));
        flakes.chain([(day, true, cell(walk.arrowhead, 1_000))])
    });
    each.collect()
}

/// A day of 2021, as numbered: in the notation of one who writes it so or so.
fn date(day: usize, notation: usize) -> String {
    let (month, of_month) = (day / 28 + 1, day % 28 + 1);
    let names = ["January", "February", "March"];
    match notation {
        0 => format!("2021-{month:02}-{of_month:02}"),
        1 => format!("{of_month} {} 2021", names[month - 1]),
        _ => format!("{of_month:02}/{month:02}/2021"),
    }
}

/// The day that a date means, in any of those notations.
fn day(text: &str) -> Option<usize> {
    (0..DAYS).find(|day| (0..3).any(|notation| date(*day, notation) == text))
}

fn by_day(notation_of_arrowhead: usize) -> (Rate, Rate) {
    let mut random = seeded(9);
    let days = days(&mut random);
    let mut text = String::from("No,Easting,Northing,Class,Date found\n");
    for (index, walk) in days.iter().enumerate() {
        for (x, y) in &walk.flakes {
            writeln!(text, ",{x:.0},{y:.0},flake,{}", date(index, 0)).unwrap();
        }
        let (x, y) = walk.arrowhead;
        writeln!(text, ",{x:.0},{y:.0},leaf arrowhead,{}", date(index, notation_of_arrowhead)).unwrap();
    }
    let bench = Bench::bare(&format!(
        "[agreement.public]\nprecision = \"100 m\"\nshow = [\"class\", \"count\", \"date\"]\n{STRICT}"
    ));
    bench.register(&text);
    let release = bench.open("public").release();
    let real = told(&release, |details| day(details.date.as_deref()?));
    assert_eq!(real.len(), DAYS * 10, "every find is told with its day");
    (won(&mut random, &days, &untied(&days)), won(&mut random, &days, &real))
}

#[test]
fn companions_by_day() {
    let (twin, real) = by_day(0);
    judge("9 companions by day", 0.01, twin, real);
}

/// The same day in other words is the same day to whoever reads it.
#[test]
fn companions_by_day_in_other_words() {
    for notation in [1, 2] {
        let (twin, real) = by_day(notation);
        judge("9 companions by day, written otherwise", 0.01, twin, real);
    }
}

/// The arrowhead is entered a season later than its day's flakes, which were told by then. All days lie in one square
/// of the arrowheads, so that where flakes lie says nothing of which arrowhead was with them.
#[test]
fn companions_told_in_an_earlier_edition() {
    let mut random = seeded(98);
    let days = days_within(&mut random, 900);
    let row = |place: (f64, f64), class: &str, index: usize, number: String| {
        format!("{number},{:.0},{:.0},{class},{}\n", place.0, place.1, date(index, 0))
    };
    let mut flakes = String::from("No,Easting,Northing,Class,Date found\n");
    let mut arrowheads = String::new();
    for (index, walk) in days.iter().enumerate() {
        for (part, place) in walk.flakes.iter().enumerate() {
            flakes += &row(*place, "flake", index, format!("{index}-{part}"));
        }
        arrowheads += &row(walk.arrowhead, "leaf arrowhead", index, format!("A{index}"));
    }
    let bench = Bench::bare(&format!(
        "[agreement.public]\nprecision = \"100 m\"\nshow = [\"class\", \"count\", \"date\"]\n{STRICT}"
    ));
    let mut companions = Vec::new();
    let mut last = Vec::new();
    let both = format!("{flakes}{arrowheads}");
    // The last edition is the same once more: what was left out stays out.
    for text in [&flakes, &both, &both] {
        bench.register(text);
        let release = bench.open("public").remembering().unwrap();
        companions.extend(told(&release, |details| day(details.date.as_deref()?)));
        last = release.finds;
    }
    let strict: Vec<_> =
        last.iter().filter(|find| find.class.is_some_and(|class| class.is(Class::Arrowhead))).collect();
    assert_eq!(strict.len(), DAYS, "every arrowhead is told");
    assert!(
        last.len() == DAYS * 10 && companions.iter().filter(|(_, strict, _)| !strict).count() >= DAYS * 27
    );
    // The bet on a day's arrowhead by the flakes of a day.
    let bets: Vec<Option<Cell>> = (0..DAYS)
        .map(|of| {
            let of_day = companions.iter().filter(|(day, strict, _)| (*day, *strict) == (of, false));
            let cells = of_day.filter_map(|(.., place)| match place {
                ReleasedPlace::Cell(cell) => Some(*cell),
                ReleasedPlace::Parish(_) => None,
            });
            bet(&mut random, &strict[0].place, &cells.collect::<Vec<_>>())
        })
        .collect();
    let truth = |walk: &Day| Cell::holding(walk.arrowhead.0, walk.arrowhead.1, 100);
    // One who joins arrowheads to days at random is right so often: patches lie over each other here and there.
    let right = days.iter().flat_map(|walk| bets.iter().filter(move |bet| **bet == truth(walk))).count();
    let chance = right as f64 / (DAYS * DAYS) as f64;
    // Whatever day the attacker joins an arrowhead to: the one told of it, else one at random.
    let mut real = Rate::default();
    for (index, walk) in days.iter().enumerate() {
        let dated = companions.iter().any(|(of, strict, _)| (*of, *strict) == (index, true));
        for _ in 0..20 {
            let of = if dated { index } else { random.random_range(0..DAYS) };
            real.add(bets[of] == truth(walk));
        }
    }
    let twin = won(&mut random, &days, &untied(&days));
    judge("9 companions told in an earlier edition", chance, twin, real);
}

/// Finds of one site, whose numbers tell that they are of one lot.
#[test]
fn companions_by_group() {
    let mut random = seeded(99);
    let days = days(&mut random);
    let mut text = String::from("No,Easting,Northing,Class,Site\n");
    for (index, walk) in days.iter().enumerate() {
        let finds = walk.flakes.iter().map(|place| (place, "flake"));
        for (part, ((x, y), class)) in finds.chain([(&walk.arrowhead, "leaf arrowhead")]).enumerate() {
            writeln!(text, "{index}-{part},{x:.0},{y:.0},{class},Lot {index}").unwrap();
        }
    }
    let bench = Bench::bare(&format!(
        "[agreement.public]\nprecision = \"100 m\"\nshow = [\"class\", \"count\", \"number\"]\n{STRICT}"
    ));
    bench.register(&text);
    let release = bench.open("public").release();
    let lot = |number: &str| number.split_once('-')?.0.parse().ok();
    let real = told(&release, |details| lot(details.number.as_deref()?));
    assert_eq!(real.len(), DAYS * 10);
    let (twin, real) = (won(&mut random, &days, &untied(&days)), won(&mut random, &days, &real));
    judge("9 companions by group", 0.01, twin, real);
}
