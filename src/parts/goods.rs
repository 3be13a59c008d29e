//! Bought goods by the metre and by the piece, as a metric or a US shop orders them.
//!
//! In: which shop. Out: words for the lists. Inch goods are the usual ones next in size (common practice, no source).

/// Self-adhesive strip for a bolted flange.
pub const fn flange_strip(us: bool) -> &'static str {
    if us { "EPDM strip 1 1/4\" × 1/8\", self-adhesive" } else { "EPDM strip 30 × 3, self-adhesive" }
}

/// Sheet for the leaf of a door or the cover of an opening.
pub const fn leaf_gasket(us: bool) -> &'static str {
    if us { "EPDM sheet 1/8\", frame cut to the leaf" } else { "EPDM sheet 3, frame cut to the leaf" }
}

/// Sheet for the lid of a shovel pocket.
pub const fn lid_gasket(us: bool) -> &'static str {
    if us { "EPDM sheet 1/8\", frame cut to the lid" } else { "EPDM sheet 3, frame cut to the lid" }
}

/// Felt in the guides of the sliding plates.
pub const fn guide_felt(us: bool) -> &'static str {
    if us { "felt strip 3/4\" × 3/8\" in the guides" } else { "felt strip 20 × 10 in the guides" }
}
