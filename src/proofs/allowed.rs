//! What may share space, what fills a hole that no bolt of ours goes through, what is held by lying in its place: each with
//! its reason.
//!
//! Ids are families: `bolt` is every `bolt.7`; `*` stands for anything.

use crate::machine::Body;
use crate::machine::moves::is_of;
use crate::parts::{Part, Parts};
use crate::solid::overlap::TOUCH;
use crate::tables::threads;

/// How deep two bodies may reach into each other.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Most {
    /// As deep as the thread of the bolt is cut into a hole that is tapped for it.
    Thread,
    /// So deep, mm.
    Deep(f64),
    /// As they please.
    Any,
}

/// Two families whose bodies may share space.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Allowed {
    /// The one.
    pub one: &'static str,
    /// The other.
    pub other: &'static str,
    /// How deep.
    pub most: Most,
    /// Why.
    pub why: &'static str,
}

/// Everything that may share space.
pub const ALLOWED: &[Allowed] = &[
    Allowed { one: "bolt", other: "*", most: Most::Thread, why: "thread in thread: the bolt is as thick as its thread, the hole as wide as its drill" },
    Allowed { one: "bucket_bolt", other: "belt", most: Most::Any, why: "the belt is punched for it; holes for bucket bolts are not shown" },
    Allowed { one: "bucket_bolt", other: "bucket", most: Most::Any, why: "the bucket is punched for it; holes for bucket bolts are not shown" },
];

/// What fills holes that no bolt of ours goes through.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Partner {
    /// What the holes are for, as they say themselves.
    pub feature: &'static str,
    /// What goes there.
    pub why: &'static str,
}

/// All of them.
pub const PARTNERS: &[Partner] = &[
    Partner { feature: "base.anchors_x", why: "anchor, chosen by the civil engineer from the loads" },
    Partner { feature: "lifting.shackle", why: "shackle of a sling, as long as the foot hangs on it" },
    Partner { feature: "sling", why: "hook or shackle of a sling, as long as what comes off hangs on it" },
    Partner { feature: "top flange", why: "flange of the trunking, by others, lies on it under the nuts" },
    Partner { feature: "up-side inlet flange", why: "flange of the spout, by others, lies on it under the heads" },
    Partner { feature: "down-side inlet flange", why: "flange of the spout, by others, lies on it under the heads" },
    Partner { feature: "up-side spout flange", why: "flange of the spout, by others, lies on it under the heads" },
    Partner { feature: "down-side spout flange", why: "flange of the spout, by others, lies on it under the heads" },
];

/// Two families of which one is held where it lies against the other.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lies {
    /// What is held.
    pub one: &'static str,
    /// What holds it.
    pub other: &'static str,
    /// How.
    pub why: &'static str,
}

/// All of them.
pub const LIES: &[Lies] = &[
    Lies { one: "key", other: "shaft", why: "in its keyway" },
    Lies { one: "bend_key", other: "bend_shaft", why: "in its keyway" },
    Lies { one: "sliding_plate", other: "guide", why: "slides in its guides" },
    Lies { one: "belt", other: "foot_pulley", why: "lies round it under its tension" },
    Lies { one: "belt_joint", other: "belt", why: "the belt's own ends, clamped" },
    Lies { one: "belt_joint", other: "belt_joint", why: "the belt's own ends, clamped" },
    Lies { one: "bucket_bolt", other: "bucket", why: "drawn into its wall by its nut" },
    Lies { one: "bucket_bolt", other: "belt", why: "drawn into the belt by its nut" },
    Lies { one: "take_up.nut", other: "bracket.shelf", why: "two lock the rod there" },
    Lies { one: "take_up.nut", other: "rod_lug", why: "two lock the rod there" },
    Lies { one: "take_up.buffer", other: "bracket.shelf", why: "lies on it round the rod, under the stop" },
    Lies { one: "take_up.disc", other: "take_up.buffer", why: "lies on it round the rod, under the stop" },
    Lies { one: "weight", other: "weight_box.bottom", why: "lies in the box" },
    Lies { one: "weight", other: "weight", why: "lies on the one below" },
    Lies { one: "foot.anchor", other: "foot.pad", why: "stands in the concrete; its nut holds the pad" },
    Lies { one: "nameplate", other: "side_plate", why: "glued on" },
    Lies { one: "*.mesh", other: "*.mesh_frame", why: "welded on all round by the guard's maker, spot by spot: no seam of the list" },
    Lies { one: "bearing", other: "bearing_bracket", why: "stands on it under its bolts" },
];

/// Whether an id is of a family of these lists; `*.mesh` is every id that ends so.
pub fn like(id: &str, family: &str) -> bool {
    family.strip_prefix('*').map_or_else(|| is_of(id, family), |end| id.ends_with(end))
}

/// Whether two ids are of two families, whichever is which.
pub fn both(ids: [&str; 2], one: &str, other: &str) -> bool {
    let [a, b] = ids;
    like(a, one) && like(b, other) || like(b, one) && like(a, other)
}

/// Whether two bodies may share space as they please.
pub fn is_free(one: &Body, other: &Body) -> bool {
    ALLOWED.iter().any(|a| a.most == Most::Any && both([&one.id, &other.id], a.one, a.other))
}

/// Why two bodies may reach so deep into each other; `None` if they may not.
pub fn allowed(parts: &Parts, one: &Body, other: &Body, deep: f64) -> Option<&'static Allowed> {
    ALLOWED.iter().find(|a| {
        both([&one.id, &other.id], a.one, a.other)
            && match a.most {
                Most::Any => true,
                Most::Deep(most) => deep <= most + TOUCH,
                Most::Thread => {
                    [(one, other), (other, one)].iter().any(|(bolt, plate)| thread_depth(parts, bolt, plate).is_some_and(|most| deep <= most + TOUCH))
                }
            }
    })
}

/// How deep the bolts of a joint are cut into the holes that are tapped for them in a plate, mm.
fn thread_depth(parts: &Parts, bolt: &Body, plate: &Body) -> Option<f64> {
    let number: usize = bolt.id.strip_prefix("bolt.")?.parse().ok()?;
    let joint = parts.joints.get(number.checked_sub(1)?)?;
    let thread = threads::find(&joint.thread)?;
    let tapped = |part: &Part| part.flat.iter().flat_map(|f| &f.holes).any(|h| h.feature == joint.feature && h.thread.as_deref() == Some(thread.name));
    parts.part(&plate.id).is_some_and(tapped).then_some((thread.diameter_mm - thread.tap_drill_mm) / 2.0)
}
