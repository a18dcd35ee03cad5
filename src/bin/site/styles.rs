//! One sheet out of the many in `style/`, in the order that `style/index.css` imports
//! them, with comments and idle space left out.

use std::path::Path;

use crate::problem::{Outcome, Problem, read_text};

/// The sheets that `index` imports, joined in that order and tightened. The index holds
/// `@import "name.css";` lines and comments, and nothing else: rules have a sheet of
/// their own.
pub fn join(index: &Path) -> Outcome<String> {
    let mut all = String::new();
    for line in tighten(&read_text(index)?).split_terminator(';') {
        let name = line
            .trim()
            .strip_prefix("@import")
            .map(|rest| rest.trim().trim_matches('"'))
            .filter(|name| !name.is_empty() && !name.contains(['"', '/', '(', '{']))
            .ok_or_else(|| {
                Problem::new(format!(
                    "{} holds “{line}”; it may hold only lines like @import \"name.css\";",
                    index.display()
                ))
            })?;
        all.push_str(&tighten(&read_text(&index.with_file_name(name))?));
    }
    Ok(all)
}

/// The same sheet without comments and without the space that says nothing. Text in
/// quotes stays as it is; space is kept wherever it could part two words or operands.
fn tighten(sheet: &str) -> String {
    let mut tight = String::with_capacity(sheet.len());
    let mut rest = sheet;
    let mut space = false;
    while let Some(letter) = rest.chars().next() {
        if let Some(comment) = rest.strip_prefix("/*") {
            rest = comment.split_once("*/").map_or("", |(_, after)| after);
            space = true;
            continue;
        }
        if letter.is_whitespace() {
            rest = &rest[letter.len_utf8()..];
            space = true;
            continue;
        }
        // No selector, value or condition changes its meaning by losing the space on
        // either side of these; around ':' '(' '+' and the like it can.
        let before_is_edge = tight.ends_with(['{', '}', ';', ',']) || tight.is_empty();
        if space && !before_is_edge && !['{', '}', ';', ','].contains(&letter) {
            tight.push(' ');
        }
        space = false;
        if letter == '}' && tight.ends_with(';') {
            tight.pop();
        }
        let length = if letter == '"' || letter == '\'' {
            quoted_length(rest, letter)
        } else {
            letter.len_utf8()
        };
        tight.push_str(&rest[..length]);
        rest = &rest[length..];
    }
    tight
}

/// Bytes of the quoted text at the start, both quotes included.
fn quoted_length(text: &str, quote: char) -> usize {
    let mut escaped = false;
    for (at, letter) in text.char_indices().skip(1) {
        if letter == quote && !escaped {
            return at + letter.len_utf8();
        }
        escaped = letter == '\\' && !escaped;
    }
    text.len()
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]
    use super::*;

    #[test]
    fn only_idle_space_goes() {
        for (loose, tight) in [
            ("a {\n  color: red;\n}\n", "a{color: red}"),
            ("/* why */\na , b > c { }", "a,b > c{}"),
            (
                "a :hover { width: calc(1px + 2px) }",
                "a :hover{width: calc(1px + 2px)}",
            ),
            (
                "a::after { content: \"{ ; /* }\"; }",
                "a::after{content: \"{ ; /* }\"}",
            ),
            ("a { content: '\\'  x' }", "a{content: '\\'  x'}"),
            (
                "@media (min-width: 1px) and (x) { }",
                "@media (min-width: 1px) and (x){}",
            ),
            ("a/**/b {}", "a b{}"),
        ] {
            assert_eq!(tighten(loose), tight);
        }
    }
}
