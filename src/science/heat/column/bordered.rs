//! Equations of a chain, each node joined to its neighbours and all to one more that they share.

/// Room to solve in, kept from step to step.
#[derive(Clone, Debug)]
pub(super) struct Bordered {
    /// What stands on the diagonal.
    pub diagonal: Vec<f64>,
    /// Conductance to the next node.
    pub link: Vec<f64>,
    /// The right side.
    pub right: Vec<f64>,
    /// Conductance to the shared node.
    pub shared: Vec<f64>,
    /// Diagonal of the shared node without its conductances to the chain; nought if there is none.
    pub shared_diagonal: f64,
    /// Right side of the shared node.
    pub shared_right: f64,
    swept: Vec<f64>,
    by_shared: Vec<f64>,
}

impl Bordered {
    pub fn new(nodes: usize) -> Self {
        Self {
            diagonal: vec![0.0; nodes],
            link: vec![0.0; nodes],
            right: vec![0.0; nodes],
            shared: vec![0.0; nodes],
            shared_diagonal: 0.0,
            shared_right: 0.0,
            swept: vec![0.0; nodes],
            by_shared: vec![0.0; nodes],
        }
    }

    /// Solves by sweeping up and back (Thomas's algorithm: any text on numerical methods), the shared node
    /// last. Leaves the chain in `into` and returns the shared node, nought if there is none. The matrix is
    /// diagonally dominant, so that no pivot vanishes.
    pub fn solve(&mut self, into: &mut [f64]) -> f64 {
        let nodes = self.diagonal.len();
        let has_shared = self.shared_diagonal > 0.0;
        let (mut above, mut right, mut by_shared) = (0.0, 0.0, 0.0);
        let mut link_below = 0.0;
        for (node, x) in into.iter_mut().enumerate() {
            // (d_i - l² w_{i-1}) x_i - l_i x_{i+1} = r_i + l_{i-1} r'_{i-1}
            let pivot = 1.0 / (self.diagonal[node] - link_below * above);
            right = (self.right[node] + link_below * right) * pivot;
            above = self.link[node] * pivot;
            *x = right;
            self.swept[node] = above;
            if has_shared {
                by_shared = (self.shared[node] + link_below * by_shared) * pivot;
                self.by_shared[node] = by_shared;
            }
            link_below = self.link[node];
        }
        for node in (0..nodes.saturating_sub(1)).rev() {
            into[node] += self.swept[node] * into[node + 1];
            if has_shared {
                self.by_shared[node] += self.swept[node] * self.by_shared[node + 1];
            }
        }
        if !has_shared {
            return 0.0;
        }
        // x = u + v A; Σ g (A - x) + d A = r.
        let (mut own, mut from_chain) = (self.shared_diagonal, self.shared_right);
        for ((x, shared), by_shared) in into.iter().zip(&self.shared).zip(&self.by_shared) {
            own += shared * (1.0 - by_shared);
            from_chain += shared * x;
        }
        let shared = from_chain / own;
        for (x, by_shared) in into.iter_mut().zip(&self.by_shared) {
            *x += by_shared * shared;
        }
        shared
    }
}
