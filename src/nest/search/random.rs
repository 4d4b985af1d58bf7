//! Random numbers that are the same on every machine.

/// xoshiro256++ by D. Blackman and S. Vigna (2019), seeded through splitmix64 as its authors advise.
#[derive(Clone, Debug)]
pub(in crate::nest) struct Random([u64; 4]);

impl Random {
    /// A stream of its own for each pair of seed and purpose.
    pub(in crate::nest) fn new(seed: u64, stream: u64) -> Self {
        let mut state = seed ^ stream.wrapping_mul(0xa076_1d64_78bd_642f);
        Self([(); 4].map(|()| {
            state = state.wrapping_add(0x9e37_79b9_7f4a_7c15);
            let mixed = (state ^ (state >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
            let mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
            mixed ^ (mixed >> 31)
        }))
    }

    fn next(&mut self) -> u64 {
        let s = &mut self.0;
        let result = s[0].wrapping_add(s[3]).rotate_left(23).wrapping_add(s[0]);
        let kept = s[1] << 17;
        s[2] ^= s[0];
        s[3] ^= s[1];
        s[1] ^= s[2];
        s[0] ^= s[3];
        s[2] ^= kept;
        s[3] = s[3].rotate_left(45);
        result
    }

    /// Evenly in `[0, 1)`.
    pub(in crate::nest) fn unit(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1u64 << 53) as f64
    }

    /// Evenly between two bounds; the lower one when they are the wrong way round.
    pub(in crate::nest) fn between(&mut self, low: f64, high: f64) -> f64 {
        low + self.unit() * (high - low).max(0.0)
    }

    /// An index below `count`, which must not be zero.
    pub(in crate::nest) fn below(&mut self, count: usize) -> usize {
        #[allow(clippy::cast_possible_truncation, reason = "the product's upper half is below count, which is a usize")]
        let index = ((u128::from(self.next()) * count as u128) >> 64) as usize;
        index
    }

    /// A random order, by Fisher and Yates.
    pub(in crate::nest) fn shuffle<T>(&mut self, values: &mut [T]) {
        for last in (1..values.len()).rev() {
            values.swap(last, self.below(last + 1));
        }
    }
}
