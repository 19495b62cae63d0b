//! Whole numbers in place of fractions, in tables that add up both ways.

/// Rounds each number of a table up or down so that every row and every column rounds up or down too, and the
/// whole with them: rows and columns that are whole numbers keep them. Fractions run in circles through rows and
/// columns, with the margins as one more of each; round a circle they are given from one to the next until one of
/// them is whole, which changes no sum (controlled rounding: Causey, Cox and Ernst 1985, *Journal of the American
/// Statistical Association* 80, from memory). Rows are of one length.
pub(super) fn whole(table: &[Vec<f64>]) -> Vec<Vec<u64>> {
    let (rows, columns) = (table.len(), table.first().map_or(0, Vec::len));
    let mut circles = Circles { columns: columns + 1, parts: vec![0.0; (rows + 1) * (columns + 1)] };
    for (row, line) in table.iter().enumerate() {
        for (column, value) in line.iter().enumerate() {
            let value = value.max(0.0);
            // The margins take away what the table gives: every row and column, they included, sums to nothing.
            for (at, sign) in
                [((row, column), 1.0), ((rows, column), -1.0), ((row, columns), -1.0), ((rows, columns), 1.0)]
            {
                *circles.at(at) += sign * value;
            }
        }
    }
    circles.settle(rows + 1);
    let lines = circles.parts.chunks(columns + 1).take(rows);
    lines.map(|line| line.iter().take(columns).map(|value| value.round().max(0.0) as u64).collect()).collect()
}

/// Brings the rows and the columns of a table to sums, as near as they allow.
pub(super) fn fit(table: &mut [Vec<f64>], rows: &[f64], columns: &[f64]) {
    let scale = |wanted: f64, sum: f64| if sum > 0.0 { wanted / sum } else { 1.0 };
    for _ in 0..500 {
        for (line, wanted) in table.iter_mut().zip(rows) {
            let by = scale(*wanted, line.iter().sum());
            line.iter_mut().for_each(|value| *value *= by);
        }
        for (column, wanted) in columns.iter().enumerate() {
            let by = scale(*wanted, table.iter().filter_map(|line| line.get(column)).sum());
            table.iter_mut().filter_map(|line| line.get_mut(column)).for_each(|value| *value *= by);
        }
    }
}

struct Circles {
    columns: usize,
    parts: Vec<f64>,
}

/// A row and a column.
type At = (usize, usize);

/// Sums of shares stand a hair off whole numbers.
const HAIR: f64 = 1e-6;

fn is_whole(value: f64) -> bool {
    (value - value.round()).abs() < HAIR
}

impl Circles {
    fn at(&mut self, (row, column): At) -> &mut f64 {
        let index = row * self.columns + column;
        &mut self.parts[index]
    }

    fn value(&self, (row, column): At) -> f64 {
        self.parts.get(row * self.columns + column).copied().unwrap_or(0.0)
    }

    /// Gives along circles of fractions until none is left.
    fn settle(&mut self, rows: usize) {
        // Rows before this one are whole.
        let mut first = 0;
        while let Some(circle) = self.circle(rows, &mut first) {
            // What each can give or take before it is whole: one way round, or the other.
            let room = |up: bool| {
                let turns = circle.iter().enumerate().map(|(turn, at)| {
                    let value = self.value(*at);
                    if (turn % 2 == 0) == up { value.ceil() - value } else { value - value.floor() }
                });
                turns.fold(f64::INFINITY, f64::min)
            };
            let (up, down) = (room(true), room(false));
            // The shorter way, so that what is nearly whole becomes so.
            let step = if up <= down { up } else { -down };
            for (turn, at) in circle.into_iter().enumerate() {
                let value = self.at(at);
                *value += if turn % 2 == 0 { step } else { -step };
                if is_whole(*value) {
                    *value = value.round();
                }
            }
        }
    }

    /// Fractions of which each shares a row or a column, in turn, with the next, and the last with the first.
    fn circle(&self, rows: usize, first: &mut usize) -> Option<Vec<At>> {
        let broken = |at: &At| !is_whole(self.value(*at));
        let row_of = |row: usize| (0..self.columns).map(move |column| (row, column));
        *first = (*first..rows).find(|row| row_of(*row).any(|at| broken(&at)))?;
        // A walk from rows to columns and back, never along the place that it came by: where a row or a column has
        // one fraction it has another, or its sum would not be whole.
        let (mut path, mut met) = (Vec::<At>::new(), vec![(true, *first)]);
        loop {
            let (is_row, index) = *met.last()?;
            let other = |at: &At| broken(at) && path.last() != Some(at);
            let next = match is_row {
                true => row_of(index).find(other)?,
                false => (*first..rows).map(|row| (row, index)).find(other)?,
            };
            path.push(next);
            let line = if is_row { (false, next.1) } else { (true, next.0) };
            if let Some(from) = met.iter().position(|known| *known == line) {
                return Some(path.split_off(from));
            }
            met.push(line);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::whole;

    /// Numbers from 0 to 1, the same on every run.
    fn dice(seed: &mut u64) -> f64 {
        *seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (*seed >> 11) as f64 / (1u64 << 53) as f64
    }

    #[test]
    fn whole_numbers_stay_and_halves_go_to_one_side() {
        assert_eq!(whole(&[vec![3.0, 4.0], vec![0.0, 1.0]]), [[3, 4], [0, 1]]);
        let halves = whole(&[vec![0.5, 0.5], vec![0.5, 0.5]]);
        assert!(halves == [[1, 0], [0, 1]] || halves == [[0, 1], [1, 0]], "{halves:?}");
        assert_eq!(whole(&[]), Vec::<Vec<u64>>::new());
    }

    #[test]
    fn every_number_and_every_sum_rounds_up_or_down() {
        let mut seed = 1;
        for _ in 0..300 {
            let (rows, columns) =
                (1 + (dice(&mut seed) * 9.0) as usize, 1 + (dice(&mut seed) * 9.0) as usize);
            let mut table: Vec<Vec<f64>> = (0..rows)
                .map(|_| {
                    let line =
                        (0..columns).map(|_| if dice(&mut seed) < 0.4 { 0.0 } else { dice(&mut seed) * 9.0 });
                    line.collect()
                })
                .collect();
            // Rows of whole numbers, as those of squares shared among parishes are.
            if dice(&mut seed) < 0.5 {
                for line in &mut table {
                    let sum: f64 = line.iter().sum();
                    if sum > 0.0 {
                        line.iter_mut().for_each(|value| *value *= sum.round().max(1.0) / sum);
                    }
                }
            }
            let found = whole(&table);
            let near = |whole: u64, real: f64| {
                let whole = whole as f64;
                assert!(
                    whole >= (real - 1e-5).floor() && whole <= (real + 1e-5).ceil(),
                    "{whole} for {real}"
                );
            };
            for (line, real) in found.iter().zip(&table) {
                line.iter().zip(real).for_each(|(whole, real)| near(*whole, *real));
                near(line.iter().sum(), real.iter().sum());
            }
            for column in 0..columns {
                near(
                    found.iter().map(|line| line[column]).sum(),
                    table.iter().map(|line| line[column]).sum(),
                );
            }
            near(found.iter().flatten().sum(), table.iter().flatten().sum());
        }
    }
}
