//! States of a search that are known to lead nowhere, so that none is gone into twice.
//!
//! Only a number made of a state is kept, in one of so many places, and a later one takes the place of an earlier. Two states
//! whose numbers are the same by chance (one in 2^48 at this size) would cost a layout not found, never one that is wrong.

/// Places, a power of two.
const PLACES: usize = 1 << 16;

/// Numbers of states that failed.
#[derive(Debug)]
pub(super) struct DeadEnds {
    states: Vec<u64>,
}

impl DeadEnds {
    pub(super) fn none() -> Self {
        Self { states: vec![0; PLACES] }
    }

    pub(super) fn holds(&self, state: u64) -> bool {
        self.states[place(state)] == state
    }

    pub(super) fn add(&mut self, state: u64) {
        self.states[place(state)] = state;
    }
}

#[allow(clippy::cast_possible_truncation, reason = "cut down to the places there are")]
const fn place(state: u64) -> usize {
    state as usize & (PLACES - 1)
}

/// A number in which every bit hangs on every bit of both (the last steps of S. Vigna's splitmix64, 2015).
pub(super) const fn mixed(state: u64, with: u64) -> u64 {
    let mut z = (state ^ with).wrapping_add(0x9e37_79b9_7f4a_7c15);
    z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    z ^ (z >> 31)
}

/// A length as a number, to a ten-thousandth of a millimetre.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "casts saturate, and any number will do")]
pub(super) fn of_length(length: f64) -> u64 {
    (length * 1e4).round() as i64 as u64
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_added_is_held_until_another_takes_its_place() {
        let mut ends = DeadEnds::none();
        let (one, other) = (mixed(1, of_length(12.5)), mixed(1, of_length(12.5001)));
        assert!(one != other && !ends.holds(one));
        ends.add(one);
        assert!(ends.holds(one) && !ends.holds(other));
        let same_place = one ^ (1 << 40);
        ends.add(same_place);
        assert!(ends.holds(same_place) && !ends.holds(one));
    }

    /// Lengths that rounding alone tells apart are the same.
    #[test]
    fn sums_in_another_order_are_the_same_length() {
        assert_eq!(of_length(0.1 + 0.2 + 0.3), of_length(0.3 + 0.2 + 0.1));
    }
}
