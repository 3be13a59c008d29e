//! Quantities as people write them, read term by term: numbers, fractions, units in their usual spellings.
//!
//! In: a text and the tables of one quantity. Out: the number in its base unit, or what is wrong with what might be meant instead, in the user's own
//! numbers. A comma is never guessed at: where it may part thousands as well as decimals, both readings are named.

use super::gauge;
use super::number::{MM_PER_INCH, plain_number};
use super::spelled::spelled;

/// What is wrong with a text that should be a quantity.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Misread {
    /// A plain sentence.
    pub why: String,
    /// What may be typed instead, with when it is meant.
    pub instead: Vec<(String, &'static str)>,
}

impl Misread {
    fn plain(why: impl Into<String>) -> Self {
        Self { why: why.into(), instead: Vec::new() }
    }
}

/// A unit that is not taken: its spelling, why, and units to be written instead with the factor to them and when they are meant.
pub type Refused = (&'static str, &'static str, &'static [(&'static str, f64, &'static str)]);

/// How one quantity is written.
#[derive(Debug, Clone, Copy)]
pub(super) struct Tables {
    /// Units that messages list.
    pub units: &'static [(&'static str, f64)],
    /// Units that are understood as well.
    pub also: &'static [(&'static str, f64)],
    /// Units that are refused for a reason.
    pub refused: &'static [Refused],
    /// Whether a bare number is understood.
    pub bare: bool,
    /// Forms that are no sums of terms.
    pub form: Form,
}

/// Forms that are no sums of terms.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Form {
    /// None.
    Sum,
    /// Lengths: sheet metal by its gauge, `10 ga`.
    Gauge,
    /// Ratios: `1:100`, `1 in 100`.
    Share,
    /// Angles: a slope such as `1:2` or `5 %` is none, and is reckoned over for the message.
    Slope,
}

impl Tables {
    fn find(&self, unit: &str) -> Option<f64> {
        self.units.iter().chain(self.also).find(|(name, _)| name.eq_ignore_ascii_case(unit)).map(|u| u.1)
    }

    /// Factor of a unit as somebody spells it.
    pub fn factor(&self, unit: &str) -> Option<f64> {
        self.find(&spelled(unit))
    }

    /// Whether units of this quantity have a power: in a length a digit behind a unit begins the next term.
    fn powers(&self) -> bool {
        self.units.iter().any(|(name, _)| name.contains(|c: char| c.is_ascii_digit()))
    }

    /// Reads a text.
    pub fn read(&self, text: &str) -> Result<f64, Misread> {
        let clean = cleaned(text);
        if clean.is_empty() {
            return Err(Misread::plain("nothing is written here"));
        }
        if let Some(read) = self.formed(&clean) {
            return read;
        }
        let (sign, mut rest) = match clean.strip_prefix('-') {
            Some(r) => (-1.0, r.trim_start()),
            None => (1.0, clean.strip_prefix('+').unwrap_or(&clean).trim_start()),
        };
        let mut sum = 0.0;
        let mut terms = 0;
        while !rest.is_empty() {
            let before = &clean[..clean.len() - rest.len()];
            let (number, after) = take_number(rest).map_err(|wrong| wrong.within(before))?;
            let after = after.trim_start();
            let (unit, next) = self.take_unit(after);
            if unit.is_empty() {
                if self.bare && terms == 0 && next.trim().is_empty() {
                    return Ok(sign * number);
                }
                return Err(Misread::plain("the unit is missing"));
            }
            let known = spelled(unit);
            let factor = self.find(&known).ok_or_else(|| self.unknown(unit, &known, (terms == 0).then_some(sign * number)))?;
            sum += number * factor;
            terms += 1;
            rest = next.trim_start().trim_start_matches('-').trim_start();
        }
        Ok(sign * sum)
    }

    /// What is said of a unit that is not in the tables; `number` is the one before it where it is the first.
    fn unknown(&self, unit: &str, known: &str, number: Option<f64>) -> Misread {
        let Some((_, why, instead)) = self.refused.iter().find(|r| r.0.eq_ignore_ascii_case(known)) else {
            return Misread::plain(format!("\"{unit}\" is not a unit that fits here"));
        };
        let typed = |number: f64| instead.iter().map(|(unit, factor, when)| (format!("{} {unit}", short(number * factor)), *when)).collect();
        Misread { why: format!("\"{unit}\": {why}"), instead: number.map_or_else(Vec::new, typed) }
    }

    /// The unit at the beginning of a text, and what comes behind it.
    fn take_unit<'a>(&self, text: &'a str) -> (&'a str, &'a str) {
        let mut last = ' ';
        for (at, c) in text.char_indices() {
            if c.is_ascii_digit() {
                let next = text[at + 1..].chars().next();
                let power =
                    self.powers() && matches!(c, '2' | '3') && (last.is_alphabetic() || last == '^') && !next.is_some_and(|n| n.is_ascii_digit() || n == '.');
                // `1/min`
                let one = at == 0 || last == '/';
                if !power && !one {
                    return split(text, at);
                }
            }
            last = c;
        }
        split(text, text.len())
    }

    fn formed(&self, text: &str) -> Option<Result<f64, Misread>> {
        let number = |t: &str| take_number(t.trim()).ok().filter(|(_, rest)| rest.trim().is_empty()).map(|n| n.0);
        match self.form {
            Form::Sum => None,
            Form::Gauge => {
                let (digits, unit) = text.split_at(text.find(|c: char| !c.is_ascii_digit())?);
                if spelled(unit) != "ga" {
                    return None;
                }
                let inch = digits.parse().ok().and_then(gauge::thickness_in);
                Some(
                    inch.map(|inch| inch * MM_PER_INCH)
                        .ok_or_else(|| Misread::plain(format!("there is no gauge {digits} of sheet steel; gauges go from 3 to 26"))),
                )
            }
            Form::Share => {
                let lower = text.to_lowercase();
                let (top, bottom) = lower.split_once(':').or_else(|| lower.split_once(" in "))?;
                let (top, bottom) = (number(top)?, number(bottom)?);
                Some(if bottom > 0.0 { Ok(top / bottom) } else { Err(Misread::plain("the share divides by zero")) })
            }
            Form::Slope => {
                let of = |slope: f64| format!("{} deg", short((slope.atan().to_degrees() * 100.0).round() / 100.0));
                if let Some((a, b)) = text.split_once(':') {
                    let (a, b) = (number(a).filter(|a| *a > 0.0)?, number(b).filter(|b| *b > 0.0)?);
                    let why = "a slope such as 1:2 is written the one way and the other; an angle is asked for";
                    let both = vec![(of(a / b), "for rise to run"), (of(b / a), "for run to rise")];
                    return Some(Err(Misread { why: why.into(), instead: if a == b { vec![(of(1.0), "")] } else { both } }));
                }
                let slope = number(text.strip_suffix('%')?)?;
                Some(Err(Misread { why: "a slope in per cent is no angle".into(), instead: vec![(of(slope / 100.0), "")] }))
            }
        }
    }
}

fn split(text: &str, at: usize) -> (&str, &str) {
    let (unit, rest) = text.split_at(at);
    (unit.trim().trim_end_matches('-').trim(), rest)
}

/// A number as it would be typed: six figures, no zeros at its end.
fn short(value: f64) -> String {
    let figures = if value == 0.0 { 0 } else { value.abs().log10().floor() as i32 + 1 };
    plain_number(value, usize::try_from(6 - figures).unwrap_or(0))
}

/// The same text with one sign for each thing: minus, powers, marks of feet and inches, fractions, spaces.
fn cleaned(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.trim().chars() {
        match c {
            '−' | '–' => out.push('-'),
            '²' => out.push('2'),
            '³' => out.push('3'),
            '″' | '”' | '“' => out.push('"'),
            '′' | '’' | '‘' => out.push('\''),
            '⁄' => out.push('/'),
            'º' => out.push('°'),
            c if c.is_whitespace() => out.push(' '),
            c => match FRACTIONS.iter().find(|f| f.0 == c) {
                Some((_, fraction)) => {
                    out.push(' ');
                    out.push_str(fraction);
                }
                None => out.push(c),
            },
        }
    }
    out.trim().replace("''", "\"")
}

const FRACTIONS: [(char, &str); 15] = [
    ('½', "1/2"),
    ('¼', "1/4"),
    ('¾', "3/4"),
    ('⅛', "1/8"),
    ('⅜', "3/8"),
    ('⅝', "5/8"),
    ('⅞', "7/8"),
    ('⅓', "1/3"),
    ('⅔', "2/3"),
    ('⅕', "1/5"),
    ('⅖', "2/5"),
    ('⅗', "3/5"),
    ('⅘', "4/5"),
    ('⅙', "1/6"),
    ('⅚', "5/6"),
];

/// What is wrong with a number, and what it may be instead; the rest of the text stays as it is.
#[derive(Debug, PartialEq)]
struct BadNumber<'a> {
    why: String,
    instead: Vec<(String, &'static str)>,
    rest: &'a str,
}

impl BadNumber<'_> {
    /// The whole text with the number put right.
    fn within(self, before: &str) -> Misread {
        let rest = self.rest;
        Misread { why: self.why, instead: self.instead.into_iter().map(|(number, when)| (format!("{before}{number}{rest}"), when)).collect() }
    }

    fn plain(why: impl Into<String>) -> Self {
        Self { why: why.into(), instead: Vec::new(), rest: "" }
    }
}

/// A decimal number, optionally followed by a fraction (`1 1/2`) or being one (`3/4`).
fn take_number(text: &str) -> Result<(f64, &str), BadNumber<'_>> {
    let (number, rest) = take_decimal(text)?;
    if let Some(bottom) = rest.strip_prefix('/').filter(|b| b.starts_with(|c: char| c.is_ascii_digit())) {
        let (den, tail) = take_whole(bottom)?;
        return Ok((number / den, tail));
    }
    let spaced = rest.trim_start();
    let gap = spaced.strip_prefix('-').unwrap_or(spaced).trim_start();
    let top_end = gap.find(|c: char| !c.is_ascii_digit()).unwrap_or(gap.len());
    if top_end > 0 && gap[top_end..].starts_with('/') && gap[top_end + 1..].starts_with(|c: char| c.is_ascii_digit()) {
        let top: f64 = gap[..top_end].parse().map_err(|_| BadNumber::plain(format!("\"{gap}\" is not a fraction")))?;
        let (den, tail) = take_whole(&gap[top_end + 1..])?;
        return Ok((number + top / den, tail));
    }
    Ok((number, rest))
}

/// The longest number that a text begins with: digits with points and commas, groups of three behind spaces.
fn take_decimal(text: &str) -> Result<(f64, &str), BadNumber<'_>> {
    let end = text.find(|c: char| !(c.is_ascii_digit() || ".,_".contains(c))).unwrap_or(text.len());
    // `1 000`: three digits and no more, and no fraction.
    let group = |from: usize| {
        let next = text[from..].strip_prefix(' ')?;
        let digits = next.find(|c: char| !c.is_ascii_digit()).unwrap_or(next.len());
        (digits == 3 && !next[3..].trim_start().starts_with('/')).then_some(from + 4)
    };
    let mut spaced = end;
    if (1..=3).contains(&end) && text[..end].bytes().all(|b| b.is_ascii_digit()) {
        while let Some(further) = group(spaced) {
            spaced = further;
        }
        if spaced > end {
            let decimals = text[spaced..].strip_prefix('.').map_or(0, |d| 1 + d.find(|c: char| !c.is_ascii_digit()).unwrap_or(d.len()));
            spaced += decimals;
        }
    }
    let (digits, rest) = text.split_at(spaced);
    let digits = digits.replace(' ', "");
    if !digits.contains(|c: char| c.is_ascii_digit()) {
        return Err(BadNumber::plain(format!("\"{text}\" does not begin with a number")));
    }
    number(&digits).map(|n| (n, rest)).map_err(|(why, instead)| BadNumber { why, instead, rest })
}

/// What is wrong with a number, and what it may be.
type Wrong = (String, Vec<(String, &'static str)>);

/// Whether groups are those of thousands: one to three digits, then three each.
fn grouped(groups: &[&str]) -> bool {
    groups.len() > 1 && (1..=3).contains(&groups[0].len()) && !groups[0].starts_with('0') && groups[1..].iter().all(|g| g.len() == 3)
}

fn number(digits: &str) -> Result<f64, Wrong> {
    let parse = |text: &str| text.parse().map_err(|_| (format!("\"{digits}\" is not a number"), Vec::new()));
    let (commas, points) = (digits.matches(',').count(), digits.matches('.').count());
    let bare = || digits.replace(['.', ',', '_'], "");
    if commas == 0 {
        let groups: Vec<&str> = digits.split('.').collect();
        if points > 1 && grouped(&groups) {
            return Err((format!("\"{digits}\" has points between its thousands"), vec![(bare(), "")]));
        }
        return parse(&digits.replace('_', ""));
    }
    let decimal = "a decimal comma is not understood in the spec; write a point";
    // Points before the comma part thousands, so the comma parts decimals.
    if points > 0 && digits.find('.') < digits.find(',') {
        let whole = digits.split(',').next().unwrap_or_default();
        let groups: Vec<&str> = whole.split('.').collect();
        let right = commas == 1 && grouped(&groups);
        let meant = || digits.replace('.', "").replace(',', ".");
        return Err(if right { (decimal.into(), vec![(meant(), "")]) } else { (format!("\"{digits}\" is not a number"), Vec::new()) });
    }
    let (whole, decimals) = digits.split_once('.').map_or((digits, None), |(w, d)| (w, Some(d)));
    let groups: Vec<&str> = whole.split(',').collect();
    if grouped(&groups) && points <= 1 {
        if commas > 1 || decimals.is_some() {
            return parse(&digits.replace([',', '_'], ""));
        }
        let point: f64 = parse(&digits.replace(',', "."))?;
        let both = vec![(bare(), "if the comma parts thousands"), (short(point), "if it parts decimals")];
        return Err((format!("the comma in \"{digits}\" may part thousands or decimals; write the number without it"), both));
    }
    if commas == 1 && points == 0 && digits.ends_with(|c: char| c.is_ascii_digit()) {
        return Err((decimal.into(), vec![(digits.replace(',', "."), "")]));
    }
    Err((format!("\"{digits}\" is not a number"), Vec::new()))
}

fn take_whole(text: &str) -> Result<(f64, &str), BadNumber<'_>> {
    let end = text.find(|c: char| !c.is_ascii_digit()).unwrap_or(text.len());
    let den: f64 = text[..end].parse().map_err(|_| BadNumber::plain("the fraction has no lower number"))?;
    if den == 0.0 {
        return Err(BadNumber::plain("the fraction divides by zero"));
    }
    Ok((den, &text[end..]))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(digits: &str) -> Result<f64, Vec<String>> {
        take_number(digits).map(|n| n.0).map_err(|bad| bad.instead.into_iter().map(|i| i.0).collect())
    }

    #[test]
    fn numbers() {
        for (written, value) in [
            ("12", 12.0),
            ("0.5", 0.5),
            (".5", 0.5),
            ("5.", 5.0),
            ("1 1/2", 1.5),
            ("1-1/2", 1.5),
            ("8 1/2", 8.5),
            ("3/4", 0.75),
            ("1 000", 1000.0),
            ("12 345 678.5", 12_345_678.5),
            ("1_000", 1000.0),
            ("1,250.5", 1250.5),
            ("1,000,000", 1e6),
            ("1.000", 1.0),
            ("1 100/200", 1.5),
        ] {
            assert_eq!(read(written), Ok(value), "{written}");
        }
    }

    /// A comma that may part thousands or decimals is never decided for the user.
    #[test]
    fn commas() {
        for (written, meant) in [
            ("1,000", &["1000", "1"][..]),
            ("40,000", &["40000", "40"]),
            ("6,500", &["6500", "6.5"]),
            ("0,450", &["0.450"]),
            ("1,5", &["1.5"]),
            ("12,34", &["12.34"]),
            ("1.250,5", &["1250.5"]),
            ("1.000.000", &["1000000"]),
            ("1,2,3", &[]),
            ("1,,000", &[]),
            ("1.2.3", &[]),
            ("1,00,000", &[]),
            ("12,", &[]),
            ("1/0", &[]),
            ("mm", &[]),
        ] {
            let expected: Vec<String> = meant.iter().map(|m| (*m).to_string()).collect();
            assert_eq!(read(written), Err(expected), "{written}");
        }
    }
}
