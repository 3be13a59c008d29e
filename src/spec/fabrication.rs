//! `[fabrication]`: how the plates are cut and bent, and from what stock.

use super::reader::{spec_table, words};
use crate::units::{Length, Ratio};

words!(
    /// How plates are cut; decides which holes can be cut and which must be drilled.
    Process {
        /// Laser: holes down to the plate's thickness.
        Laser = "laser",
        /// Plasma: holes down to 1.5 times the plate's thickness.
        Plasma = "plasma",
        /// Contours are cut, every bolt hole is drilled.
        Drill = "drill",
    }
);

words!(
    /// How contours are written in cutting files.
    CutProfile {
        /// DXF R2010, closed polylines with true arcs.
        Polylines = "r2010 polylines",
        /// DXF R2010, lines and arcs.
        LinesAndArcs = "r2010 lines and arcs",
        /// DXF R12, old-style polylines.
        R12 = "r12",
    }
);

spec_table!(
    /// Cutting and bending.
    Fabrication, AskedFabrication, "fabrication", {
        /// How plates are cut.
        process: Process;
        /// Neutral line in a bend as a share of the thickness from the inside; left out, DIN 6935 decides.
        k_factor: Option<Ratio>, 0.1 ..= 0.5;
        /// Longest plate in stock.
        stock_length: Length, 500.0 ..= 20000.0;
        /// Widest plate in stock.
        stock_width: Length, 300.0 ..= 5000.0;
        /// How cutting files are written.
        profile: CutProfile;
    }
);
