//! Where dust can explode the belt must conduct static charge.
//!
//! OSHA 29 CFR 1910.272(q)(2): surface resistance at most 300 MΩ (the limit of ISO 284 too). Read in
//! state copies of the rule.

use super::finding::unless;
use super::{Case, Finding, Rule, Verdict};
use crate::say;
use crate::say::name;
use crate::sources::Source;
use crate::tables::grain_handling;

/// Conductive belt for combustible dust.
pub const RULE: Rule = Rule {
    id: "belt-conductive",
    title: "Conductive belt",
    what: "Whether the belt conducts static charge, where the product's dust can burn or explode.",
    why: "A belt that insulates is charged at every pulley and may spark through a dust cloud.",
    remedy: "Order a belt with a surface resistance of at most 300 MΩ, and earth pulleys and casing.",
    source: grain_handling::BELT,
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    if !case.combustible() {
        return Vec::new();
    }
    let conductive = case.spec.belt.conductive.value;
    let source = if case.us() { case.grain_law(RULE.source) } else { Source::standard("ISO 284").remark("limit of a conductive belt").from_memory() };
    let product = name(&case.spec.product.name.value);
    let message = if conductive {
        say!("{product} is combustible and the belt is conductive (at most 300 MΩ)", product = product)
    } else {
        say!("{product} is combustible and the belt is not conductive (more than 300 MΩ)", product = product)
    };
    vec![RULE.finds(unless(conductive, Verdict::Fail), "belt.conductive", message).after(source).change("belt.conductive", &true)]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::worst;

    #[test]
    fn only_for_combustible_dust() {
        let dust = ("product.combustible", "true");
        assert_eq!(worst(&RULE, &[("product.combustible", "false"), ("belt.conductive", "false")]), None);
        assert_eq!(worst(&RULE, &[dust, ("belt.conductive", "true")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[dust, ("belt.conductive", "false")]), Some(Verdict::Fail));
    }
}
