//! General tolerances, as a drawing names them: machined (ISO 2768-1), welded (ISO 13920), US plate work.
//!
//! Out: the text of the title block. The limits stand in the standards; form and position are stated by value (ISO 22081),
//! since ISO 2768-2 is withdrawn.

use crate::sources::Source;

/// Machined parts.
pub const SOURCE: Source = Source::standard("ISO 2768-1");
/// Welded structures.
pub const WELDED: Source = Source::standard("ISO 13920");

/// What US shops are told on drawings.
pub const US: Source = Source::practice("limits printed on US shop drawings of plate work");
/// General tolerances of an ISO sheet, machined and welded, as printed.
pub const ISO_SHOP: &str = "ISO 2768-m, ISO 13920-B";
/// General tolerances of a US sheet of plate work, as printed.
pub const US_PLATE_WORK: &str = "CUT ±1/16\", WELDED ±1/8\"";
/// General tolerances of a US sheet of machined parts, as printed.
pub const US_MACHINED: &str = "MACHINED ±1/64\", ±1°";
