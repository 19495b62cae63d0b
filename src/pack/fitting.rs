//! A table as it goes on a page: turned round when it is wider than long, without columns that hold nothing.

use crate::analyse::{Table, Value};
use crate::words::Words;

/// Columns beyond which a table is turned round where that helps.
const MANY_COLUMNS: usize = 12;

/// Columns that a long table may have on a page.
const MOST_COLUMNS: usize = 16;

/// A table as it goes on a page.
pub(super) fn fitted(table: &Table, words: &Words) -> Table {
    let mut table = table.clone();
    let empty = |table: &Table, column: usize| {
        let mut rows = table.rows.iter().chain(&table.totals);
        !table.rows.is_empty() && rows.all(|row| matches!(row.get(column), None | Some(Value::Empty)))
    };
    for column in (1..table.headings.len()).rev().filter(|column| empty(&table, *column)).collect::<Vec<_>>()
    {
        table.headings.remove(column);
        for row in table.rows.iter_mut().chain(&mut table.totals) {
            if column < row.len() {
                row.remove(column);
            }
        }
    }
    if table.headings.len() <= MANY_COLUMNS {
        return table;
    }
    if table.rows.len() + 2 >= table.headings.len() {
        return if table.headings.len() > MOST_COLUMNS { gathered(table, words) } else { table };
    }
    let all: Vec<&Vec<Value>> = table.rows.iter().chain(&table.totals).collect();
    let label = |value: Option<&Value>| match value {
        Some(Value::Text(text)) => text.clone(),
        _ => String::new(),
    };
    // What the rows now are has no heading of its own; the caption says it.
    let headings = std::iter::once(String::new()).chain(all.iter().map(|row| label(row.first()))).collect();
    let mut rows: Vec<Vec<Value>> = (1..table.headings.len())
        .map(|column| {
            let cells = all.iter().map(|row| row.get(column).cloned().unwrap_or(Value::Empty));
            std::iter::once(Value::Text(table.headings[column].clone())).chain(cells).collect()
        })
        .collect();
    // A last column of totals becomes the row of totals.
    let totals = if table.totals.is_some() { rows.pop() } else { None };
    Table { headings, rows, totals, ..table }
}

/// A table both long and wide: its smallest columns are gathered into one, which the note under it tells. The
/// files of the pack hold every column. Where they hold no figures that add up, it stays as it is.
fn gathered(mut table: Table, words: &Words) -> Table {
    let count = |value: Option<&Value>| match value {
        Some(Value::Whole(n)) => Some(*n as f64),
        Some(Value::Number(n, _)) => Some(*n),
        Some(Value::Empty) => Some(0.0),
        _ => None,
    };
    // The first column holds labels; a last one of totals is none of the parts.
    let columns: Vec<usize> = (1..table.headings.len().saturating_sub(1)).collect();
    let sum = |column: usize| table.rows.iter().map(|row| count(row.get(column))).sum::<Option<f64>>();
    let Some(mut sums) =
        columns.iter().map(|column| Some((*column, sum(*column)?))).collect::<Option<Vec<_>>>()
    else {
        return table;
    };
    sums.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
    let mut gone: Vec<usize> = sums.iter().skip(MOST_COLUMNS - 4).map(|(column, _)| *column).collect();
    gone.sort_unstable();
    let Some(last) = table.headings.len().checked_sub(1) else { return table };
    for row in table.rows.iter_mut().chain(&mut table.totals) {
        let parts: Vec<Option<&Value>> = gone.iter().map(|column| row.get(*column)).collect();
        let total: f64 = parts.iter().filter_map(|value| count(*value)).sum();
        let decimals = parts.iter().filter_map(|value| match value {
            Some(Value::Number(_, decimals)) => Some(*decimals),
            _ => None,
        });
        let together = match decimals.max() {
            _ if total == 0.0 && parts.iter().all(|value| matches!(value, None | Some(Value::Empty))) => {
                Value::Empty
            }
            Some(decimals) => Value::Number(total, decimals),
            None => Value::Whole(total as u64),
        };
        if last < row.len() {
            row.insert(last, together);
        }
        for column in gone.iter().rev() {
            if *column < row.len() {
                row.remove(*column);
            }
        }
    }
    let names: Vec<String> = gone.iter().map(|column| table.headings[*column].clone()).collect();
    table.headings.insert(last, words.say_with("pack-table-others", &[("n", gone.len().into())]));
    for column in gone.iter().rev() {
        table.headings.remove(*column);
    }
    table.notes.insert(
        0,
        words.say_with(
            "pack-table-others-note",
            &[("n", names.len().into()), ("list", words.list(&names).into())],
        ),
    );
    table
}

#[cfg(test)]
mod tests {
    use crate::analyse::{Table, Value};
    use crate::words::{Language, Words};

    fn fitted(table: &Table) -> Table {
        super::fitted(table, Words::of(Language::English))
    }

    fn table(rows: usize, columns: usize) -> Table {
        let row = |name: String| {
            std::iter::once(Value::Text(name)).chain((1..columns).map(|n| Value::Whole(n as u64))).collect()
        };
        Table {
            name: "t".to_owned(),
            title: "T".to_owned(),
            headings: (0..columns).map(|n| format!("h{n}")).collect(),
            rows: (0..rows).map(|n| row(format!("r{n}"))).collect(),
            totals: Some(row("all".to_owned())),
            notes: Vec::new(),
        }
    }

    #[test]
    fn a_wide_table_is_turned_round_and_keeps_every_value() {
        let turned = fitted(&table(3, 20));
        assert_eq!(turned.headings, ["", "r0", "r1", "r2", "all"]);
        assert_eq!(turned.rows.len(), 18);
        assert_eq!(turned.rows[4][0], Value::Text("h5".to_owned()));
        assert!(turned.rows.iter().zip(1..).all(|(row, n)| row[1..].iter().all(|v| *v == Value::Whole(n))));
        assert_eq!(turned.totals.unwrap()[0], Value::Text("h19".to_owned()));
        // A long one that is no wider than a page stays as it is.
        assert_eq!(fitted(&table(30, 16)), table(30, 16));
    }

    #[test]
    fn a_table_long_and_wide_keeps_its_largest_columns_and_every_sum() {
        let mut long = table(30, 20);
        for row in long.rows.iter_mut().chain(&mut long.totals) {
            row[19] = Value::Whole((1..19).sum());
        }
        let told = fitted(&long);
        // Twelve of the largest (7 to 18), the others together (1 to 6), the total.
        assert_eq!(told.headings.len(), 15);
        assert_eq!(told.headings[1..13], (7..19).map(|n| format!("h{n}")).collect::<Vec<_>>());
        for row in told.rows.iter().chain(&told.totals) {
            assert_eq!(row.len(), 15);
            assert_eq!((&row[13], &row[14]), (&Value::Whole(21), &Value::Whole(171)));
        }
        assert!(told.notes[0].contains("h1, h2") && told.notes[0].contains("h6"), "{}", told.notes[0]);
        // Bands do not add up.
        let mut bands = table(30, 20);
        bands.rows[0][3] = Value::Text("3–9".to_owned());
        assert_eq!(fitted(&bands), bands);
    }

    #[test]
    fn columns_that_hold_nothing_are_left_out() {
        let mut sparse = table(2, 4);
        for row in sparse.rows.iter_mut().chain(&mut sparse.totals) {
            row[2] = Value::Empty;
        }
        assert_eq!(fitted(&sparse).headings, ["h0", "h1", "h3"]);
    }
}
