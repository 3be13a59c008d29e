//! What practitioners write for quantities, each taken with its value or refused for a stated reason with what to type instead.
#![allow(clippy::unwrap_used, clippy::panic, missing_docs)]

use footwell::spec::load;
use footwell::units::Quantity;

/// What becomes of a spelling.
enum Is {
    /// Taken, as so many base units.
    Taken(f64),
    /// Refused: what the message says, and what the hint does.
    Refused(&'static str, &'static str),
}
use Is::{Refused, Taken};

/// The value that stands behind a key after reading, in base units.
fn value(key: &str, spec: &str) -> Result<f64, (String, String)> {
    let (asked, problems) = load(spec);
    if let Some(first) = problems.items.first() {
        assert!(!first.labels.is_empty(), "{spec}: no place");
        return Err((first.message.clone(), first.hint.clone()));
    }
    fn base<Q: Quantity>(q: Option<Q>) -> Option<f64> {
        q.map(Quantity::base)
    }
    let found = match key {
        "duty.capacity" => base(asked.duty.capacity.value()),
        "duty.lift" => base(asked.duty.lift.value()),
        "duty.belt_speed" => base(asked.duty.belt_speed.value()),
        "duty.fill" => base(asked.duty.fill.value()),
        "product.density" => base(asked.product.density.value()),
        "product.repose" => base(asked.product.repose.value()),
        "bucket.length" => base(asked.bucket.length.value()),
        "bucket.volume" => base(asked.bucket.volume.value()),
        "bucket.mass" => base(asked.bucket.mass.value()),
        "belt.strength" => base(asked.belt.strength.value()),
        "belt.mass" => base(asked.belt.mass.value()),
        "casing.plate" => base(asked.casing.plate.value()),
        "bearings.rating" => base(asked.bearings.rating.value()),
        "bearings.life" => base(asked.bearings.life.value()),
        "monitoring.delay" => base(asked.monitoring.delay.value()),
        "pit.floor_fall" => base(asked.pit.floor_fall.value()),
        _ => panic!("{key} is not read here"),
    };
    Ok(found.unwrap_or_else(|| panic!("{spec}: nothing was read")))
}

const MM: f64 = 25.4;
const FT: f64 = 304.8;
const LB: f64 = 0.453_592_37;
/// Pound a cubic foot in t/m³, short ton, pound-force a inch in N/mm.
const PCF: f64 = LB / 28.316_846_592;
const ST: f64 = 0.907_184_74;
const LBF: f64 = LB * 9.806_65;
const TON: &str = "1000 kg or 2000 lb";

/// Key, spelling, what becomes of it.
const SPELLINGS: &[(&str, &str, Is)] = &[
    // Lengths.
    ("bucket.length", "280 mm", Taken(280.0)),
    ("bucket.length", "280mm", Taken(280.0)),
    ("bucket.length", "280 MM", Taken(280.0)),
    ("bucket.length", "28 cm", Taken(280.0)),
    ("bucket.length", "0.28 m", Taken(280.0)),
    ("bucket.length", "280 millimeters", Taken(280.0)),
    ("bucket.length", "280 millimetres", Taken(280.0)),
    ("bucket.length", "0.28 metres", Taken(280.0)),
    ("bucket.length", "11 in", Taken(11.0 * MM)),
    ("bucket.length", "11 in.", Taken(11.0 * MM)),
    ("bucket.length", "11in", Taken(11.0 * MM)),
    ("bucket.length", "11 inch", Taken(11.0 * MM)),
    ("bucket.length", "11 inches", Taken(11.0 * MM)),
    ("bucket.length", "11\\\"", Taken(11.0 * MM)),
    ("bucket.length", "11''", Taken(11.0 * MM)),
    ("bucket.length", "11”", Taken(11.0 * MM)),
    ("bucket.length", "11″", Taken(11.0 * MM)),
    ("bucket.length", "8½ in", Taken(8.5 * MM)),
    ("bucket.length", "8 ½ in", Taken(8.5 * MM)),
    ("bucket.length", "8½\\\"", Taken(8.5 * MM)),
    ("bucket.length", "8 1/2 in", Taken(8.5 * MM)),
    ("bucket.length", "8-1/2 in", Taken(8.5 * MM)),
    ("bucket.length", "8-1/2\\\"", Taken(8.5 * MM)),
    ("bucket.length", "8 1⁄2 in", Taken(8.5 * MM)),
    ("bucket.length", "17/2 in", Taken(8.5 * MM)),
    ("bucket.length", "8.5 in", Taken(8.5 * MM)),
    ("bucket.length", "1 ft", Taken(FT)),
    ("bucket.length", "1 ft 2 in", Taken(14.0 * MM)),
    ("bucket.length", "1ft 2in", Taken(14.0 * MM)),
    ("bucket.length", "1'-2\\\"", Taken(14.0 * MM)),
    ("bucket.length", "1' 2\\\"", Taken(14.0 * MM)),
    ("bucket.length", "1'2\\\"", Taken(14.0 * MM)),
    ("bucket.length", "1’-2”", Taken(14.0 * MM)),
    ("bucket.length", "1'-2 1/2\\\"", Taken(14.5 * MM)),
    ("bucket.length", "1 foot 2 inches", Taken(14.0 * MM)),
    ("duty.lift", "95 ft", Taken(95.0 * FT)),
    ("duty.lift", "95 feet", Taken(95.0 * FT)),
    ("duty.lift", "95 ft.", Taken(95.0 * FT)),
    ("duty.lift", "95'", Taken(95.0 * FT)),
    ("duty.lift", "95 FT", Taken(95.0 * FT)),
    ("duty.lift", "28 m", Taken(28_000.0)),
    ("duty.lift", "28 meters", Taken(28_000.0)),
    ("duty.lift", "28 000 mm", Taken(28_000.0)),
    ("duty.lift", "30 yards", Taken(30.0 * 914.4)),
    ("duty.lift", "28,5 m", Refused("decimal comma", "write it like \"28.5 m\"")),
    ("duty.lift", "28,500 mm", Refused("thousands or decimals", "write it like \"28500 mm\"")),
    ("duty.lift", "28.500,0 mm", Refused("decimal comma", "write it like \"28500.0 mm\"")),
    ("duty.lift", "95", Refused("unit is missing", "write it like \"95 m\"")),
    ("duty.lift", "95 kg", Refused("\"kg\" is not a unit", "write it like \"95 m\"")),
    ("duty.lift", "about 28 m", Refused("does not begin with a number", "write it like \"450 mm\"")),
    ("duty.lift", "28 m +/- 5", Refused("is not a unit", "write it like \"450 mm\"")),
    ("casing.plate", "10 ga", Taken(0.1345 * MM)),
    ("casing.plate", "10 ga.", Taken(0.1345 * MM)),
    ("casing.plate", "10ga", Taken(0.1345 * MM)),
    ("casing.plate", "10 gauge", Taken(0.1345 * MM)),
    ("casing.plate", "12 gage", Taken(0.1046 * MM)),
    ("casing.plate", "3/16 in", Taken(0.1875 * MM)),
    ("casing.plate", "3/16\\\"", Taken(0.1875 * MM)),
    ("casing.plate", "¼ in", Taken(0.25 * MM)),
    ("casing.plate", "0.25 in", Taken(0.25 * MM)),
    ("casing.plate", "2 ga", Refused("no gauge 2", "write it like")),
    ("casing.plate", "5 t", Refused("\"t\" is not a unit", "write it like \"5 mm\"")),
    // Mass flows, and volume flows of a product of 56 lb/bu.
    ("duty.capacity", "120 t/h", Taken(120.0)),
    ("duty.capacity", "120 T/H", Taken(120.0)),
    ("duty.capacity", "120t/h", Taken(120.0)),
    ("duty.capacity", "120 t/hr", Taken(120.0)),
    ("duty.capacity", "120 t per hour", Taken(120.0)),
    ("duty.capacity", "120 tonnes/h", Taken(120.0)),
    ("duty.capacity", "120 tonnes per hour", Taken(120.0)),
    ("duty.capacity", "120 metric tons per hour", Taken(120.0)),
    ("duty.capacity", "120 mtph", Taken(120.0)),
    ("duty.capacity", "120 st/h", Taken(120.0 * ST)),
    ("duty.capacity", "120 stph", Taken(120.0 * ST)),
    ("duty.capacity", "120 short tons/hr", Taken(120.0 * ST)),
    ("duty.capacity", "120 US tons per hour", Taken(120.0 * ST)),
    ("duty.capacity", "120 000 kg/h", Taken(120.0)),
    ("duty.capacity", "2000 kg/min", Taken(120.0)),
    ("duty.capacity", "33.3 kg/s", Taken(119.88)),
    ("duty.capacity", "2880 t/d", Taken(120.0)),
    ("duty.capacity", "264000 lb/h", Taken(264_000.0 * LB / 1000.0)),
    ("duty.capacity", "264000 lbs/hr", Taken(264_000.0 * LB / 1000.0)),
    ("duty.capacity", "264000 pounds per hour", Taken(264_000.0 * LB / 1000.0)),
    ("duty.capacity", "264000 pph", Taken(264_000.0 * LB / 1000.0)),
    ("duty.capacity", "1000 t/h", Taken(1000.0)),
    ("duty.capacity", "1 000 t/h", Taken(1000.0)),
    ("duty.capacity", "1_000 t/h", Taken(1000.0)),
    ("duty.capacity", "1,000 t/h", Refused("thousands or decimals", "write \"1000 t/h\" if the comma parts thousands, \"1 t/h\" if it parts decimals")),
    ("duty.capacity", "6,000 kg/h", Refused("thousands or decimals", "write it like \"6000 kg/h\"")),
    ("duty.capacity", "1,500,000 lb/h", Taken(1.5e6 * LB / 1000.0)),
    ("duty.capacity", "1,500.5 t/h", Taken(1500.5)),
    ("duty.capacity", "1.000.000 kg/h", Refused("points between its thousands", "write it like \"1000000 kg/h\"")),
    ("duty.capacity", "120,5 t/h", Refused("decimal comma", "write it like \"120.5 t/h\"")),
    ("duty.capacity", "120 tph", Refused(TON, "\"120 t/h\" for tonnes of 1000 kg, \"120 st/h\" for short tons of 2000 lb")),
    ("duty.capacity", "120 TPH", Refused(TON, "\"120 t/h\" for tonnes")),
    ("duty.capacity", "120 tons/h", Refused(TON, "\"120 st/h\" for short tons")),
    ("duty.capacity", "120 tons per hour", Refused(TON, "\"120 st/h\" for short tons")),
    ("duty.capacity", "120 ton/hr", Refused(TON, "\"120 t/h\" for tonnes")),
    ("duty.capacity", "120 t", Refused("\"t\" is not a unit", "write it like \"120 t/h\"")),
    ("duty.capacity", "120", Refused("unit is missing", "write it like \"120 t/h\"")),
    ("duty.capacity", "6000 bu/h", Taken(168.0 * ST)),
    ("duty.capacity", "6000 bu/hr", Taken(168.0 * ST)),
    ("duty.capacity", "6000 BPH", Taken(168.0 * ST)),
    ("duty.capacity", "6000 bushels per hour", Taken(168.0 * ST)),
    ("duty.capacity", "6000 bushels/hour", Taken(168.0 * ST)),
    ("duty.capacity", "100 bu/min", Taken(168.0 * ST)),
    ("duty.capacity", "6,000 bu/h", Refused("thousands or decimals", "\"6000 bu/h\"")),
    ("duty.capacity", "200 m3/h", Taken(200.0 * 56.0 * LB / 0.035_239_070_166_88 / 1000.0)),
    ("duty.capacity", "200 m³/h", Taken(200.0 * 56.0 * LB / 0.035_239_070_166_88 / 1000.0)),
    ("duty.capacity", "200 cubic metres per hour", Taken(200.0 * 56.0 * LB / 0.035_239_070_166_88 / 1000.0)),
    ("duty.capacity", "8000 ft3/h", Taken(8000.0 * 0.028_316_846_592 * 56.0 * LB / 0.035_239_070_166_88 / 1000.0)),
    ("duty.capacity", "8000 cu ft/h", Taken(8000.0 * 0.028_316_846_592 * 56.0 * LB / 0.035_239_070_166_88 / 1000.0)),
    ("duty.capacity", "8000 cfh", Taken(8000.0 * 0.028_316_846_592 * 56.0 * LB / 0.035_239_070_166_88 / 1000.0)),
    // Speeds; turns are those of a head pulley of 1,000 mm.
    ("duty.belt_speed", "2.6 m/s", Taken(2.6)),
    ("duty.belt_speed", "2.6 m/sec", Taken(2.6)),
    ("duty.belt_speed", "2.6 metres per second", Taken(2.6)),
    ("duty.belt_speed", "156 m/min", Taken(2.6)),
    ("duty.belt_speed", "510 ft/min", Taken(2.5908)),
    ("duty.belt_speed", "510 fpm", Taken(2.5908)),
    ("duty.belt_speed", "510 FPM", Taken(2.5908)),
    ("duty.belt_speed", "510 feet per minute", Taken(2.5908)),
    ("duty.belt_speed", "8.5 ft/s", Taken(2.5908)),
    ("duty.belt_speed", "8.5 fps", Taken(2.5908)),
    ("duty.belt_speed", "44 rpm", Taken(44.0 * std::f64::consts::PI / 60.0)),
    ("duty.belt_speed", "44 RPM", Taken(44.0 * std::f64::consts::PI / 60.0)),
    ("duty.belt_speed", "44 rev/min", Taken(44.0 * std::f64::consts::PI / 60.0)),
    ("duty.belt_speed", "2,6 m/s", Refused("decimal comma", "write it like \"2.6 m/s\"")),
    ("duty.belt_speed", "2.6", Refused("unit is missing", "write it like \"2.6 m/s\"")),
    ("duty.belt_speed", "25 ft/min", Refused("outside", "from \"59.06 ft/min\" to \"1181 ft/min\"")),
    // Densities.
    ("product.density", "0.75 t/m3", Taken(0.75)),
    ("product.density", "0.75 t/m³", Taken(0.75)),
    ("product.density", "0.75 t/m^3", Taken(0.75)),
    ("product.density", "0.75 tonnes/m3", Taken(0.75)),
    ("product.density", "750 kg/m3", Taken(0.75)),
    ("product.density", "750 kg/cbm", Taken(0.75)),
    ("product.density", "0.75 kg/l", Taken(0.75)),
    ("product.density", "0.75 kg/dm3", Taken(0.75)),
    ("product.density", "750 g/l", Taken(0.75)),
    ("product.density", "0.75 g/cm3", Taken(0.75)),
    ("product.density", "0.75 g/cc", Taken(0.75)),
    ("product.density", "75 kg/hl", Taken(0.75)),
    ("product.density", "47 lb/ft3", Taken(47.0 * PCF)),
    ("product.density", "47 lbs/ft3", Taken(47.0 * PCF)),
    ("product.density", "47 lb/cu ft", Taken(47.0 * PCF)),
    ("product.density", "47 lb/cu. ft.", Taken(47.0 * PCF)),
    ("product.density", "47 lb/cuft", Taken(47.0 * PCF)),
    ("product.density", "47 pcf", Taken(47.0 * PCF)),
    ("product.density", "47 pounds per cubic foot", Taken(47.0 * PCF)),
    ("product.density", "60 lb/bu", Taken(60.0 * LB / 35.239_070_166_88)),
    ("product.density", "60 lbs/bu", Taken(60.0 * LB / 35.239_070_166_88)),
    ("product.density", "60 lb per bushel", Taken(60.0 * LB / 35.239_070_166_88)),
    ("product.density", "7.5 kN/m3", Refused("a weight", "write it like \"0.764787 t/m3\"")),
    ("product.density", "0.75", Refused("unit is missing", "write it like \"0.75 t/m3\"")),
    ("product.density", "0,75 t/m3", Refused("decimal comma", "write it like \"0.75 t/m3\"")),
    // Angles, shares.
    ("product.repose", "28 deg", Taken(28.0)),
    ("product.repose", "28°", Taken(28.0)),
    ("product.repose", "28 degrees", Taken(28.0)),
    ("product.repose", "28º", Taken(28.0)),
    ("product.repose", "28°30'", Taken(28.5)),
    ("product.repose", "0.5 rad", Taken(28.647_889_756_541_16)),
    ("product.repose", "1:2", Refused("one way and the other", "\"26.57 deg\" for rise to run, \"63.43 deg\" for run to rise")),
    ("product.repose", "50 %", Refused("no angle", "write it like \"26.57 deg\"")),
    ("product.repose", "28", Refused("unit is missing", "write it like \"28 deg\"")),
    ("duty.fill", "75 %", Taken(0.75)),
    ("duty.fill", "75%", Taken(0.75)),
    ("duty.fill", "75 percent", Taken(0.75)),
    ("duty.fill", "75 per cent", Taken(0.75)),
    ("duty.fill", "0.75", Taken(0.75)),
    ("duty.fill", "3/4", Taken(0.75)),
    ("duty.fill", "0,75", Refused("decimal comma", "write it like 0.75")),
    ("pit.floor_fall", "1:50", Taken(0.02)),
    ("pit.floor_fall", "1 in 50", Taken(0.02)),
    ("pit.floor_fall", "1/50", Taken(0.02)),
    ("pit.floor_fall", "2 %", Taken(0.02)),
    // Volumes, masses.
    ("bucket.volume", "3.2 l", Taken(3.2)),
    ("bucket.volume", "3.2 L", Taken(3.2)),
    ("bucket.volume", "3.2 litres", Taken(3.2)),
    ("bucket.volume", "3.2 liter", Taken(3.2)),
    ("bucket.volume", "3200 cm3", Taken(3.2)),
    ("bucket.volume", "3200 cc", Taken(3.2)),
    ("bucket.volume", "3200 ml", Taken(3.2)),
    ("bucket.volume", "195 in3", Taken(195.0 * 0.016_387_064)),
    ("bucket.volume", "195 cu in", Taken(195.0 * 0.016_387_064)),
    ("bucket.volume", "195 cu. in.", Taken(195.0 * 0.016_387_064)),
    ("bucket.volume", "195 cubic inches", Taken(195.0 * 0.016_387_064)),
    ("bucket.volume", "0.11 cu ft", Taken(0.11 * 28.316_846_592)),
    ("bucket.volume", "0.85 gal", Refused("US or the imperial", "\"3.2176 l\" for US gallons, \"3.86418 l\" for imperial gallons")),
    ("bucket.mass", "1.8 kg", Taken(1.8)),
    ("bucket.mass", "1.8 kgs", Taken(1.8)),
    ("bucket.mass", "1800 g", Taken(1.8)),
    ("bucket.mass", "4 lb", Taken(4.0 * LB)),
    ("bucket.mass", "4 lbs", Taken(4.0 * LB)),
    ("bucket.mass", "4 lbs.", Taken(4.0 * LB)),
    ("bucket.mass", "4 lb 8 oz", Taken(4.5 * LB)),
    ("bucket.mass", "18 N", Refused("\"N\" is not a unit", "write it like \"18 kg\"")),
    // Belts, bearings, times.
    ("belt.mass", "11 kg/m2", Taken(11.0)),
    ("belt.mass", "2.2 lb/ft2", Taken(2.2 * 4.882_427_636)),
    ("belt.mass", "2.2 lb/sq ft", Taken(2.2 * 4.882_427_636)),
    ("belt.strength", "63 N/mm", Taken(63.0)),
    ("belt.strength", "63 kN/m", Taken(63.0)),
    ("belt.strength", "300 PIW", Taken(300.0 * LBF / MM)),
    ("belt.strength", "300 piw", Taken(300.0 * LBF / MM)),
    ("belt.strength", "300 lb/in", Taken(300.0 * LBF / MM)),
    ("belt.strength", "300 pounds per inch", Taken(300.0 * LBF / MM)),
    ("bearings.rating", "62 kN", Taken(62_000.0)),
    ("bearings.rating", "62000 N", Taken(62_000.0)),
    ("bearings.rating", "13900 lbf", Taken(13_900.0 * LBF)),
    ("bearings.rating", "13900 lbs", Taken(13_900.0 * LBF)),
    ("bearings.rating", "6300 kg", Refused("a mass", "write it like \"61781.9 N\"")),
    ("bearings.life", "40000 h", Taken(144e6)),
    ("bearings.life", "40000 hours", Taken(144e6)),
    ("bearings.life", "40000 hrs", Taken(144e6)),
    ("bearings.life", "40,000 h", Refused("thousands or decimals", "write it like \"40000 h\"")),
    ("bearings.life", "10 years", Refused("running hours", "write it like \"87600 h\"")),
    ("monitoring.delay", "3 s", Taken(3.0)),
    ("monitoring.delay", "3 sec", Taken(3.0)),
    ("monitoring.delay", "3 seconds", Taken(3.0)),
];

#[test]
fn each_is_taken_or_refused_for_a_reason() {
    assert!(SPELLINGS.len() >= 166, "{}", SPELLINGS.len());
    let mut wrong = Vec::new();
    for (key, written, is) in SPELLINGS {
        let (table, name) = key.split_once('.').unwrap();
        let mut spec = format!("[{table}]\n{name} = \"{written}\"\n");
        if *key == "duty.capacity" {
            spec.push_str("[product]\ndensity = \"56 lb/bu\"\n");
        }
        if *key == "duty.belt_speed" {
            spec.push_str("[head_pulley]\ndiameter = \"1000 mm\"\n");
        }
        match (value(key, &spec), is) {
            (Ok(found), Taken(base)) if (found - base).abs() <= 1e-6 * base => {}
            (Err((why, hint)), Refused(reason, typed)) if why.contains(reason) && hint.contains(typed) => {}
            (found, _) => wrong.push(format!("{key} = \"{written}\": {found:?}")),
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// What a hint says to type is taken, wherever it names a value.
#[test]
fn hints_can_be_followed() {
    let mut followed = 0;
    for (key, written, is) in SPELLINGS {
        let Refused(..) = is else { continue };
        let (table, name) = key.split_once('.').unwrap();
        let head = if *key == "duty.capacity" { "[product]\ndensity = \"56 lb/bu\"\n" } else { "" };
        let Err((_, hint)) = value(key, &format!("[{table}]\n{name} = \"{written}\"\n{head}")) else { continue };
        for typed in hint.split('"').skip(1).step_by(2) {
            followed += 1;
            let spec = format!("[{table}]\n{name} = \"{typed}\"\n{head}");
            assert!(value(key, &spec).is_ok() || typed == "450 mm", "{key} = \"{written}\": {hint}");
        }
    }
    assert!(followed > 40, "{followed}");
}
