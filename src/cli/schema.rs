//! `footwell schema`: the spec as a JSON Schema, for editors that complete keys and explain them.
//!
//! In: the registry of keys. Out: a schema (draft 2020-12). It knows tables, keys, kinds, choices and numbers; what a
//! quantity is worth and whether values go together only `footwell check` knows.

use super::{Console, Outcome};
use crate::diagnostics::Code;
use crate::job::Job;
use crate::spec::keys;
use crate::spec::reader::Key;
use clap::Args;
use serde_json::{Map, Value, json};

/// Print the JSON Schema of the spec, for editors.
#[derive(Debug, Args)]
#[command(after_help = "Examples:
  footwell schema > footwell.schema.json
Then the first line of a spec may be:  #:schema ./footwell.schema.json")]
pub struct Schema {}

impl Schema {
    /// Runs it.
    pub fn run(self, console: &mut Console<'_>) -> Outcome {
        console.say(serde_json::to_string_pretty(&schema()).unwrap_or_default());
        Outcome::Fine
    }
}

/// Begins like a number, with a fraction or without.
const NUMBER: &str = "^\\s*[-+−]?\\s*([0-9.,]|[½¼¾⅛⅜⅝⅞⅓⅔])";

/// The schema.
pub fn schema() -> Value {
    let mut root = Map::new();
    for key in keys() {
        let Some((table, name)) = key.path.rsplit_once('.') else { continue };
        let tables: Vec<&str> = table.split('.').collect();
        if let Some(properties) = properties_of(&mut root, &tables) {
            properties.insert(name.into(), value_of(&key));
        }
    }
    let mut whole = table_of(root);
    for path in required() {
        require(&mut whole, &path);
    }
    whole["$schema"] = json!("https://json-schema.org/draft/2020-12/schema");
    whole["title"] = json!("footwell spec");
    whole["description"] = json!("Spec of the foot of a bucket elevator and its pit");
    whole
}

/// The properties of a table in a table, made where they are not there yet.
fn properties_of<'a>(root: &'a mut Map<String, Value>, tables: &[&str]) -> Option<&'a mut Map<String, Value>> {
    let Some((first, rest)) = tables.split_first() else { return Some(root) };
    let (name, list) = first.strip_suffix("[n]").map_or((*first, false), |name| (name, true));
    let empty = || if list { json!({ "type": "array", "items": table_of(Map::new()) }) } else { table_of(Map::new()) };
    let inner = root.entry(name).or_insert_with(empty);
    let inner = if list { inner.get_mut("items")? } else { inner };
    properties_of(inner.get_mut("properties")?.as_object_mut()?, rest)
}

fn table_of(properties: Map<String, Value>) -> Value {
    json!({ "type": "object", "additionalProperties": false, "properties": properties })
}

/// Keys that a spec cannot do without: what the program misses in an empty one.
fn required() -> Vec<String> {
    Job::of("").err().map_or_else(Vec::new, |problems| problems.items.into_iter().filter(|d| d.code == Code::Missing).map(|d| d.path).collect())
}

/// Makes a key, and the tables that hold it, required.
fn require(table: &mut Value, path: &str) {
    let (first, rest) = path.split_once('.').map_or((path, None), |(first, rest)| (first, Some(rest)));
    if let Some(object) = table.as_object_mut() {
        let list = object.entry("required").or_insert_with(|| json!([]));
        if let Some(list) = list.as_array_mut().filter(|list| !list.iter().any(|r| r == first)) {
            list.push(json!(first));
        }
        if let (Some(rest), Some(inner)) = (rest, object.get_mut("properties").and_then(|p| p.get_mut(first))) {
            require(inner, rest);
        }
    }
}

fn value_of(key: &Key) -> Value {
    let about = if key.range.is_empty() { key.about.clone() } else { format!("{} ({}, {})", key.about, key.kind, key.range) };
    let mut value = match key.kind.as_str() {
        "true or false" => json!({ "type": "boolean" }),
        "whole number" => json!({ "type": "integer", "minimum": key.least.unwrap_or(0.0) as i64, "maximum": key.most.unwrap_or(f64::from(u32::MAX)) as i64 }),
        "text" => json!({ "type": "string" }),
        "date" => json!({ "type": "string", "pattern": "^[0-9]{4}-[0-9]{2}-[0-9]{2}$" }),
        "ratio" => json!({ "anyOf": [{ "type": "number", "minimum": key.least, "maximum": key.most }, { "type": "string", "pattern": NUMBER }] }),
        "list of [length, length]" => {
            let length = json!({ "type": "string", "pattern": NUMBER });
            json!({ "type": "array", "minItems": 3, "items": { "type": "array", "minItems": 2, "maxItems": 2, "items": length } })
        }
        kind if kind.starts_with('"') => {
            let words: Vec<&str> = kind.split('"').skip(1).step_by(2).collect();
            json!({ "type": "string", "enum": words })
        }
        // A number with its unit.
        _ => json!({ "type": "string", "pattern": NUMBER }),
    };
    value["description"] = json!(about);
    value
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::cli::starters;

    /// Whether a value of a spec fits the parts of JSON Schema that are used here, or where it does not.
    fn fits(value: &toml::Value, schema: &Value, at: &str) -> Result<(), String> {
        let refuse = || Err(format!("{at} = {value}"));
        if let Some(any) = schema["anyOf"].as_array() {
            return if any.iter().any(|s| fits(value, s, at).is_ok()) { Ok(()) } else { refuse() };
        }
        match (schema["type"].as_str().unwrap(), value) {
            ("object", toml::Value::Table(table)) => {
                for (key, inner) in table {
                    let known = schema["properties"].get(key).ok_or(format!("{at}.{key} is unknown"))?;
                    fits(inner, known, &format!("{at}.{key}"))?;
                }
                let missing = schema["required"].as_array().into_iter().flatten().find(|r| !table.contains_key(r.as_str().unwrap()));
                missing.map_or(Ok(()), |m| Err(format!("{at}.{m} is missing")))
            }
            ("array", toml::Value::Array(rows)) => rows.iter().try_for_each(|row| fits(row, &schema["items"], at)),
            ("string", toml::Value::String(text)) => {
                let among = schema["enum"].as_array().is_none_or(|words| words.iter().any(|w| w == text));
                let number = schema["pattern"] != NUMBER || text.trim_start_matches(['-', '+', '−', ' ']).starts_with(|c: char| c.is_numeric() || c == '.');
                if among && number { Ok(()) } else { refuse() }
            }
            ("string", toml::Value::Datetime(_)) if schema["pattern"].as_str().is_some_and(|p| p.starts_with("^[0-9]{4}")) => Ok(()),
            ("boolean", toml::Value::Boolean(_)) => Ok(()),
            ("integer" | "number", number) => {
                let number = number.as_float().or(number.as_integer().map(|i| i as f64)).ok_or(format!("{at} = {value}"))?;
                let (low, high) = (schema["minimum"].as_f64().unwrap_or(f64::MIN), schema["maximum"].as_f64().unwrap_or(f64::MAX));
                if (low..=high).contains(&number) { Ok(()) } else { refuse() }
            }
            _ => refuse(),
        }
    }

    #[test]
    fn starters_are_valid() {
        let schema = schema();
        for starter in starters::ALL {
            assert_eq!(fits(&toml::Value::Table(starter.text.parse().unwrap()), &schema, ""), Ok(()), "{}", starter.name);
        }
        assert_eq!(schema["required"], json!(["bucket", "duty", "head_pulley"]));
        assert_eq!(schema["properties"]["bucket"]["required"].as_array().map(Vec::len), Some(3));
    }

    /// Where a schema can judge it judges like the program: spoilt keys, kinds, choices and numbers.
    #[test]
    fn it_judges_like_the_program() {
        let (schema, mut judged) = (schema(), 0);
        for key in keys().into_iter().filter(|k| !k.path.contains('[')) {
            let (table, name) = key.path.rsplit_once('.').unwrap();
            let mut spoilt = vec![format!("{name}x = 1"), format!("{name} = {{ a = 1 }}"), format!("{name} = 1979-05-27T07:32:00Z")];
            match key.kind.as_str() {
                "true or false" => spoilt.extend([format!("{name} = \"yes\""), format!("{name} = 1")]),
                "whole number" => spoilt.extend([format!("{name} = 0.5"), format!("{name} = -1"), format!("{name} = 99999")]),
                "ratio" => spoilt.extend([format!("{name} = 1000"), format!("{name} = \"much\"")]),
                "text" | "date" => spoilt.push(format!("{name} = 12")),
                kind if kind.starts_with('"') => spoilt.push(format!("{name} = \"zzz\"")),
                _ => spoilt.extend([format!("{name} = 12"), format!("{name} = \"much\""), format!("{name} = true")]),
            }
            for line in spoilt {
                let text = format!("[{table}]\n{line}\n");
                let whole: toml::Table = text.parse().unwrap();
                let by_program = crate::spec::load(&text).1.has_errors();
                // What is required is left out of these.
                let mut bare = schema.clone();
                bare["required"] = json!([]);
                for inner in bare["properties"].as_object_mut().unwrap().values_mut() {
                    inner["required"] = json!([]);
                }
                assert!(by_program, "{text}");
                let date = key.kind == "date" && line.contains("1979");
                assert!(date || fits(&toml::Value::Table(whole), &bare, "").is_err(), "{text}");
                judged += 1;
            }
        }
        assert!(judged > 600, "{judged}");
    }
}
