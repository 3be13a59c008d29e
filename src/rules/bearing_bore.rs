//! The shaft's bearing seats fit a stock insert bearing, and are not thicker than the shaft.
//!
//! Bores of the 200 series (metric, and the inch bores offered in the same size). Beyond the table
//! the unit on the sheets is drawn in proportion and has to be replaced by the chosen one.

use super::{Case, Finding, Rule, Verdict};
use crate::say;
use crate::say::mm;
use crate::tables::bearings;
use crate::units::{Length, Unit};

/// Journal against stock bores.
pub const RULE: Rule = Rule {
    id: "bearing-bore",
    title: "Bearing bore",
    what: "Diameter of the shaft in the bearings against the bores of stock insert bearings and against the shaft.",
    why: "Stock bearings are shared with the rest of the plant; a bore between sizes has to be made.",
    remedy: "Turn the bearing seats to a stock bore no larger than the shaft.",
    source: bearings::SOURCE,
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let path = "shaft.journal";
    let (journal, shaft) = (case.foot.rotating.journal, case.foot.rotating.shaft_diameter);
    let mut stock: Vec<f64> = bearings::ALL.iter().flat_map(|b| std::iter::once(b.bore_mm).chain(b.inch_bores_mm())).collect();
    stock.sort_by(f64::total_cmp);
    let is_stock = bearings::by_bore_mm(journal).is_some() || bearings::by_inch_bore_mm(journal).is_some();
    let largest = stock.last().copied().unwrap_or(0.0);
    let (verdict, message) = if journal > shaft + 1e-6 {
        (Verdict::Fail, say!("the bearing seats ({journal}) are thicker than the shaft ({shaft})", journal = mm(journal), shaft = mm(shaft)))
    } else if is_stock {
        (Verdict::Pass, say!("{bore} is a stock bore, not over the shaft of {shaft}", bore = mm(journal), shaft = mm(shaft)))
    } else if journal > largest {
        (
            Verdict::Note,
            say!(
                "{bore} is beyond the insert bearings of the table (up to {largest}): choose the unit and replace its sizes",
                bore = mm(journal),
                largest = mm(largest)
            ),
        )
    } else {
        (
            Verdict::Warn,
            say!("{bore} is not a stock bore of an insert bearing, which may be as large as the shaft of {shaft}", bore = mm(journal), shaft = mm(shaft)),
        )
    };
    let limit = if verdict == Verdict::Note { largest } else { shaft };
    let finding = RULE.finds(verdict, path, message).value(journal, Unit::Mm).limit(limit, Unit::Mm);
    let bound = shaft.min(largest);
    // Metric jobs get metric bores; only a bore that exists in inches keeps inches.
    // The next one up where the shaft has room for it, or the largest that it has.
    let bores = || bearings::ALL.iter().map(|b| b.bore_mm).filter(|b| *b <= bound + 1e-6);
    let wish = bores().find(|b| *b >= journal - 1e-6).or(bores().next_back());
    vec![match wish {
        Some(bore) if verdict != Verdict::Note => finding.change(path, &Length::mm(bore)),
        _ => finding,
    }]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{SMALL, proposed, worst};

    #[test]
    fn stock_bores() {
        let shaft = ("shaft.diameter", "\"80 mm\"");
        for (journal, verdict) in [("\"70 mm\"", Verdict::Pass), ("\"80 mm\"", Verdict::Pass), ("\"71 mm\"", Verdict::Warn), ("\"81 mm\"", Verdict::Fail)] {
            assert_eq!(worst(&RULE, &[shaft, ("shaft.journal", journal)]), Some(verdict), "{journal}");
        }
        assert_eq!(worst(&RULE, &[("shaft.diameter", "\"200 mm\""), ("shaft.journal", "\"160 mm\"")]), Some(Verdict::Note));
        // A seat as thick as the shaft is no fault, whatever its bore.
        assert_eq!(worst(&RULE, &[("shaft.diameter", "\"71 mm\""), ("shaft.journal", "\"71 mm\"")]), Some(Verdict::Warn));
        // The largest stock bore is one, and an odd size below it is not a special bearing; a bearing seat may be as thick as the shaft.
        let thick = ("shaft.diameter", "\"200 mm\"");
        assert_eq!(worst(&RULE, &[thick, ("shaft.journal", "\"89 mm\"")]), Some(Verdict::Warn));
        assert_eq!(proposed(&RULE, SMALL, &[thick, ("shaft.journal", "\"89 mm\"")]), ["shaft.journal = \"90 mm\""]);
        assert_eq!(proposed(&RULE, SMALL, &[shaft, ("shaft.journal", "\"81 mm\"")]), ["shaft.journal = \"80 mm\""]);
    }
}
