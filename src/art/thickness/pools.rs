//! Rising water: which discs lie in one pool, and which of them is its floor.

/// Pools of discs, each with its lowest disc as its floor (union-find).
pub(super) struct Pools {
    above: Vec<usize>,
    open: Vec<bool>,
}

impl Pools {
    pub(super) fn new(count: usize) -> Self {
        Self { above: (0..count).collect(), open: vec![false; count] }
    }

    pub(super) fn open(&mut self, number: usize) {
        self.open[number] = true;
    }

    pub(super) fn is_open(&self, number: usize) -> bool {
        self.open[number]
    }

    /// The floor of the pool a disc belongs to.
    pub(super) fn floor(&mut self, number: usize) -> usize {
        let mut root = number;
        while self.above[root] != root {
            root = self.above[root];
        }
        let mut at = number;
        while self.above[at] != root {
            at = std::mem::replace(&mut self.above[at], root);
        }
        root
    }

    /// Joins two pools; gives the floor that stays and the one that is covered.
    pub(super) fn join(&mut self, a: usize, b: usize, depth: impl Fn(usize) -> f64) -> (usize, usize) {
        let (a, b) = (self.floor(a), self.floor(b));
        let (kept, lost) = if depth(a) <= depth(b) { (a, b) } else { (b, a) };
        self.above[lost] = kept;
        (kept, lost)
    }
}
