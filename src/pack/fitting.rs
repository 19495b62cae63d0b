//! A table as it goes on a page: turned round when it is wider than long, without columns that hold nothing.

use crate::analyse::{Table, Value};

/// Columns beyond which a table is turned round where that helps.
const MANY_COLUMNS: usize = 12;

/// A table as it goes on a page.
pub(super) fn fitted(table: &Table) -> Table {
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
    if table.headings.len() <= MANY_COLUMNS || table.rows.len() + 2 >= table.headings.len() {
        return table;
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

#[cfg(test)]
mod tests {
    use super::fitted;
    use crate::analyse::{Table, Value};

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
        // A long one stays as it is.
        assert_eq!(fitted(&table(30, 20)), table(30, 20));
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
