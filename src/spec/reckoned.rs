//! Values that are written as another quantity, which other keys of the spec turn into the key's own.
//!
//! In: the spec as parsed. Out: the same with `duty.capacity` as a mass flow where a volume flow was written (`6000 bu/h`; the product's
//! density), and `duty.belt_speed` as a speed where turns of the head pulley were (`44 rpm`; its diameter over the lagging). Places
//! stay. What cannot be reckoned is taken out and told.

use super::duty::AskedDuty;
use crate::diagnostics::{Code, Diagnostic, Diagnostics, Span};
use crate::tables::products;
use crate::units::{Density, Length, MassFlow, Quantity, Speed, TurnRate, VolumeFlow};
use std::f64::consts::PI;
use toml::de::{DeTable, DeValue};

/// Keys that were taken out because they could not be reckoned, with their places.
#[derive(Debug, Default)]
pub(super) struct TakenOut {
    pub capacity: Option<Span>,
    pub belt_speed: Option<Span>,
}

/// Reckons over what can be.
pub(super) fn reckon(root: &mut DeTable<'_>, out: &mut Diagnostics) -> TakenOut {
    let density = density(root);
    let capacity = replaced(root, "capacity", out, |written| {
        Some(only::<VolumeFlow, MassFlow>(written, "duty.capacity", density)?.and_then(|flow| {
            let missing = || {
                let why =
                    format!("\"{written}\" is a volume; its mass follows from the product's density, and neither product.density nor product.preset is given");
                (why, "give product.preset, or product.density like \"56 lb/bu\"".to_string())
            };
            density.map(|d| format!("{} t/h", flow.value() * d)).ok_or_else(missing)
        }))
    });
    let head = text(root, "head_pulley", "diameter").and_then(|d| Length::parse(d).ok());
    let belt_speed = replaced(root, "belt_speed", out, |written| {
        Some(only::<TurnRate, Speed>(written, "duty.belt_speed", head.map(|d| PI * d.value() / 60_000.0))?.and_then(|turns| {
            let missing = || {
                let why = format!("\"{written}\" are turns of the head pulley; the speed follows from head_pulley.diameter, which is not given");
                (why, "give head_pulley.diameter, or the speed like \"2.6 m/s\"".to_string())
            };
            head.map(|d| format!("{} m/s", turns.value() * PI * d.value() / 60_000.0)).ok_or_else(missing)
        }))
    });
    TakenOut { capacity, belt_speed }
}

/// The quantity that was written, where it is not the key's own; what is wrong with it where it would be one but for its number. Of what may be
/// meant the readings that the key's range allows are named.
fn only<Q: Quantity, Own: Quantity>(written: &str, key: &str, factor: Option<f64>) -> Option<Result<Q, Cannot>> {
    if Own::parse(written).is_ok() {
        return None;
    }
    let wrong = match Q::parse(written) {
        Ok(found) => return Some(Ok(found)),
        Err(wrong) => wrong,
    };
    let read: Vec<(f64, &str, &str)> = wrong.instead.iter().filter_map(|(text, when)| Q::parse(text).ok().map(|q| (q.base(), text.as_str(), *when))).collect();
    let range = AskedDuty::keys("duty").into_iter().find(|k| k.path == key).and_then(|k| k.least.zip(k.most));
    let fits = |value: f64| range.zip(factor).is_none_or(|((least, most), factor)| (least..=most).contains(&(value * factor)));
    let fitting: Vec<_> = read.iter().filter(|r| fits(r.0)).collect();
    let told = if fitting.is_empty() { read.iter().collect() } else { fitting };
    match told[..] {
        [] => None,
        [(_, text, _)] => Some(Err((wrong.why, format!("write it like \"{text}\"")))),
        _ => Some(Err((wrong.why, format!("write {}", told.iter().map(|(_, text, when)| format!("\"{text}\" {when}")).collect::<Vec<_>>().join(", "))))),
    }
}

fn text<'a>(root: &'a DeTable<'_>, table: &str, key: &str) -> Option<&'a str> {
    match root.get(table)?.get_ref() {
        DeValue::Table(inner) => match inner.get(key)?.get_ref() {
            DeValue::String(text) => Some(text.as_ref()),
            _ => None,
        },
        _ => None,
    }
}

/// Density of the product, t/m³: as given, or of its preset.
fn density(root: &DeTable<'_>) -> Option<f64> {
    let given = text(root, "product", "density").and_then(|d| Density::parse(d).ok()).map(Density::value);
    given.or_else(|| text(root, "product", "preset").and_then(products::find).map(|p| p.density_t_per_m3))
}

/// What there is to say: why it cannot be reckoned, and what to type.
type Cannot = (String, String);

/// Puts another text in the place of a key of `[duty]`; its place if it was taken out.
fn replaced(root: &mut DeTable<'_>, key: &str, out: &mut Diagnostics, reckon: impl Fn(&str) -> Option<Result<String, Cannot>>) -> Option<Span> {
    let DeValue::Table(duty) = root.get_mut("duty")?.get_mut() else { return None };
    let value = duty.get_mut(key)?;
    let span = value.span();
    let DeValue::String(written) = value.get_mut() else { return None };
    match reckon(written)? {
        Ok(reckoned) => {
            *written = reckoned.into();
            None
        }
        Err((why, hint)) => {
            let path = format!("duty.{key}");
            out.push(Diagnostic::error(Code::WrongUnit, &path, Some(span.clone()), format!("{path}: {why}"), hint));
            duty.remove(key);
            Some(span)
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::spec::load;

    fn duty(spec: &str) -> (Option<f64>, Option<f64>, Vec<String>) {
        let (asked, problems) = load(spec);
        let said = problems.items.iter().map(|d| format!("{} {}", d.message, d.hint)).collect();
        (asked.duty.capacity.value().map(|c| c.value()), asked.duty.belt_speed.value().map(|s| s.value()), said)
    }

    /// 6,000 bu/h at 56 lb/bu are 168 short tons an hour.
    #[test]
    fn bushels_are_a_volume() {
        for (capacity, density, t_per_h) in [
            ("6000 bu/h", "density = \"56 lb/bu\"", 168.0 * 0.907_184_74),
            ("6,000,0 BPH", "density = \"56 lb/bu\"", f64::NAN),
            ("6 000 BPH", "density = \"56 lb/bu\"", 168.0 * 0.907_184_74),
            ("200 m3/h", "density = \"0.6 t/m3\"", 120.0),
            ("200 m³/hr", "preset = \"wheat\"", 154.0),
            ("7000 cu ft/h", "density = \"40 pcf\"", 7000.0 * 40.0 * 0.000_453_592_37),
        ] {
            let (found, _, said) = duty(&format!("[product]\n{density}\n[duty]\ncapacity = \"{capacity}\"\n"));
            match found {
                Some(found) => assert!((found - t_per_h).abs() < 1e-6 * t_per_h, "{capacity}: {found}"),
                None => assert!(t_per_h.is_nan() && said.len() == 1, "{capacity}: {said:?}"),
            }
        }
        let (found, _, said) = duty("[duty]\ncapacity = \"6000 bu/h\"\n");
        assert_eq!((found, said.len()), (None, 1));
        assert!(said[0].contains("product.density") && said[0].contains("56 lb/bu"), "{said:?}");
    }

    /// 44 turns a minute of 1,000 mm: π · 44 / 60 m/s.
    #[test]
    fn turns_of_the_head_pulley() {
        for turns in ["44 rpm", "44 r/min", "44 1/min", "44 RPM"] {
            let (_, speed, said) = duty(&format!("[duty]\nbelt_speed = \"{turns}\"\n[head_pulley]\ndiameter = \"1 m\"\n"));
            assert!(speed.is_some_and(|v| (v - 2.303_834_6).abs() < 1e-6), "{turns}: {speed:?} {said:?}");
        }
        let (_, speed, said) = duty("[duty]\nbelt_speed = \"44 rpm\"\n");
        assert_eq!((speed, said.len()), (None, 1));
        assert!(said[0].contains("head_pulley.diameter"), "{said:?}");
    }
}
