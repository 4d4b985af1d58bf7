//! Amounts of money, in whatever currency the job means.

/// An amount to the hundredths in which it is printed. Rounded where it arises, so that a total is the sum of what is printed.
#[must_use]
pub fn hundredths(amount: f64) -> f64 {
    (amount * 100.0).round() / 100.0
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Worked by hand: 0.0402 m and 0.0340 m at 12.00 a metre are 0.4824 and 0.408, printed 0.48 and 0.41, together 0.89.
    #[test]
    fn printed_amounts_add_up() {
        let sum = hundredths(0.0402 * 12.0) + hundredths(0.034 * 12.0);
        assert_eq!(format!("{sum:.2}"), "0.89");
    }
}
