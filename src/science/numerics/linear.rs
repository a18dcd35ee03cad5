//! Small sets of linear equations.

/// The solution x of A x = b, by elimination with the largest pivot of each column; none where the
/// rows of A hang together, or are not as many as the numbers in each and in b.
///
/// Source: any text on linear algebra; Golub & Van Loan 1996, *Matrix Computations*, algorithm 3.4.1.
#[must_use]
pub fn solved(matrix: &[Vec<f64>], right: &[f64]) -> Option<Vec<f64>> {
    /// A pivot so much smaller than the largest number of the matrix is nought but for rounding.
    const NOUGHT: f64 = 1e-14;
    let size = right.len();
    if matrix.len() != size || matrix.iter().any(|row| row.len() != size) {
        return None;
    }
    let largest = matrix
        .iter()
        .flatten()
        .fold(0.0, |most: f64, entry| most.max(entry.abs()));
    let mut rows: Vec<Vec<f64>> = matrix
        .iter()
        .zip(right)
        .map(|(row, &right)| row.iter().copied().chain([right]).collect())
        .collect();
    for column in 0..size {
        let pivot = (column..size)
            .max_by(|&a, &b| rows[a][column].abs().total_cmp(&rows[b][column].abs()))?;
        let size_of_pivot = rows[pivot][column].abs();
        if size_of_pivot.is_nan() || size_of_pivot <= NOUGHT * largest {
            return None;
        }
        rows.swap(column, pivot);
        let (above, below) = rows.split_at_mut(column + 1);
        let top = &above[column];
        for row in below {
            let times = row[column] / top[column];
            for (entry, &over) in row.iter_mut().zip(top).skip(column) {
                *entry -= times * over;
            }
        }
    }
    let mut x = vec![0.0; size];
    for row in (0..size).rev() {
        let known: f64 = (row + 1..size)
            .map(|place| rows[row][place] * x[place])
            .sum();
        x[row] = (rows[row][size] - known) / rows[row][row];
    }
    Some(x)
}

/// The inverse of a matrix; none where it has none.
#[must_use]
pub fn inverse(matrix: &[Vec<f64>]) -> Option<Vec<Vec<f64>>> {
    let size = matrix.len();
    let columns: Option<Vec<Vec<f64>>> = (0..size)
        .map(|column| {
            let unit: Vec<f64> = (0..size)
                .map(|row| f64::from(u8::from(row == column)))
                .collect();
            solved(matrix, &unit)
        })
        .collect();
    let columns = columns?;
    Some(
        (0..size)
            .map(|row| columns.iter().map(|column| column[row]).collect())
            .collect(),
    )
}

/// aᵀ M b.
#[must_use]
pub fn between(a: &[f64], matrix: &[Vec<f64>], b: &[f64]) -> f64 {
    matrix
        .iter()
        .zip(a)
        .map(|(row, a)| a * row.iter().zip(b).map(|(entry, b)| entry * b).sum::<f64>())
        .sum()
}
