//! Every find: class and number from the plan, then date, place, marks, size, and the day it was found.

use rand::Rng;
use rand::seq::{IndexedRandom, SliceRandom};
use rand_chacha::ChaCha12Rng;
use strew::study::vocabulary::{Class, Mark, Marks, Period, Setting, Standing};

use super::place;
use super::plan::{LIES, Lie, PIECES, is_bulk};
use crate::island::{Island, Patch};
use crate::raster::Place;
use crate::walks::{Day, Keeper, day};

/// One row of a register before its keeper writes it down.
#[derive(Clone)]
pub struct Find {
    pub keeper: Keeper,
    pub class: Class,
    pub period: Period,
    pub count: u32,
    pub at: Place,
    /// Old finds of which no more than the parish is remembered.
    pub parish_only: bool,
    pub parish: &'static str,
    /// Index of the walked ground; `None` for stray finds.
    pub ground: Option<usize>,
    pub setting: Setting,
    pub standing: Standing,
    pub marks: Marks,
    pub length_mm: Option<u32>,
    pub weight_g: Option<f64>,
    pub material: &'static str,
    pub day: Day,
    pub finder: &'static str,
}

/// Four walked grounds in ten give one flake or none.
const EMPTY_GROUNDS: usize = 17;
const ONE_FLAKE_GROUNDS: usize = 15;
/// Background rows that no walk gave: remembered by parish, dug up in gardens, seen in cliffs, carted in.
const BY_PARISH: usize = 62;
const IN_GARDENS: usize = 24;
const IN_CLIFFS: usize = 14;
const CARTED_IN: usize = 6;

pub fn finds(island: &Island, rng: &mut ChaCha12Rng) -> Vec<Find> {
    let mut finds = Vec::new();
    for (column, lie) in LIES.into_iter().enumerate() {
        let mut batches = Vec::new();
        for (class, pieces) in PIECES {
            let mut left = pieces[column];
            while left > 0 {
                let count = if is_bulk(class) { handful(rng).min(left) } else { 1 };
                batches.push((class, count));
                left -= count;
            }
        }
        batches.shuffle(rng);
        match lie {
            Lie::Background => background(island, batches, rng, &mut finds),
            _ => {
                let index = island.walked.iter().position(|w| w.patch == Some(patch(lie)));
                for (class, count) in batches {
                    finds.push(find(island, lie, class, count, index, rng));
                }
            }
        }
    }
    finds
}

fn patch(lie: Lie) -> Patch {
    match lie {
        Lie::CliffPath => Patch::CliffPath,
        Lie::CliffField => Patch::CliffField,
        Lie::Spring => Patch::Spring,
        Lie::Spread => Patch::Spread,
        Lie::Beach => Patch::BeachStrip,
        Lie::Paddock | Lie::Background => Patch::Paddock,
    }
}

/// How many flakes go into one bag.
fn handful(rng: &mut ChaCha12Rng) -> u32 {
    match rng.random_range(0..100) {
        0..66 => 1,
        66..82 => 2,
        82..90 => 3,
        90..94 => 4,
        94..97 => rng.random_range(5..=6),
        _ => rng.random_range(7..=12),
    }
}

fn background(island: &Island, batches: Vec<(Class, u32)>, rng: &mut ChaCha12Rng, finds: &mut Vec<Find>) {
    let mut fields: Vec<usize> =
        (0..island.walked.len()).filter(|i| island.walked[*i].patch.is_none()).collect();
    fields.shuffle(rng);
    let (poor, rich) = fields.split_at(EMPTY_GROUNDS + ONE_FLAKE_GROUNDS);
    let mut single: Vec<usize> = poor[EMPTY_GROUNDS..].to_vec();
    let weights: Vec<(usize, f64)> = rich
        .iter()
        .map(|i| {
            let field = &island.walked[*i];
            let luck: f64 = rng.random_range(-0.9f64..0.9).exp();
            (*i, field.hectares * (0.3 + field.walk.share) * luck)
        })
        .collect();
    for (number, (class, count)) in batches.into_iter().enumerate() {
        let field = if class == Class::Flake && count == 1 && !single.is_empty() {
            single.pop()
        } else {
            weights.choose_weighted(rng, |(_, weight)| *weight).ok().map(|(i, _)| *i)
        };
        let mut find = find(island, Lie::Background, class, count, field, rng);
        let on_its_own = field.is_some_and(|i| poor.contains(&i));
        if !on_its_own {
            stray(island, number, &mut find, rng);
        }
        finds.push(find);
    }
}

/// Turns the first rows of the background into finds that no walk gave.
fn stray(island: &Island, number: usize, find: &mut Find, rng: &mut ChaCha12Rng) {
    let kinds = [BY_PARISH, IN_GARDENS, IN_CLIFFS, CARTED_IN];
    let mut before = 0;
    let Some(kind) = kinds.iter().position(|many| {
        before += many;
        number < before
    }) else {
        return;
    };
    find.ground = None;
    find.keeper = Keeper::Society;
    find.day = day(Keeper::Society, rng);
    find.finder = finder(Keeper::Society, rng);
    find.weight_g = None;
    let near = |middle: Place, reach: f64, rng: &mut ChaCha12Rng| Place {
        x: middle.x + rng.random_range(-reach..reach),
        y: middle.y + rng.random_range(-reach..reach),
    };
    match kind {
        0 => {
            find.parish_only = true;
            find.setting = Setting::Unknown;
            find.standing = Standing::Unknown;
            find.day.year = rng.random_range(1994..=1999);
        }
        1 => {
            let home = if rng.random_bool(0.5) {
                island.house
            } else {
                island.places.choose(rng).filter(|p| p.kind == "village").map_or(island.house, |p| p.at)
            };
            find.at = near(home, 70.0, rng);
            find.setting = Setting::Garden;
        }
        2 => {
            find.at = place::within(&island.ground(Patch::CliffPath).shape, rng);
            find.setting =
                *[Setting::CliffSection, Setting::CliffFall].choose(rng).unwrap_or(&Setting::CliffFall);
            find.standing =
                if find.setting == Setting::CliffSection { Standing::InPlace } else { Standing::Disturbed };
        }
        _ => {
            find.at = near(island.house, 60.0, rng);
            find.setting = Setting::BroughtIn;
            find.standing = Standing::BroughtIn;
        }
    }
    find.parish = island.parish(find.at);
}

fn find(
    island: &Island,
    lie: Lie,
    class: Class,
    count: u32,
    ground: Option<usize>,
    rng: &mut ChaCha12Rng,
) -> Find {
    let walked = ground.map(|i| &island.walked[i]);
    let keepers = walked.map_or(&[Keeper::Society][..], |w| &w.walk.keepers);
    let keeper = keepers.choose(rng).copied().unwrap_or(Keeper::Society);
    let field = walked.map_or(&island.walked[0].shape, |w| &w.shape);
    let at = place::draw(island, lie, field, rng);
    let setting = walked.map_or(Setting::Unknown, |w| match w.setting {
        "ploughland" => Setting::Ploughland,
        "pasture" => Setting::Pasture,
        "path" => Setting::Path,
        _ => Setting::Beach,
    });
    let standing = match setting {
        Setting::Beach => Standing::Derived,
        Setting::Ploughland => Standing::Disturbed,
        _ => Standing::Unknown,
    };
    let own_days: Vec<Day> = walked
        .iter()
        .flat_map(|w| w.walk.days.iter().copied())
        .filter(|day| match keeper {
            Keeper::Society => day.year < 2016 && !(7..=9).contains(&day.month),
            Keeper::Phone => day.year >= 2017,
            Keeper::Visitor => (7..=9).contains(&day.month),
        })
        .collect();
    let day = own_days.choose(rng).copied().unwrap_or_else(|| day(keeper, rng));
    let length = length_mm(class, rng);
    let weighed = keeper == Keeper::Visitor && rng.random_bool(0.7) && count == 1;
    Find {
        keeper,
        class,
        period: super::dating::date(class, lie, rng),
        count,
        at,
        parish_only: false,
        parish: island.parish(at),
        ground,
        setting,
        standing,
        marks: marks(class, lie, rng),
        length_mm: (count == 1 && (!is_bulk(class) || rng.random_bool(0.4))).then_some(length),
        weight_g: weighed.then(|| (f64::from(length).powf(2.2) / 180.0 * 10.0).round() / 10.0 + 0.2),
        material: ["flint", "flint", "flint", "grey flint", "beach flint", "chert"]
            .choose(rng)
            .unwrap_or(&"flint"),
        day,
        finder: finder(keeper, rng),
    }
}

fn finder(keeper: Keeper, rng: &mut ChaCha12Rng) -> &'static str {
    let names: &[&str] = match keeper {
        Keeper::Society => &[
            "E. Oldacre",
            "E. Oldacre",
            "S. Nettlecraft",
            "B. Nettlecraft",
            "J. Pellow-Garth",
            "school party",
        ],
        Keeper::Phone => &["T. Wrackham", "T. Wrackham", "T. Wrackham", "M. Oxmere"],
        Keeper::Visitor => &["Y. Kersaluc", "Y. Kersaluc", "A. Kersaluc"],
    };
    names.choose(rng).copied().unwrap_or(names[0])
}

/// Marks as recorded: fewer on rolled pieces and shatter, retouch on tools, and a fifth not looked for.
fn marks(class: Class, lie: Lie, rng: &mut ChaCha12Rng) -> Marks {
    let mut marks = Marks::default();
    if rng.random_bool(0.2) {
        return marks;
    }
    let worn = if lie == Lie::Beach { 0.55 } else { 1.0 };
    let (platform, bulb, ripples, scars) = match class {
        Class::IrregularWaste | Class::Unclassified => (0.1, 0.12, 0.1, 0.25),
        Class::Chip => (0.35, 0.4, 0.1, 0.2),
        Class::Core | Class::CoreTrimming => (0.85, 0.05, 0.2, 0.97),
        Class::Blade | Class::Bladelet => (0.7, 0.7, 0.35, 0.9),
        Class::Hammerstone => (0.0, 0.0, 0.0, 0.1),
        _ => (0.65, 0.72, 0.4, 0.55),
    };
    let bulk = is_bulk(class)
        || matches!(
            class,
            Class::Core | Class::CoreTrimming | Class::Unclassified | Class::Hammerstone | Class::Microburin
        );
    let chances = [
        (Mark::Platform, platform * worn),
        (Mark::Bulb, bulb * worn),
        (Mark::Ripples, ripples * worn),
        (Mark::DorsalScars, scars * worn),
        (Mark::Retouch, if bulk { 0.02 } else { 0.98 }),
    ];
    for (mark, chance) in chances {
        if rng.random_bool(chance) {
            marks = marks.with(mark);
        }
    }
    marks
}

fn length_mm(class: Class, rng: &mut ChaCha12Rng) -> u32 {
    let range = match class {
        Class::Chip => 6..=13,
        Class::Bladelet | Class::Microlith | Class::Microburin => 14..=32,
        Class::Blade | Class::Serrated | Class::Knife | Class::PlanoConvexKnife => 34..=78,
        Class::Axehead | Class::TranchetAxehead | Class::PolishedAxehead => 82..=158,
        Class::Dagger => 148..=152,
        Class::ThumbnailScraper => 17..=26,
        Class::Core | Class::Hammerstone => 31..=66,
        _ => 19..=52,
    };
    rng.random_range(range)
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use rand::SeedableRng;
    use rand_chacha::ChaCha12Rng;
    use strew::study::vocabulary::{Class, Period};

    use super::{Find, finds};
    use crate::island::{Island, Patch};
    use crate::raster::distance;

    fn hernsey() -> (Island, Vec<Find>) {
        let island = Island::make(crate::SEED);
        let finds = finds(&island, &mut ChaCha12Rng::seed_from_u64(crate::SEED));
        (island, finds)
    }

    /// The proportions of a real coastal collection (common practice).
    #[test]
    fn the_collection_looks_real() {
        let (island, finds) = hernsey();
        let pieces = |fits: &dyn Fn(&Find) -> bool| -> u32 {
            finds.iter().filter(|find| fits(find)).map(|find| find.count).sum()
        };
        let all = f64::from(pieces(&|_| true));
        let share = |fits: &dyn Fn(&Find) -> bool| f64::from(pieces(fits)) / all;
        let class = |wanted: Class| share(&|find| find.class.is(wanted));
        assert_eq!(all, 2_400.0);
        assert!((1_400..1_650).contains(&finds.len()), "{} rows", finds.len());
        assert!((0.58..0.62).contains(&(class(Class::Flake) + class(Class::Chip))));
        assert!((0.10..0.12).contains(&class(Class::Blade)));
        assert!((0.07..0.09).contains(&class(Class::IrregularWaste)));
        assert!((0.055..0.065).contains(&class(Class::Scraper)));
        assert!((0.045..0.055).contains(&class(Class::Core)));
        assert!((0.045..0.055).contains(&class(Class::Retouched)));
        assert!((0.005..0.015).contains(&(class(Class::Microlith) + class(Class::Microburin))));
        assert!(class(Class::Arrowhead) + class(Class::Axehead) < 0.01);
        assert_eq!(pieces(&|find| find.class == Class::Dagger), 1);

        let period = |wanted: &[Period]| share(&|find| wanted.contains(&find.period));
        let mesolithic = period(&[Period::Mesolithic, Period::EarlyMesolithic, Period::LateMesolithic]);
        let early_neolithic = period(&[Period::EarlyNeolithic]);
        let late = period(&[Period::LateNeolithicEarlyBronzeAge]);
        assert!(period(&[Period::Undated]) > 0.55);
        assert!(mesolithic > early_neolithic && early_neolithic > late && late > 0.04);

        // Four walked grounds in ten give one flake or none.
        let mut yields = BTreeMap::<usize, u32>::new();
        for find in &finds {
            if let Some(ground) = find.ground {
                *yields.entry(ground).or_default() += find.count;
            }
        }
        let poor = (0..island.walked.len()).filter(|i| yields.get(i).is_none_or(|n| *n <= 1)).count();
        let poor = poor as f64 / island.walked.len() as f64;
        assert!((0.36..0.46).contains(&poor), "{poor}");
    }

    #[test]
    fn patches_keep_their_size() {
        let (island, finds) = hernsey();
        let reach = |patch: Patch| {
            let ground = island.walked.iter().position(|w| w.patch == Some(patch));
            let own = finds.iter().filter(|find| find.ground == ground);
            let middle = island.ground(patch).middle;
            own.map(|find| distance(find.at, middle)).fold(0.0, f64::max)
        };
        // Half the long side, and a little for the corner of an oval.
        assert!(reach(Patch::CliffPath) <= 36.5);
        assert!(reach(Patch::CliffField) <= 52.0);
        assert!(reach(Patch::Spring) <= 105.0);
    }

    /// The member's paddock is rich only because it was walked so often.
    #[test]
    fn the_false_patch_vanishes_when_effort_is_divided_out() {
        let (island, finds) = hernsey();
        let rate = |fits: &dyn Fn(Option<Patch>) -> bool| {
            let grounds: Vec<usize> =
                (0..island.walked.len()).filter(|i| fits(island.walked[*i].patch)).collect();
            let pieces: u32 = finds
                .iter()
                .filter(|f| f.ground.is_some_and(|g| grounds.contains(&g)))
                .map(|f| f.count)
                .sum();
            let hours: f64 = grounds.iter().map(|i| island.walked[*i].walk.people_hours).sum();
            let hectares: f64 = grounds.iter().map(|i| island.walked[*i].hectares).sum();
            (f64::from(pieces) / hours, f64::from(pieces) / hectares)
        };
        let (paddock_hour, paddock_hectare) = rate(&|patch| patch == Some(Patch::Paddock));
        let (background_hour, background_hectare) = rate(&|patch| patch.is_none());
        let (_, spread_hectare) = rate(&|patch| patch == Some(Patch::Spread));
        assert!(paddock_hectare > 10.0 * background_hectare && paddock_hectare > spread_hectare);
        assert!((0.5..1.5).contains(&(paddock_hour / background_hour)), "{paddock_hour} {background_hour}");
    }
}
