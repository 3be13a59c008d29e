//! Sheet sizes and frames: ISO 5457 A4–A0, ASME Y14.1 A–E.
//!
//! Sizes and borders: ISO 5457:1999 trimmed sizes read, borders and grid from memory; ASME Y14.1 from memory.

/// A trimmed sheet with its borders, paper mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Format {
    /// Name, e.g. `A3` or `ANSI D`.
    pub name: &'static str,
    /// Trimmed width, mm.
    pub width: f64,
    /// Trimmed height, mm.
    pub height: f64,
    /// Filing margin at the left, mm.
    pub left: f64,
    /// Margin at the other three sides, mm.
    pub margin: f64,
    /// Fields of the grid along the width.
    pub columns: usize,
    /// Fields of the grid along the height.
    pub rows: usize,
}

impl Format {
    const fn iso(name: &'static str, width: f64, height: f64, columns: usize, rows: usize) -> Self {
        Self { name, width, height, left: 20.0, margin: 10.0, columns, rows }
    }
    const fn ansi(name: &'static str, width: f64, height: f64, margin: f64, columns: usize, rows: usize) -> Self {
        Self { name, width: width * 25.4, height: height * 25.4, left: margin * 25.4, margin: margin * 25.4, columns, rows }
    }

    /// ISO sheets, smallest first; A4 upright, the others landscape.
    pub const ISO: [Format; 5] = [
        Self::iso("A4", 210.0, 297.0, 4, 6),
        Self::iso("A3", 420.0, 297.0, 8, 6),
        Self::iso("A2", 594.0, 420.0, 12, 8),
        Self::iso("A1", 841.0, 594.0, 16, 12),
        Self::iso("A0", 1189.0, 841.0, 24, 16),
    ];

    /// ANSI sheets, smallest first; A upright, the others landscape. Margins 0.5 in, from memory.
    pub const ANSI: [Format; 5] = [
        Self::ansi("ANSI A", 8.5, 11.0, 0.5, 2, 2),
        Self::ansi("ANSI B", 17.0, 11.0, 0.5, 4, 2),
        Self::ansi("ANSI C", 22.0, 17.0, 0.5, 4, 4),
        Self::ansi("ANSI D", 34.0, 22.0, 0.5, 8, 4),
        Self::ansi("ANSI E", 44.0, 34.0, 0.5, 8, 8),
    ];

    /// The sheet of this name (`A3`, `ANSI D`, `D`), or `None`.
    pub fn named(name: &str) -> Option<Format> {
        Self::ISO.iter().chain(&Self::ANSI).find(|f| f.name == name || f.name.strip_prefix("ANSI ").is_some_and(|n| n == name)).copied()
    }
}
