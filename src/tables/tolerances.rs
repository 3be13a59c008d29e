//! General tolerances, as a drawing names them: machined (ISO 2768-1), welded (ISO 13920), US plate work.
//!
//! Out: what the title block says. The limits stand in the standards; form and position are stated by value (ISO 22081),
//! since ISO 2768-2 is withdrawn.

use crate::sources::Source;
use crate::units::MM_PER_INCH;

/// Machined parts.
pub const SOURCE: Source = Source::standard("ISO 2768-1");
/// Welded structures.
pub const WELDED: Source = Source::standard("ISO 13920");

/// What US shops are told on drawings.
pub const US: Source = Source::practice("limits printed on US shop drawings of plate work, from memory");
/// General tolerances of an ISO sheet, machined and welded, as printed.
pub const ISO_SHOP: &str = "ISO 2768-m, ISO 13920-B";
/// Lengths of cut plates on a US sheet, ± mm.
pub const US_CUT_MM: f64 = MM_PER_INCH / 16.0;
/// Lengths of welded plate work on a US sheet, ± mm.
pub const US_WELDED_MM: f64 = MM_PER_INCH / 8.0;
/// Lengths of machined parts on a US sheet, ± mm.
pub const US_MACHINED_MM: f64 = MM_PER_INCH / 64.0;
/// Angles of machined parts on a US sheet, ± degrees.
pub const US_MACHINED_DEG: f64 = 1.0;
