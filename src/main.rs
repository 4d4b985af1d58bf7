//! The `hemwright` program.

fn main() {}
