//! Bought goods by the metre and by the piece, as a metric or a US shop orders them.
//!
//! In: which shop. Out: words with sizes for the lists. Inch goods are the usual ones next in size (common practice, no source).

use crate::say;
use crate::say::{Amount, Statement, size};

/// A size of metric or of inch goods, the latter in sixteenths of an inch.
fn of_shop(us: bool, metric_mm: f64, sixteenths: f64) -> Amount {
    size(if us { sixteenths / 16.0 * crate::units::MM_PER_INCH } else { metric_mm }, 1)
}

/// Self-adhesive strip for a bolted flange.
pub fn flange_strip(us: bool) -> Statement {
    say!("EPDM strip {wide} × {thick}, self-adhesive", wide = of_shop(us, 30.0, 20.0), thick = of_shop(us, 3.0, 2.0))
}

/// Sheet for the leaf of a door or the cover of an opening.
pub fn leaf_gasket(us: bool) -> Statement {
    say!("EPDM sheet {thick}, frame cut to the leaf", thick = of_shop(us, 3.0, 2.0))
}

/// Sheet for the lid of a shovel pocket.
pub fn lid_gasket(us: bool) -> Statement {
    say!("EPDM sheet {thick}, frame cut to the lid", thick = of_shop(us, 3.0, 2.0))
}

/// Felt in the guides of the sliding plates.
pub fn guide_felt(us: bool) -> Statement {
    say!("felt strip {wide} × {thick} in the guides", wide = of_shop(us, 20.0, 12.0), thick = of_shop(us, 10.0, 6.0))
}
