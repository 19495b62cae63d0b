//! Cross tables of pieces: whole numbers that add up.

use std::collections::{BTreeMap, BTreeSet};

use super::by_parish::{InParish, by_parish, rake};
use super::sorting::{Group, Key, Sorter, groups, shown};
use super::spots::wanted;
use super::whole::{fit, whole as round_both};
use super::{Concentration, Table, Value, in_one_square};
use crate::exact::{Figure, Published, ReleasedFind, ReleasedPlace, band};
use crate::ground::Partition;
use crate::study::PublicStudy;
use crate::study::vocabulary::Period;
use crate::words::Words;

/// What rows or columns of a table stand for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Dimension {
    /// Class.
    Class,
    /// Period, in order of time, with columns for prehistoric and undated.
    Period,
    /// Parish.
    Parish,
    /// Strength of marks.
    Strength,
    /// Setting.
    Setting,
    /// Concentration.
    Concentration,
}

impl Dimension {
    /// Its name in file names and messages, the same in every language.
    pub fn name(self) -> &'static str {
        match self {
            Self::Class => "class",
            Self::Period => "period",
            Self::Parish => "parish",
            Self::Strength => "strength",
            Self::Setting => "setting",
            Self::Concentration => "concentration",
        }
    }
}

/// Above this side the pack speaks of richer squares and not of concentrations, metres.
const RICHER_SQUARES_ABOVE_M: u32 = 100;

/// A table of pieces, `rows` by `columns`, with totals. Whole numbers that add up.
///
/// Pieces in a cell that several parishes share are parted among them by area, and rounded so that each
/// class, period or other line across the parishes keeps its whole number (the largest remainders round
/// up). Pieces out of place have a column of their own, whatever the columns stand for. A dimension that
/// the agreement does not show gives no rows.
pub fn cross(
    published: &Published,
    study: &PublicStudy,
    partition: &Partition<'_>,
    concentrations: &[Concentration],
    rows: Dimension,
    columns: Dimension,
) -> Table {
    let groups = if shown(rows, study) && shown(columns, study) { groups(published) } else { Vec::new() };
    let sorter = |dimension| Sorter::new(dimension, partition, concentrations, wanted(published, study));
    let (down, across) = (sorter(rows), sorter(columns));
    let columns_of = |find: &ReleasedFind| match find.out_of_place {
        true => vec![(Key::OutOfPlace, 1.0)],
        false => across.keys(find),
    };
    let mut exact: BTreeMap<(Key, Key), f64> = BTreeMap::new();
    let mut parted = false;
    for Group { find, pieces } in &groups {
        for (row, share) in down.keys(find) {
            for (column, other) in columns_of(find) {
                parted |= share * other < 1.0;
                *exact.entry((row.clone(), column)).or_default() += *pieces as f64 * share * other;
            }
        }
    }
    let by_place = |dimension| matches!(dimension, Dimension::Parish | Dimension::Concentration);
    let in_bands = published.in_bands_only() && !groups.is_empty();
    // Shares run along the rows where those are parishes, and along the columns otherwise.
    let lines_are_columns = rows == Dimension::Parish || (in_bands && by_place(rows));
    // Parishes by what finds are: figures that are the same on maps, in layers and in every table.
    let by_parish_and_kind = match (rows, columns) {
        _ if groups.is_empty() => false,
        (Dimension::Parish, other) | (other, Dimension::Parish) => !by_place(other),
        _ => false,
    };
    if by_parish_and_kind {
        exact.clear();
        for InParish { find, parish, pieces } in by_parish(published, partition) {
            let parish = parish.map_or(Key::ParishUnknown, Key::Parish);
            let keys = match rows == Dimension::Parish {
                true => columns_of(find).into_iter().map(|(column, _)| (parish.clone(), column)).collect(),
                // A row of parishes has no column for what is out of place: it has one of its own beside them.
                false => down
                    .keys(find)
                    .into_iter()
                    .map(|(row, _)| match find.out_of_place {
                        true => (row, Key::OutOfPlace),
                        false => (row, parish.clone()),
                    })
                    .collect::<Vec<_>>(),
            };
            keys.into_iter().for_each(|key| *exact.entry(key).or_default() += pieces as f64);
        }
    }
    let under = |sorter: &Sorter<'_>, key: &Key, find: &ReleasedFind| {
        sorter.keys(find).iter().any(|(of, _)| of == key)
    };
    let in_column = |key: &Key, find: &ReleasedFind| match find.out_of_place {
        true => *key == Key::OutOfPlace,
        false => under(&across, key, find),
    };
    // Of the finds' attributes, classes and periods meet their figures in parishes already.
    let kinds = if by_place(rows) { columns } else { rows };
    let met = [Dimension::Class, Dimension::Period].contains(&kinds);
    if in_bands && (by_place(rows) || by_place(columns)) && !(by_parish_and_kind && met) {
        let before = exact.clone();
        // Parishes have their sum already.
        let all = match by_parish_and_kind {
            true => Some(exact.values().sum::<f64>().round() as u64),
            false => published.total(|_| true).exact(),
        };
        // So a class has one figure in all tables of places.
        let in_parishes = if met { by_parish(published, partition) } else { Vec::new() };
        to_totals(&mut exact, lines_are_columns, all, |line| {
            let counts = |find: &ReleasedFind| match lines_are_columns {
                true => in_column(line, find),
                false => under(&down, line, find),
            };
            let patch = match line {
                Key::Concentration(index) => concentrations.get(*index),
                _ => None,
            };
            match patch {
                Some(patch) => Figure::certain(patch.pieces),
                None if met => {
                    let parts = in_parishes.iter().filter(|part| counts(part.find));
                    Figure::certain(parts.map(|part| part.pieces).sum())
                }
                None => published.total(counts),
            }
        });
        let others = if lines_are_columns { rows } else { columns };
        if by_parish_and_kind || others == Dimension::Concentration {
            keep_others(&mut exact, &before, lines_are_columns);
        }
    }
    let counts = whole(&exact, lines_are_columns);

    let standing = |sorter: &Sorter<'_>| if groups.is_empty() { Vec::new() } else { sorter.standing() };
    let mut row_keys: BTreeSet<Key> = standing(&down).into_iter().collect();
    let mut column_keys: BTreeSet<Key> = standing(&across).into_iter().collect();
    row_keys.extend(exact.keys().map(|(row, _)| row.clone()));
    column_keys.extend(exact.keys().map(|(_, column)| column.clone()));

    let words = Words::of(study.language);
    let label = |key: &Key| key.label(study.language, concentrations);
    let heading = |dimension: Dimension| words.say(&format!("tables-{}", word(dimension, study)));
    let mut headings = vec![heading(rows)];
    headings.extend(column_keys.iter().map(label));
    headings.push(words.say("tables-total"));
    let count = |row: &Key, column: &Key| counts.get(&(row.clone(), column.clone())).copied().unwrap_or(0);
    let lines: Vec<Vec<u64>> = row_keys
        .iter()
        .map(|row| {
            let line: Vec<u64> = column_keys.iter().map(|column| count(row, column)).collect();
            let total = line.iter().sum();
            line.into_iter().chain([total]).collect()
        })
        .collect();
    let totals: Vec<u64> =
        (0..=column_keys.len()).map(|index| lines.iter().map(|line| line[index]).sum()).collect();
    let labelled = |label: String, numbers: Vec<u64>| {
        std::iter::once(Value::Text(label)).chain(numbers.into_iter().map(Value::Whole)).collect::<Vec<_>>()
    };
    let mut body: Vec<Vec<Value>> =
        row_keys.iter().map(label).zip(lines).map(|(label, line)| labelled(label, line)).collect();
    let mut totals = labelled(words.say("tables-total"), totals);
    // Where all of a patch lies in one square, its total is that square's, and told as its band.
    let in_band = |key: &Key| match key {
        Key::Concentration(index) => concentrations
            .get(*index)
            .filter(|patch| in_bands && in_one_square(patch, published.cells()))
            .map(|patch| Value::Text(band(patch.pieces).to_owned())),
        _ => None,
    };
    let down_totals = body.iter_mut().filter_map(|line| line.last_mut()).zip(&row_keys);
    let across_totals = totals.iter_mut().skip(1).zip(&column_keys);
    for (total, key) in down_totals.chain(across_totals) {
        if let Some(told) = in_band(key) {
            *total = told;
        }
    }
    // Figures of the whole study: exact where that may be told, else from where to where they lie.
    let mut ranges = false;
    if in_bands && !by_place(rows) && !by_place(columns) {
        let every = || std::iter::once(None).chain(row_keys.iter().map(Some));
        let told: Vec<Vec<Figure>> = every()
            .map(|row| {
                let figure = |column: Option<&Key>| {
                    published.total(|find| {
                        row.is_none_or(|row| under(&down, row, find))
                            && column.is_none_or(|column| in_column(column, find))
                    })
                };
                column_keys.iter().map(Some).chain([None]).map(figure).collect()
            })
            .collect();
        ranges = told.iter().flatten().any(|figure| figure.exact().is_none());
        for (line, figures) in std::iter::once(&mut totals).chain(&mut body).zip(told) {
            for (value, figure) in line.iter_mut().skip(1).zip(figures) {
                *value = figure.into();
            }
        }
    }
    let mut notes = notes(published, study, &groups, [rows, columns], parted);
    if ranges {
        notes.push(words.say("tables-note-ranges"));
    }
    if in_bands && (by_place(rows) || by_place(columns)) {
        notes.push(words.say("tables-note-from-bands"));
    }
    Table {
        name: format!("{}-by-{}", rows.name(), columns.name()),
        title: words.say_with(
            "tables-title",
            &[("rows", heading(rows).into()), ("columns", heading(columns).into())],
        ),
        headings,
        rows: body,
        totals: Some(totals),
        notes,
    }
}

/// Brings each line across places to its figure of the whole study; those that are ranges stay within them, and take
/// together what the exact ones leave of all pieces.
fn to_totals(
    exact: &mut BTreeMap<(Key, Key), f64>,
    lines_are_columns: bool,
    all: Option<u64>,
    total: impl Fn(&Key) -> Figure,
) {
    let mut sums: BTreeMap<Key, f64> = BTreeMap::new();
    let line = |key: &(Key, Key)| if lines_are_columns { key.1.clone() } else { key.0.clone() };
    for (key, pieces) in exact.iter() {
        *sums.entry(line(key)).or_default() += pieces;
    }
    let figures: Vec<Figure> = sums.keys().map(&total).collect();
    let mut near: Vec<f64> = figures.iter().map(|figure| figure.near as f64).collect();
    let known: u64 = figures.iter().filter_map(|figure| figure.exact()).sum();
    let free: Vec<usize> = (0..figures.len()).filter(|line| figures[*line].exact().is_none()).collect();
    let rest = all.map(|all| (free, Figure::certain(all.saturating_sub(known))));
    // Lines last: where both cannot be had, their own figures hold.
    let mut margins: Vec<(Vec<usize>, Figure)> = rest.into_iter().collect();
    margins.extend(figures.iter().enumerate().map(|(line, figure)| (vec![line], *figure)));
    rake(&mut near, &margins);
    // Whole numbers again, so that every line keeps one.
    let wanted: BTreeMap<&Key, u64> = sums.keys().zip(largest_remainders(&near)).collect();
    for (key, pieces) in exact.iter_mut() {
        let line = line(key);
        if let (Some(sum), Some(wanted)) = (sums.get(&line).filter(|sum| **sum > 0.0), wanted.get(&line)) {
            *pieces *= *wanted as f64 / sum;
        }
    }
}

/// Rounds a table whose lines were brought to their figures so that what stands across them keeps its sums of before:
/// a parish or a concentration has one figure, whatever its finds are parted by. What lies in no concentration takes
/// the rest.
fn keep_others(
    exact: &mut BTreeMap<(Key, Key), f64>,
    before: &BTreeMap<(Key, Key), f64>,
    lines_are_columns: bool,
) {
    let turned = |(row, column): &(Key, Key)| match lines_are_columns {
        true => (row.clone(), column.clone()),
        false => (column.clone(), row.clone()),
    };
    let others: BTreeSet<Key> = exact.keys().map(|key| turned(key).0).collect();
    let lines: BTreeSet<Key> = exact.keys().map(|key| turned(key).1).collect();
    let at = |key: &(Key, Key)| {
        let (other, line) = turned(key);
        (others.range(..other).count(), lines.range(..line).count())
    };
    let (mut table, mut sums) = (vec![vec![0.0; lines.len()]; others.len()], vec![0.0; others.len()]);
    let mut figures = vec![0.0; lines.len()];
    for (key, pieces) in exact.iter() {
        let (other, line) = at(key);
        table[other][line] = *pieces;
        figures[line] += pieces;
        sums[other] += before.get(key).copied().unwrap_or(0.0);
    }
    if others.contains(&Key::Elsewhere) {
        let elsewhere = others.range(..Key::Elsewhere).count();
        let rest = figures.iter().sum::<f64>() - sums.iter().sum::<f64>() + sums[elsewhere];
        sums[elsewhere] = rest.max(0.0);
    }
    fit(&mut table, &sums, &figures);
    let rounded = round_both(&table);
    for (key, pieces) in exact.iter_mut() {
        let (other, line) = at(key);
        *pieces = rounded[other][line] as f64;
    }
}

/// The word for a dimension in headings: concentrations of large squares are only richer squares.
fn word(dimension: Dimension, study: &PublicStudy) -> &'static str {
    match (dimension, study.agreement.precision.side_m()) {
        (Dimension::Concentration, Some(side)) if side > RICHER_SQUARES_ABOVE_M => "richer-squares",
        _ => dimension.name(),
    }
}

/// A row and a column, and what was counted there before rounding.
type Part<'a> = (&'a (Key, Key), f64);

/// Rounds so that every line keeps its sum, which is a whole number: each part is cut to its whole, and
/// what is left goes to the largest remainders, in order where they are alike. A line is a column, or
/// else a row.
fn whole(exact: &BTreeMap<(Key, Key), f64>, lines_are_columns: bool) -> BTreeMap<(Key, Key), u64> {
    let mut lines: BTreeMap<&Key, Vec<Part<'_>>> = BTreeMap::new();
    for (key, value) in exact {
        let line = if lines_are_columns { &key.1 } else { &key.0 };
        lines.entry(line).or_default().push((key, *value));
    }
    let mut counts = BTreeMap::new();
    for line in lines.into_values() {
        let values: Vec<f64> = line.iter().map(|(_, value)| *value).collect();
        for ((key, _), count) in line.into_iter().zip(largest_remainders(&values)) {
            counts.insert(key.clone(), count);
        }
    }
    counts
}

/// Whole numbers near `values` whose sum is the whole number nearest to theirs.
fn largest_remainders(values: &[f64]) -> Vec<u64> {
    // Sums of shares stand a hair off whole numbers.
    let cut = |value: f64| (value + 1e-7).floor().max(0.0);
    let sum = values.iter().sum::<f64>().round() as u64;
    let mut counts: Vec<u64> = values.iter().map(|value| cut(*value) as u64).collect();
    let left = sum.saturating_sub(counts.iter().sum()) as usize;
    let mut order: Vec<usize> = (0..values.len()).collect();
    // In steps of a millionth, so that remainders alike in the arithmetic of people are alike here.
    let remainder = |index: usize| ((values[index] - cut(values[index])) * 1e6).round() as i64;
    order.sort_by_key(|index| (-remainder(*index), *index));
    for index in order.into_iter().take(left) {
        counts[index] += 1;
    }
    counts
}

fn notes(
    published: &Published,
    study: &PublicStudy,
    groups: &[Group<'_>],
    dimensions: [Dimension; 2],
    parted: bool,
) -> Vec<String> {
    let words = Words::of(study.language);
    let has = |dimension| dimensions.contains(&dimension);
    // What is not exact is told in the table alone, as a range.
    let pieces = |wanted: &dyn Fn(&ReleasedFind) -> bool| -> u64 {
        if groups.is_empty() { 0 } else { published.total(wanted).exact().unwrap_or(0) }
    };
    let counted = |id: &str, n: u64| (n > 0).then(|| words.say_with(id, &[("n", n.into())]));
    let mut notes = Vec::new();
    if parted {
        notes.push(words.say("tables-note-area"));
    }
    if has(Dimension::Parish) || has(Dimension::Concentration) {
        let by_parish = pieces(&|find| matches!(find.place, ReleasedPlace::Parish(_)));
        notes.extend(counted("tables-note-parish-only", by_parish));
    }
    if has(Dimension::Concentration) && !groups.is_empty() {
        notes.push(words.say("tables-note-elsewhere"));
    }
    if has(Dimension::Period) {
        let dated = |period| move |find: &ReleasedFind| find.period == Some(period) && !find.out_of_place;
        notes.extend(counted("tables-note-prehistoric", pieces(&dated(Period::Prehistoric))));
        notes.extend(counted("tables-note-undated", pieces(&dated(Period::Undated))));
    }
    notes.extend(counted("tables-note-out-of-place", pieces(&|find| find.out_of_place)));
    let places = published.withheld_cells();
    if places > 0 {
        notes.push(match published.withheld_pieces() {
            Some(n) => words.say_with("tables-note-withheld", &[("n", n.into()), ("places", places.into())]),
            None => words.say_with("tables-note-withheld-places", &[("places", places.into())]),
        });
    }
    notes
}

#[cfg(test)]
mod tests {
    use super::largest_remainders;

    #[test]
    fn remainders_by_hand() {
        assert_eq!(largest_remainders(&[1.5, 2.25, 0.25]), [2, 2, 0]);
        assert_eq!(largest_remainders(&[1.0 / 3.0, 1.0 / 3.0, 1.0 / 3.0]), [1, 0, 0], "alike: the first");
        assert_eq!(largest_remainders(&[0.999_999_999_9, 2.000_000_000_1]), [1, 2]);
        assert_eq!(largest_remainders(&[0.4, 0.4, 0.2]), [1, 0, 0]);
        assert_eq!(largest_remainders(&[]), Vec::<u64>::new());
    }
}
