//! Units as people spell them, brought to the one spelling of our tables.
//!
//! In: what stands behind a number (`cu. ft.`, `tonnes per hour`, `PIW`). Out: `ft3`, `t/h`, `lbf/in`. Whether it is a unit that fits is
//! for the tables to say; an unknown word stays as it is. A bare `ton` stays a `ton`: there are two.

/// Whole spellings that are no words joined by rule.
const WHOLE: &[(&str, &str)] = &[
    ("per cent", "%"),
    ("percent", "%"),
    ("pct", "%"),
    ("fpm", "ft/min"),
    ("fps", "ft/s"),
    ("pcf", "lb/ft3"),
    ("psf", "lb/ft2"),
    ("piw", "lbf/in"),
    ("pli", "lbf/in"),
    ("bph", "bu/h"),
    ("cfh", "ft3/h"),
    ("cfm", "ft3/min"),
    ("pph", "lb/h"),
    ("tph", "ton/h"),
    ("mtph", "t/h"),
    ("stph", "st/h"),
    ("tpd", "ton/d"),
    ("kph", "km/h"),
    ("r/min", "rpm"),
    ("1/min", "rpm"),
    ("rev/min", "rpm"),
    ("turn/min", "rpm"),
];

/// Single words and abbreviations.
const WORDS: &[(&str, &[&str])] = &[
    ("mm", &["millimetre", "millimetres", "millimeter", "millimeters"]),
    ("cm", &["centimetre", "centimetres", "centimeter", "centimeters"]),
    ("m", &["metre", "metres", "meter", "meters", "mtr", "mtrs"]),
    ("in", &["inch", "inches", "ins"]),
    ("ft", &["foot", "feet"]),
    ("yd", &["yard", "yards", "yds"]),
    ("deg", &["degree", "degrees", "degs"]),
    ("rad", &["radian", "radians"]),
    ("kg", &["kilogram", "kilograms", "kilogramme", "kilogrammes", "kilo", "kilos", "kgs"]),
    ("g", &["gram", "grams", "gramme", "grammes", "gm"]),
    ("t", &["tonne", "tonnes", "mt"]),
    ("ton", &["tons"]),
    ("lb", &["lbs", "lbm", "pound", "pounds"]),
    ("oz", &["ounce", "ounces"]),
    ("bu", &["bushel", "bushels", "bsh", "bus"]),
    ("gal", &["gallon", "gallons", "gals"]),
    ("l", &["litre", "litres", "liter", "liters", "ltr", "ltrs"]),
    ("cm3", &["cc", "ccm"]),
    ("m3", &["cbm"]),
    ("in3", &["cuin", "cui"]),
    ("ft3", &["cuft", "cft"]),
    ("h", &["hour", "hours", "hr", "hrs"]),
    ("min", &["minute", "minutes", "mins"]),
    ("s", &["second", "seconds", "sec", "secs"]),
    ("d", &["day", "days"]),
    ("year", &["years", "yr", "yrs", "a"]),
    ("n", &["newton", "newtons"]),
    ("kn", &["kilonewton", "kilonewtons"]),
    ("kip", &["kips"]),
    ("turn", &["turns", "revolution", "revolutions"]),
    ("ga", &["gauge", "gage"]),
];

/// Pairs of words that are one unit.
const PAIRS: &[(&str, &str, &str)] = &[
    ("short", "ton", "st"),
    ("us", "ton", "st"),
    ("long", "ton", "lt"),
    ("metric", "ton", "t"),
    ("pound", "force", "lbf"),
    ("lb", "force", "lbf"),
    ("lb", "f", "lbf"),
];

/// The one spelling of a unit, in small letters.
pub(super) fn spelled(unit: &str) -> String {
    let plain = unit.trim().to_lowercase().replace(['.', '^', '·'], "");
    let whole = |text: &str| WHOLE.iter().find(|(as_written, _)| *as_written == text).map(|w| w.1.to_string());
    if let Some(known) = whole(&plain) {
        return known;
    }
    let parts: Vec<String> = plain.replace(" per ", "/").split('/').map(|part| part_spelled(part.trim())).collect();
    let joined = parts.join("/");
    whole(&joined).unwrap_or(joined)
}

/// One side of a stroke: `cu ft`, `short tons`, `hr`.
fn part_spelled(part: &str) -> String {
    let mut out: Vec<String> = Vec::new();
    let mut power = "";
    for word in part.split_whitespace() {
        match word {
            "cubic" | "cu" => power = "3",
            "square" | "sq" => power = "2",
            word => {
                let known = WORDS.iter().find(|(_, all)| all.contains(&word)).map_or(word, |w| w.0);
                let one = |first: &str| PAIRS.iter().find(|p| p.0 == first && p.1 == known).map(|p| p.2);
                match out.last().and_then(|first| one(first)) {
                    Some(pair) => {
                        out.pop();
                        out.push(pair.into());
                    }
                    None => out.push(format!("{known}{}", std::mem::take(&mut power))),
                }
            }
        }
    }
    out.join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn spellings() {
        for (written, one) in [
            ("cu. ft.", "ft3"),
            ("Cubic Feet", "ft3"),
            ("lbs/cu ft", "lb/ft3"),
            ("pounds per cubic foot", "lb/ft3"),
            ("lb/ft^3", "lb/ft3"),
            ("PCF", "lb/ft3"),
            ("tonnes per hour", "t/h"),
            ("short tons/hr", "st/h"),
            ("metric tons per hour", "t/h"),
            ("TPH", "ton/h"),
            ("ft./min.", "ft/min"),
            ("FPM", "ft/min"),
            ("revolutions per minute", "rpm"),
            ("RPM", "rpm"),
            ("per cent", "%"),
            ("sq in", "in2"),
            ("\"", "\""),
            ("°", "°"),
            ("furlongs per fortnight", "furlongs/fortnight"),
        ] {
            assert_eq!(spelled(written), one, "{written}");
        }
    }
}
