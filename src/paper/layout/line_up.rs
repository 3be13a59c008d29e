//! Places intervals in order along a line, as near as possible to where they want to be.
//!
//! Dynamic programming over a raster of positions: the exact optimum on the raster, deterministic.
//! Used for raised dimension texts and for the columns of notes and balloons.

/// One interval to place.
#[derive(Debug, Clone)]
pub struct Want {
    /// Where its reference point would like to be, mm.
    pub at: f64,
    /// How far it reaches toward smaller coordinates, mm.
    pub low: f64,
    /// How far it reaches toward larger coordinates, mm.
    pub high: f64,
}

/// Positions of the reference points, in the order given, or `None` if there is no room between `from` and `to`.
///
/// `cost` adds to the distance moved and is never negative; an infinite cost forbids the position.
pub fn line_up(wants: &[Want], gap: f64, from: f64, to: f64, step: f64, cost: &dyn Fn(usize, f64) -> f64) -> Option<Vec<f64>> {
    if wants.is_empty() {
        return Some(Vec::new());
    }
    let n = ((to - from) / step).floor();
    if !(0.0..=5000.0).contains(&n) {
        return None;
    }
    let n = n as usize + 1;
    let at = |k: usize| from + k as f64 * step;
    // best[i][k]: cheapest placement of intervals 0..=i with i at raster point ≤ k, and where i then is.
    let mut best: Vec<Vec<(f64, usize)>> = Vec::with_capacity(wants.len());
    for (i, w) in wants.iter().enumerate() {
        let mut row: Vec<(f64, usize)> = Vec::with_capacity(n);
        let back = i.checked_sub(1).and_then(|j| wants.get(j)).map_or(0.0, |p| p.high + gap + w.low);
        let shift = (back / step).ceil() as usize;
        for k in 0..n {
            let p = at(k);
            let before = match best.last() {
                None => 0.0,
                Some(prev) => k.checked_sub(shift).and_then(|q| prev.get(q)).map_or(f64::INFINITY, |b| b.0),
            };
            let inside = p - w.low >= from - 1e-9 && p + w.high <= to + 1e-9;
            let last = row.last().copied().unwrap_or((f64::INFINITY, 0));
            // A cost is never negative: what is dearer without it need not be asked.
            let least = before + (p - w.at).abs();
            let own = if inside && least < last.0 - 1e-9 { least + cost(i, p) } else { f64::INFINITY };
            row.push(if own < last.0 - 1e-9 { (own, k) } else { last });
        }
        best.push(row);
    }
    let mut k = n - 1;
    let mut out = vec![0.0; wants.len()];
    for i in (0..wants.len()).rev() {
        let (c, at_k) = *best.get(i)?.get(k)?;
        if !c.is_finite() {
            return None;
        }
        *out.get_mut(i)? = at(at_k);
        if i > 0 {
            let w = wants.get(i)?;
            let p = wants.get(i - 1)?;
            k = at_k.checked_sub(((p.high + gap + w.low) / step).ceil() as usize)?;
        }
    }
    Some(out)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn want(at: f64) -> Want {
        Want { at, low: 2.0, high: 2.0 }
    }

    #[test]
    fn crowded_intervals_spread_about_their_middle() {
        let got = line_up(&[want(50.0), want(50.0), want(50.0)], 1.0, 0.0, 100.0, 0.5, &|_, _| 0.0).unwrap();
        assert_eq!(got, [45.0, 50.0, 55.0]);
    }

    #[test]
    fn forbidden_places_are_left_free_and_too_little_room_is_said() {
        let got = line_up(&[want(50.0)], 1.0, 0.0, 100.0, 0.5, &|_, p| if (40.0..58.0).contains(&p) { f64::INFINITY } else { 0.0 }).unwrap();
        assert_eq!(got, [58.0]);
        assert!(line_up(&[want(5.0), want(5.0), want(5.0)], 1.0, 0.0, 10.0, 0.5, &|_, _| 0.0).is_none());
    }
}
