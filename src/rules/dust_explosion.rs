//! A combustible dust: what the plant has to see to, on every sheet.
//!
//! A caution, never a pass: the program checks some of it (belt, bearings, monitoring), the rest is the
//! site's assessment. EN 1127-1; in US jobs OSHA 29 CFR 1910.272 for grain and NFPA 660 for other dusts; all from memory.

use super::{Case, Finding, Rule, Verdict};
use crate::say;
use crate::say::name;
use crate::sources::Source;

/// Dust caution.
pub const RULE: Rule = Rule {
    id: "dust-explosion",
    title: "Dust explosion",
    what: "Whether the product's dust can burn or explode.",
    why: "A bucket elevator holds the dust cloud, the moving metal and the path between floors in one casing.",
    remedy: "Have the site assessed: zones, venting or suppression, isolation, earthing, housekeeping. Local codes and licensed practice govern.",
    source: Source::standard("EN 1127-1").remark("explosion prevention and protection").from_memory(),
    check,
};

/// Grain in the US.
const US_GRAIN: Source = Source::law("OSHA 29 CFR 1910.272").remark("grain handling facilities").from_memory();
/// Other dusts in the US.
const US: Source = Source::standard("NFPA 660").remark("combustible dusts").from_memory();

fn check(case: &Case<'_>) -> Vec<Finding> {
    if !case.combustible() {
        return Vec::new();
    }
    let message = say!(
        "dust of {product} can burn or explode: assess zones, explosion protection, isolation and earthing on site; the rules here cover belt, bearings, monitoring and access only",
        product = name(&case.spec.product.name.value),
    );
    let source = match (case.us(), case.spec.product.is_grain()) {
        (true, true) => US_GRAIN,
        (true, false) => US,
        (false, _) => RULE.source,
    };
    vec![RULE.finds(Verdict::Note, "product.combustible", message).after(source)]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::worst;

    #[test]
    fn caution_for_dust() {
        assert_eq!(worst(&RULE, &[("product.combustible", "true")]), Some(Verdict::Note));
        assert_eq!(worst(&RULE, &[("product.combustible", "false")]), None);
    }
}
