//! JavaScript made small. Scripts of ours go without their remarks; the glue between a program and
//! the browser also without what no part of the program calls, and with the short names that
//! wasm-opt has given to whatever passes between the two.

use serde_json::Value;

use crate::problem::{Outcome, Problem};

/// The glue as shipped. `names` is what wasm-opt tells of the names it has given.
pub fn shipped_glue(glue: &str, names: &str) -> Outcome<String> {
    let lean = without_unused_classes(without_remarks(glue));
    with_short_names(lean, names)
        .ok_or_else(|| Problem::new("wasm-opt does not tell which names it has given.".to_owned()))
}

/// A script without the lines that are only a remark, and without indentation. Neither ours nor
/// the glue has texts that run over several lines, so no line of text is taken for a remark.
pub fn without_remarks(script: &str) -> String {
    let mut lines = Vec::new();
    let mut in_remark = false;
    for line in script.lines().map(str::trim) {
        in_remark |= line.starts_with("/*");
        if !in_remark && !line.is_empty() && !line.starts_with("//") {
            lines.push(line);
        }
        in_remark &= !line.ends_with("*/");
    }
    lines.join("\n") + "\n"
}

/// Leaves out classes that a dependency offers to other scripts, where the glue itself has no use
/// for them.
fn without_unused_classes(glue: String) -> String {
    const CLASS: &str = "export class ";
    let mut lean = glue.clone();
    for name in glue.lines().filter_map(|line| {
        let (name, _) = line.strip_prefix(CLASS)?.split_once(' ')?;
        Some(name)
    }) {
        let without = without_class(&lean, name);
        if let Some(without) = without.filter(|without| !without.contains(name)) {
            lean = without;
        }
    }
    lean
}

/// The glue without a class, and the statements that only complete it.
fn without_class(glue: &str, name: &str) -> Option<String> {
    let start = glue.find(&format!("export class {name} {{"))?;
    let mut deep = 0_i32;
    let mut end = start;
    for line in glue.get(start..)?.split_inclusive('\n') {
        deep += line.matches('{').count() as i32 - line.matches('}').count() as i32;
        end += line.len();
        if deep == 0 {
            break;
        }
    }
    let mut lean = glue.get(..start)?.to_owned();
    lean.push_str(glue.get(end..)?);
    let dispose = format!("if (Symbol.dispose) {name}.prototype");
    let registry = format!("const {name}Finalization = ");
    let mut kept = String::new();
    let mut in_statement = false;
    for line in lean.split_inclusive('\n') {
        in_statement |= line.starts_with(&dispose) || line.starts_with(&registry);
        if !in_statement {
            kept.push_str(line);
        }
        in_statement &= !line.trim_end().ends_with(';');
    }
    Some(kept)
}

fn with_short_names(mut glue: String, names: &str) -> Option<String> {
    let names: Value = serde_json::from_str(names).ok()?;
    for row in names.get("exports")?.as_array()? {
        let (long, short) = (row.get(0)?.as_str()?, row.get(1)?.as_str()?);
        glue = with_word(
            &glue,
            &format!("wasm.{long}"),
            &format!("wasm.{short}"),
            |next| !is_of_a_name(next),
        );
    }
    for row in names.get("imports")?.as_array()? {
        let (module, long, short) = (
            row.get(0)?.as_str()?,
            row.get(1)?.as_str()?,
            row.get(2)?.as_str()?,
        );
        glue = with_word(&glue, long, short, |next| next == ':');
        glue = glue.replace(&format!("\"{module}\": import0"), "a: import0");
    }
    Some(glue)
}

fn is_of_a_name(letter: char) -> bool {
    letter.is_ascii_alphanumeric() || letter == '_' || letter == '$'
}

/// Puts one word for another, where it stands as a whole and what follows it `fits`.
fn with_word(text: &str, from: &str, to: &str, fits: impl Fn(char) -> bool) -> String {
    let mut written = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(place) = rest.find(from) {
        let (before, after) = (&rest[..place], &rest[place + from.len()..]);
        let whole = !before.chars().next_back().is_some_and(is_of_a_name);
        written.push_str(before);
        written.push_str(if whole && after.chars().next().is_none_or(&fits) {
            to
        } else {
            from
        });
        rest = after;
    }
    written + rest
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]
    use super::*;

    const NAMES: &str = r#"{"imports": [["./p_bg.js", "__wbg_now_0123", "$a"]],
        "exports": [["memory", "b"], ["call_true_", "c"], ["call_true__1", "d"]]}"#;

    #[test]
    fn names_are_changed_on_both_sides_and_nowhere_else() {
        let glue = "const import0 = {\n__wbg_now_0123: function() { return now(); },\n};\n\
                    return { \"./p_bg.js\": import0, };\nwasm.memory.buffer;\n\
                    wasm.call_true_(1);\nwasm.call_true__1(2);\nself.memory;\n";
        let short = with_short_names(glue.to_owned(), NAMES).unwrap();
        assert_eq!(
            short,
            "const import0 = {\n$a: function() { return now(); },\n};\n\
             return { a: import0, };\nwasm.b.buffer;\n\
             wasm.c(1);\nwasm.d(2);\nself.memory;\n"
        );
    }

    #[test]
    fn a_class_goes_only_where_nothing_else_speaks_of_it() {
        let class = "export class Sink {\nfree() {\nSinkFinalization.unregister(this);\n}\n}\n\
                     if (Symbol.dispose) Sink.prototype[Symbol.dispose] = Sink.prototype.free;\n\
                     const SinkFinalization = (typeof FinalizationRegistry === 'undefined')\n\
                     ? { register: () => {} }\n: new FinalizationRegistry(ptr => wasm.free(ptr));\n";
        let rest = "let wasm;\n";
        assert_eq!(
            without_unused_classes([class, rest].concat()),
            rest,
            "nothing speaks of it"
        );
        let used = [class, rest, "new Sink();\n"].concat();
        assert_eq!(without_unused_classes(used.clone()), used);
    }

    #[test]
    fn remarks_go() {
        assert_eq!(
            without_remarks("/**\n * @returns {number}\n */\n  let a;\n\n// b\nlet c;"),
            "let a;\nlet c;\n"
        );
        assert_eq!(
            without_remarks("// why\nlet a = 1; // stays\n\n  // more\n  let b;\n"),
            "let a = 1; // stays\nlet b;\n"
        );
    }
}
