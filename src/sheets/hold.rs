//! Dimensions of the pit whose values are only assumed: they carry HOLD.

use super::Subject;
use super::views::Look;
use crate::model::holds::holds;
use crate::paper::view::{Draft, Side};

/// Whether a key's value is only assumed.
pub(super) fn on_hold(subject: &Subject<'_>, key: &str) -> bool {
    holds(subject.spec).iter().any(|h| h.path == key)
}

/// A feature's dimension, marked HOLD when its value is only assumed.
pub(super) fn dimension(subject: &Subject<'_>, d: &mut Draft, look: Look, side: Side, chain: Option<&str>, id: &str) {
    let hold = on_hold(subject, id);
    if let Some(r) = look.dimension(d, subject.foot, side, id) {
        if let Some(c) = chain {
            r.chain(c);
        }
        if hold {
            r.suffix(" HOLD");
        }
    }
}
