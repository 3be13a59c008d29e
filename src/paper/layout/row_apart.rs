//! Keeps texts on one line apart, as far as a reader needs to see two figures and not one.
//!
//! In: texts with where they stand, how far each may slide, and the span that it measures. Out: the same, slid apart;
//! where there is no room for that, the one with the shorter span is to leave the line.

/// A text on a line; all lengths along the line, paper mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OnLine {
    /// Its middle.
    pub at: f64,
    /// Half its width.
    pub half: f64,
    /// Least and largest place of its middle; both are `at` when it cannot slide.
    pub free: (f64, f64),
    /// What it measures.
    pub span: f64,
    /// Whether it has to leave the line.
    pub leaves: bool,
}

impl OnLine {
    fn slides(&self) -> bool {
        self.free.1 > self.free.0
    }
    fn low(&self) -> f64 {
        self.at - self.half
    }
    fn high(&self) -> f64 {
        self.at + self.half
    }
}

/// Neighbours that stand nearer than `gap`, and how much is lacking.
fn too_near(texts: &[OnLine], gap: f64) -> Option<(usize, usize, f64)> {
    let mut row: Vec<(usize, &OnLine)> = texts.iter().enumerate().filter(|(_, t)| !t.leaves).collect();
    row.sort_by(|x, y| x.1.at.total_cmp(&y.1.at).then(x.0.cmp(&y.0)));
    row.iter().zip(row.iter().skip(1)).find_map(|((i, p), (j, q))| {
        let lacks = gap - (q.low() - p.high());
        (lacks > 1e-6).then_some((*i, *j, lacks))
    })
}

/// Slides texts until neighbours stand `gap` apart, or marks those that have to leave the line.
pub fn separate(texts: &mut [OnLine], gap: f64) {
    while let Some((i, j, lacks)) = too_near(texts, gap) {
        let (Some(p), Some(q)) = (texts.get(i).copied(), texts.get(j).copied()) else { return };
        // The lower one moves only as far as nothing below it minds; so every step leaves less to be done.
        let below = texts.iter().filter(|t| !t.leaves && t.at < p.at).map(|t| p.low() - gap - t.high()).fold(f64::INFINITY, f64::min);
        let down = (p.at - p.free.0).min(below).clamp(0.0, lacks);
        let up = (q.free.1 - q.at).clamp(0.0, lacks - down);
        let leaves = match (p.slides(), q.slides()) {
            (true, false) => i,
            (false, true) => j,
            _ if p.span < q.span => i,
            _ => j,
        };
        let apart = down + up >= lacks - 1e-6;
        for (k, text) in texts.iter_mut().enumerate() {
            match (apart, k) {
                (true, k) if k == i => text.at -= down,
                (true, k) if k == j => text.at += up,
                (false, k) if k == leaves => text.leaves = true,
                _ => {}
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn text(at: f64, width: f64, span: (f64, f64)) -> OnLine {
        let half = width / 2.0;
        OnLine { at, half, free: ((span.0 + half).min(at), (span.1 - half).max(at)), span: span.1 - span.0, leaves: false }
    }

    fn gaps(texts: &[OnLine]) -> Vec<f64> {
        let mut row: Vec<&OnLine> = texts.iter().filter(|t| !t.leaves).collect();
        row.sort_by(|p, q| p.at.total_cmp(&q.at));
        row.windows(2).map(|w| w[1].low() - w[0].high()).collect()
    }

    #[test]
    fn texts_with_room_slide() {
        let mut texts = [text(5.0, 8.0, (0.0, 10.0)), text(20.0, 18.0, (10.0, 30.0))];
        separate(&mut texts, 3.5);
        assert!(texts.iter().all(|t| !t.leaves) && gaps(&texts).iter().all(|g| *g >= 3.5 - 1e-6), "{texts:?}");
    }

    #[test]
    fn the_shorter_span_leaves_a_full_line() {
        let mut texts = [text(5.0, 9.0, (0.0, 10.0)), text(14.0, 7.0, (10.0, 18.0)), text(23.0, 9.0, (18.0, 28.0))];
        separate(&mut texts, 3.5);
        assert_eq!(texts.map(|t| t.leaves), [false, true, false]);
        assert!(gaps(&texts).iter().all(|g| *g >= 3.5 - 1e-6));
    }

    #[test]
    fn a_text_outside_its_arrows_stays() {
        let outside = OnLine { at: 12.0, half: 1.0, free: (12.0, 12.0), span: 0.5, leaves: false };
        let mut texts = [text(5.0, 9.0, (0.0, 10.0)), outside];
        separate(&mut texts, 3.5);
        assert_eq!((texts[0].leaves, texts[1]), (true, outside));
    }
}
