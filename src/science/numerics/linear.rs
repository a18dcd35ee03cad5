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

/// The lower triangle L of a symmetric matrix A = L Lᵀ whose quadratic forms are above 0.
#[derive(Clone, Debug, PartialEq)]
pub struct Triangle {
    rows: Vec<Vec<f64>>,
}

impl Triangle {
    /// The triangle of a matrix, of which only the lower half is looked at; none where a pivot is
    /// not above nought, or the rows are too short.
    ///
    /// Source: Golub & Van Loan 1996, *Matrix Computations*, algorithm 4.2.2 (Cholesky).
    #[must_use]
    pub fn of(matrix: &[Vec<f64>]) -> Option<Self> {
        let mut rows: Vec<Vec<f64>> = Vec::with_capacity(matrix.len());
        for (place, full) in matrix.iter().enumerate() {
            let mut row: Vec<f64> = Vec::with_capacity(place + 1);
            for (column, above) in rows.iter().enumerate() {
                let known: f64 = row.iter().zip(above).map(|(a, b)| a * b).sum();
                row.push((full.get(column)? - known) / above[column]);
            }
            let pivot = full.get(place)? - row.iter().map(|entry| entry * entry).sum::<f64>();
            if !(pivot > 0.0 && pivot.is_finite()) {
                return None;
            }
            row.push(pivot.sqrt());
            rows.push(row);
        }
        Some(Self { rows })
    }

    /// The rows, each as far as the diagonal.
    #[must_use]
    pub fn rows(&self) -> &[Vec<f64>] {
        &self.rows
    }

    /// The y of L y = b. Numbers of b beyond the matrix are left out.
    #[must_use]
    pub fn forward(&self, right: &[f64]) -> Vec<f64> {
        let mut found: Vec<f64> = Vec::with_capacity(self.rows.len());
        for (row, right) in self.rows.iter().zip(right) {
            let known: f64 = row.iter().zip(&found).map(|(a, b)| a * b).sum();
            found.push((right - known) / row[row.len() - 1]);
        }
        found
    }

    /// The x of A x = b.
    #[must_use]
    pub fn solved(&self, right: &[f64]) -> Vec<f64> {
        let mut x = self.forward(right);
        for place in (0..x.len()).rev() {
            let known: f64 = (place + 1..x.len())
                .map(|below| self.rows[below][place] * x[below])
                .sum();
            x[place] = (x[place] - known) / self.rows[place][place];
        }
        x
    }

    /// The sum of the logarithms of the diagonal: half the logarithm of A's determinant.
    #[must_use]
    pub fn ln_product_of_diagonal(&self) -> f64 {
        self.rows.iter().map(|row| row[row.len() - 1].ln()).sum()
    }
}
