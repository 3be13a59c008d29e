//! Printed chains close: what a reader adds up along a dimension line comes to the printed whole beside it.
//!
//! Each figure is first written as the sheet asks. Where the figures of a chain do not add up to a dimension of the
//! view that spans them, chain and whole get one more digit (half the fraction of an inch), then two; where even
//! that cannot close (thirds), the ends are rounded and the figures are the distances between rounded ends. Then a
//! figure may differ from its measure by one unit of its last digit, but their sum holds.

use super::dimension_text::dimension_text;
use crate::paper::drafting::SheetStyle;
use crate::paper::request::{DimensionRequest, Quantity, Side};
use crate::say::number::{self, Written};

/// Highest number of digits, or halvings of the fraction, beyond the sheet's.
const FINEST: u32 = 2;

/// How a figure is written.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Figure {
    value: f64,
    written: Written,
}

impl Figure {
    fn read(&self, style: &SheetStyle) -> f64 {
        number::as_read(self.value, style, self.written)
    }
}

/// A member of a chain or a dimension that may span some: its place along the strip.
struct Span {
    request: usize,
    side: Side,
    low: f64,
    high: f64,
}

/// The texts of all requests, in their order.
pub fn texts(requests: &[DimensionRequest], style: &SheetStyle) -> Vec<String> {
    figures(requests, style).iter().zip(requests).map(|(f, r)| dimension_text(r, f.value, f.written, style)).collect()
}

fn figures(requests: &[DimensionRequest], style: &SheetStyle) -> Vec<Figure> {
    let mut out: Vec<Figure> = requests.iter().map(|r| Figure { value: r.value(), written: Written::asked(r.decimals) }).collect();
    for horizontal in [true, false] {
        let all = spans(requests, horizontal);
        let runs = runs(requests, &all);
        // Chains that share a whole are settled one after the other, and once more after the last.
        for run in runs.iter().chain(&runs) {
            close(run, &all, style, &mut out);
        }
    }
    out
}

fn spans(requests: &[DimensionRequest], horizontal: bool) -> Vec<Span> {
    let span = |(request, r): (usize, &DimensionRequest)| match r.quantity {
        Quantity::Linear { side, first, second } if side.horizontal() == horizontal => {
            let (a, b) = if horizontal { (first.x, second.x) } else { (first.y, second.y) };
            Some(Span { request, side, low: a.min(b), high: a.max(b) })
        }
        _ => None,
    };
    requests.iter().enumerate().filter_map(span).collect()
}

fn same(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-6
}

/// Members of one chain that follow each other without a gap.
fn runs<'a>(requests: &[DimensionRequest], all: &'a [Span]) -> Vec<Vec<&'a Span>> {
    let chain = |s: &Span| requests.get(s.request).and_then(|r| r.chain.as_ref());
    let mut members: Vec<&Span> = all.iter().filter(|s| chain(s).is_some()).collect();
    members.sort_by(|a, b| (a.side, chain(a)).cmp(&(b.side, chain(b))).then(a.low.total_cmp(&b.low)));
    let mut out: Vec<Vec<&Span>> = Vec::new();
    for m in members {
        match out.last_mut().filter(|run| run.last().is_some_and(|l| (l.side, chain(l)) == (m.side, chain(m)) && same(l.high, m.low))) {
            Some(run) => run.push(m),
            None => out.push(vec![m]),
        }
    }
    out.retain(|run| run.len() > 1);
    out
}

/// Gives a run, and the dimensions that span some of it, the digits with which they add up.
fn close(run: &[&Span], all: &[Span], style: &SheetStyle, out: &mut [Figure]) {
    let end = |at: f64, high: bool| run.iter().position(|m| same(if high { m.high } else { m.low }, at));
    let wholes: Vec<(usize, usize, usize)> = all
        .iter()
        .filter_map(|s| Some((s.request, end(s.low, false)?, end(s.high, true)?)))
        .filter(|(request, from, to)| to > from && !run.iter().any(|m| m.request == *request))
        .collect();
    let taking_part: Vec<usize> = run.iter().map(|m| m.request).chain(wholes.iter().map(|w| w.0)).collect();
    let read = |request: usize, out: &[Figure]| out.get(request).map_or(0.0, |f| f.read(style));
    let closes = |out: &[Figure]| {
        wholes.iter().all(|(whole, from, to)| {
            let sum: f64 = run.iter().take(to + 1).skip(*from).map(|m| read(m.request, out)).sum();
            (sum - read(*whole, out)).abs() < 1e-6
        })
    };
    if closes(out) {
        return;
    }
    let plain: Vec<Figure> = out.to_vec();
    let digits = taking_part.iter().filter_map(|i| plain.get(*i)).map(|f| number::digits(f.value, style, f.written)).max().unwrap_or(0);
    for finer in 0..=FINEST {
        for i in &taking_part {
            if let Some(f) = out.get_mut(*i) {
                f.written = Written { decimals: Some(digits + finer as usize), finer, trimmed: true };
            }
        }
        if closes(out) {
            return;
        }
    }
    // Rounded ends instead of rounded distances, with one digit more than asked.
    let written = Written { decimals: Some(digits + 1), finer: 1, trimmed: true };
    let start = run.first().map_or(0.0, |m| m.low);
    let rounded = |at: f64| number::as_read(at - start, style, written);
    for span in run.iter().copied().chain(all.iter().filter(|s| wholes.iter().any(|w| w.0 == s.request))) {
        if let Some(f) = out.get_mut(span.request) {
            *f = Figure { value: rounded(span.high) - rounded(span.low), written };
        }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::paper::mark::PlanePoint;
    use crate::say::LengthUnit;
    use proptest::prelude::*;

    fn request(key: &str, from: f64, to: f64) -> DimensionRequest {
        DimensionRequest::new(key, Quantity::Linear { side: Side::Below, first: PlanePoint::new(from, 0.0), second: PlanePoint::new(to, 0.0) })
    }

    /// A chain over these points and the whole beside it.
    fn chain_and_whole(points: &[f64]) -> Vec<DimensionRequest> {
        let mut all: Vec<DimensionRequest> = points.windows(2).map(|w| request("member", w[0], w[1])).collect();
        all.iter_mut().for_each(|r| {
            r.chain("x");
        });
        all.push(request("whole", points[0], *points.last().unwrap()));
        all
    }

    /// Half widths of a pit as measured: to one digit 1194.8 and 1294.8 would come to 2489.6.
    #[test]
    fn a_measured_pit_adds_up() {
        let style = SheetStyle::default();
        assert_eq!(texts(&chain_and_whole(&[-1194.750525, 0.0, 1294.750525]), &style), ["1194.75", "1294.75", "2489.5"]);
        assert_eq!(texts(&chain_and_whole(&[0.0, 100.0, 250.0]), &style), ["100", "150", "250"]);
        // Thirds of a metre never close digit by digit: rounded ends do.
        assert_eq!(texts(&chain_and_whole(&[0.0, 1000.0 / 3.0, 2000.0 / 3.0, 1000.0]), &style), ["333.33", "333.34", "333.33", "1000"]);
    }

    /// The reader's own arithmetic on the printed text.
    fn added_up(text: &str, style: &SheetStyle) -> f64 {
        match style.unit {
            LengthUnit::Mm => text.parse().unwrap(),
            LengthUnit::InchDecimal => text.trim_end_matches('"').parse().unwrap(),
            LengthUnit::InchFraction => {
                let (feet, inches) = text.trim_end_matches('"').split_once("'-").map_or((0.0, text.trim_end_matches('"')), |(f, i)| (f.parse().unwrap(), i));
                let inches: f64 = inches
                    .split(' ')
                    .map(|p| p.split_once('/').map_or_else(|| p.parse::<f64>().unwrap(), |(a, b)| a.parse::<f64>().unwrap() / b.parse::<f64>().unwrap()))
                    .sum();
                feet * 12.0 + inches
            }
        }
    }

    proptest! {
        #[test]
        fn printed_members_add_up_to_the_printed_whole(steps in proptest::collection::vec(1.0..900.0_f64, 2..7), unit in 0..3_usize) {
            let style = SheetStyle { figures: crate::say::Figures { unit: [LengthUnit::Mm, LengthUnit::InchDecimal, LengthUnit::InchFraction][unit], ..Default::default() }, ..SheetStyle::default() };
            let mut points = vec![-350.25];
            for s in steps {
                points.push(points.last().unwrap() + s);
            }
            let requests = chain_and_whole(&points);
            let printed: Vec<f64> = texts(&requests, &style).iter().map(|t| added_up(t, &style)).collect();
            let (whole, members) = printed.split_last().unwrap();
            prop_assert!((members.iter().sum::<f64>() - whole).abs() < 1e-6, "{:?}", texts(&requests, &style));
            // And no figure lies by more than its last digit allows.
            let unit_mm = if unit == 0 { 1.0 } else { 25.4 };
            for (r, p) in requests.iter().zip(&printed) {
                prop_assert!((r.value() - p * unit_mm).abs() < if unit == 0 { 0.101 } else { 25.4 / 16.0 }, "{} as {p}", r.value());
            }
        }
    }
}
