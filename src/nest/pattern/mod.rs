//! Layouts that repeat: lattices, columns and rings of like pieces, cut to a sheet.

pub(in crate::nest) mod columns;
pub(in crate::nest) mod lattice;
pub(in crate::nest) mod patterns;
mod region;
pub(in crate::nest) mod ring;
