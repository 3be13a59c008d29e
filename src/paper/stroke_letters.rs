//! Single-stroke letters for part marks: capitals, digits, dash, drawn by us after ISO 3098 proportions.
//!
//! In: a text, a place, a height. Out: open chains of straight strokes in the same unit. A letter is
//! 6/10 of its height wide, 2/10 apart (ISO 3098 type B, from memory). Other characters leave a gap.

use super::mark::{PlanePoint, Shape};

/// Strokes on a grid 6 wide and 10 high: chains parted by blanks, each point two digits x, y (`a` is 10).
const LETTERS: &[(char, &str)] = &[
    ('A', "003a60 1353"),
    ('B', "000a4a59564505 4564614000"),
    ('C', "684a2a0802204062"),
    ('D', "000a4a68624000"),
    ('E', "6a0a0060 0545"),
    ('F', "6a0a00 0545"),
    ('G', "684a2a08022040626535"),
    ('H', "000a 606a 0565"),
    ('I', "303a"),
    ('J', "6a62402002"),
    ('K', "000a 6a04 2660"),
    ('L', "0a0060"),
    ('M', "000a356a60"),
    ('N', "000a606a"),
    ('O', "2a4a6862402002082a"),
    ('P', "000a4a68664505"),
    ('Q', "2a4a6862402002082a 4260"),
    ('R', "000a4a68664505 3560"),
    ('S', "684a2a080625456462402002"),
    ('T', "0a6a 3a30"),
    ('U', "0a022040626a"),
    ('V', "0a306a"),
    ('W', "0a1037506a"),
    ('X', "006a 0a60"),
    ('Y', "0a356a 3530"),
    ('Z', "0a6a0060"),
    ('0', "2a4a6862402002082a"),
    ('1', "083a30"),
    ('2', "082a4a68660060"),
    ('3', "082a4a6866456462402002"),
    ('4', "404a0363"),
    ('5', "6a0a06466462402002"),
    ('6', "5a280402204062644604"),
    ('7', "0a6a20"),
    ('8', "2a4a6866452506082a 4564624020020425"),
    ('9', "104266684a2a08062466"),
    ('-', "1555"),
];

/// Chains of one character on the grid; none when it has no letter.
fn chains(c: char) -> Vec<Vec<(f64, f64)>> {
    let Some((_, code)) = LETTERS.iter().find(|(l, _)| *l == c) else { return Vec::new() };
    code.split(' ')
        .map(|chain| {
            let digits: Vec<f64> = chain.chars().filter_map(|d| d.to_digit(16)).map(f64::from).collect();
            digits.chunks_exact(2).filter_map(|p| Some((*p.first()?, *p.get(1)?))).collect()
        })
        .collect()
}

/// The strokes of a text whose lower left corner is `at`.
pub fn strokes(text: &str, at: PlanePoint, height: f64) -> Vec<Shape<PlanePoint>> {
    let unit = height / 10.0;
    text.chars()
        .enumerate()
        .flat_map(|(i, c)| {
            let left = at.x + i as f64 * 8.0 * unit;
            chains(c).into_iter().map(move |chain| Shape::chain(chain.into_iter().map(|(x, y)| PlanePoint::new(left + x * unit, at.y + y * unit))))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_letter_is_whole_and_in_its_box() {
        for (c, code) in LETTERS {
            assert!(code.split(' ').all(|chain| chain.len() % 2 == 0 && chain.len() >= 4), "{c}");
            assert!(chains(*c).iter().flatten().all(|(x, y)| *x <= 6.0 && *y <= 10.0), "{c}");
        }
        assert!("ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-".chars().all(|c| !chains(c).is_empty()));
        assert!(strokes("é", PlanePoint::default(), 10.0).is_empty());
    }
}
