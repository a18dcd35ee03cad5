//! From Rust to what a browser loads: cargo, wasm-bindgen as a library, wasm-opt.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use wasm_bindgen_cli_support::Bindgen;

use crate::build::Speed;
use crate::problem::{Outcome, Problem, read_bytes, read_text};
use crate::scripts::shipped_glue;

/// Cargo with whatever this machine has for compiling to WebAssembly.
const CARGO: &str = ".ci/wasm-cargo";

/// Where the path of wasm-opt is given; `.ci/tools` installs it and sets this.
const WASM_OPT: &str = "LONGTOM_WASM_OPT";

/// What the compiler takes for granted in every browser since 2021, so that wasm-opt may
/// too; each browser that has modules, service workers and `wasm-unsafe-eval` has these.
const WASM_FEATURES: [&str; 6] = [
    "--enable-bulk-memory",
    "--enable-multivalue",
    "--enable-mutable-globals",
    "--enable-nontrapping-float-to-int",
    "--enable-reference-types",
    "--enable-sign-ext",
];

/// One of the programs that the site is made of.
pub struct Program {
    /// The name of its files in the site.
    pub name: &'static str,
    binary: &'static str,
    feature: &'static str,
    release_profile: &'static str,
    wasm_opt_passes: &'static [&'static str],
}

/// What the grower sees: small before it is fast.
pub const SCREEN: Program = Program {
    name: "screen",
    binary: "longtom",
    feature: "screen",
    release_profile: "release",
    // Flattened and put together anew, the control flow comes out a few per cent smaller. (Never
    // with `--traps-never-happen`: a stop of the program is a trap.)
    wasm_opt_passes: &["-Oz", "--flatten", "--rereloop", "-Oz", "-Oz"],
};

/// The pages of the record, which come after the first answer.
pub const NURSERY: Program = Program {
    name: "nursery",
    binary: "nursery",
    ..SCREEN
};

/// The reckonings beyond the first, which come when one of them is asked for.
pub const RECKONINGS: Program = Program {
    name: "reckonings",
    binary: "reckonings",
    ..SCREEN
};

/// The reckonings off the main thread: fast before it is small.
pub const WORKER: Program = Program {
    name: "worker",
    binary: "worker",
    feature: "worker",
    release_profile: "worker",
    wasm_opt_passes: &["-O3"],
};

/// A program ready for the browser.
pub struct Compiled {
    /// The JavaScript module through which it is started and speaks.
    pub glue: String,
    /// The program itself.
    pub wasm: Vec<u8>,
}

/// Compiles the programs: screen, nursery, reckonings, worker. Two at once, for the last step of each,
/// linking, has work for one core only.
pub fn all(speed: Speed) -> Outcome<[Compiled; 4]> {
    std::thread::scope(|scope| {
        let worker = scope.spawn(|| one(&WORKER, speed));
        // What both are made of is compiled once, for the first of them.
        let screen = one(&SCREEN, speed);
        let nursery = one(&NURSERY, speed);
        let reckonings = one(&RECKONINGS, speed);
        let worker = worker
            .join()
            .map_err(|_| Problem::new("Compiling the worker broke off."))?;
        Ok([screen?, nursery?, reckonings?, worker?])
    })
}

fn one(program: &Program, speed: Speed) -> Outcome<Compiled> {
    let compiled = cargo_build(program, speed)?;
    let workplace = PathBuf::from("target/site").join(program.name);
    bind(program, &compiled, &workplace)?;
    let mut wasm = workplace.join(format!("{}_bg.wasm", program.name));
    let mut glue = read_text(&workplace.join(format!("{}.js", program.name)))?;
    if speed == Speed::Release {
        let names;
        (wasm, names) = optimise(program, &wasm)?;
        glue = shipped_glue(&glue, &names)?;
    }
    Ok(Compiled {
        glue,
        wasm: read_bytes(&wasm)?,
    })
}

/// Runs cargo and returns where it says the program lies.
fn cargo_build(program: &Program, speed: Speed) -> Outcome<PathBuf> {
    let mut cargo = Command::new(CARGO);
    cargo.args(["build", "--locked", "--target", "wasm32-unknown-unknown"]);
    cargo.args(["--bin", program.binary, "--no-default-features"]);
    cargo.args(["--features", program.feature]);
    cargo.args(["--profile", speed.profile(program.release_profile)]);
    cargo.arg("--message-format=json-render-diagnostics");
    if program.name == WORKER.name {
        // Two progress bars at once would only overwrite each other.
        cargo.arg("--quiet");
    }
    let output = cargo
        .stderr(Stdio::inherit())
        .output()
        .map_err(|cause| Problem::with_file("run", Path::new(CARGO), cause))?;
    if !output.status.success() {
        return Err(Problem::new(format!(
            "The {} was not compiled; the compiler says why above.",
            program.name
        )));
    }
    String::from_utf8_lossy(&output.stdout)
        .lines()
        .find_map(|line| wasm_in(line, program.binary))
        .ok_or_else(|| Problem::new(format!("cargo names no WebAssembly for {}.", program.name)))
}

/// The WebAssembly file of this binary, if that is what this line of cargo's tells of.
fn wasm_in(line: &str, binary: &str) -> Option<PathBuf> {
    let message: serde_json::Value = serde_json::from_str(line).ok()?;
    let target = message.get("target")?;
    let is_ours =
        target.get("name")? == binary && target.get("kind")?.as_array()?.iter().any(|k| k == "bin");
    is_ours.then_some(())?;
    let files = message.get("filenames")?.as_array()?;
    let mut names = files.iter().filter_map(|file| file.as_str());
    names
        .find(|name| name.ends_with(".wasm"))
        .map(PathBuf::from)
}

/// Writes the glue and the program that goes with it.
fn bind(program: &Program, compiled: &Path, workplace: &Path) -> Outcome<()> {
    let fault = |cause: &dyn std::fmt::Display| {
        Problem::new(format!(
            "The glue of the {} was not made: {cause}.",
            program.name
        ))
    };
    let mut bindgen = Bindgen::new();
    bindgen
        .input_path(compiled)
        .web(true)
        .map_err(|cause| fault(&cause))?
        .out_name(program.name)
        .typescript(false)
        .omit_default_module_path(true)
        .remove_name_section(true)
        .remove_producers_section(true);
    let mut output = bindgen.generate_output().map_err(|cause| fault(&cause))?;
    if output.snippets().values().any(|list| !list.is_empty())
        || !output.local_modules().is_empty()
        || !output.npm_dependencies().is_empty()
    {
        return Err(fault(
            &"a dependency brings JavaScript files of its own, and the site has no place for \
              them; use one that speaks to the browser through web-sys alone",
        ));
    }
    output.emit(workplace).map_err(|cause| fault(&cause))
}

/// Runs wasm-opt over the program; returns where the smaller or faster one lies, and what
/// wasm-opt tells of the short names that it has given to imports and exports.
fn optimise(program: &Program, wasm: &Path) -> Outcome<(PathBuf, String)> {
    let wasm_opt = std::env::var_os(WASM_OPT).ok_or_else(|| {
        Problem::new(format!(
            "{WASM_OPT} does not say where wasm-opt is: run this through the Makefile."
        ))
    })?;
    let optimised = wasm.with_extension("opt.wasm");
    let output = Command::new(&wasm_opt)
        .args(WASM_FEATURES)
        .args(program.wasm_opt_passes)
        .arg("--minify-imports-and-exports-and-modules")
        .arg(wasm)
        .arg("-o")
        .arg(&optimised)
        .stderr(Stdio::inherit())
        .output()
        .map_err(|cause| Problem::with_file("run", Path::new(&wasm_opt), cause))?;
    if output.status.success() {
        let names = String::from_utf8_lossy(&output.stdout).into_owned();
        Ok((optimised, names))
    } else {
        Err(Problem::new(format!(
            "wasm-opt gave up on the {}.",
            program.name
        )))
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]
    use super::*;

    #[test]
    fn the_program_is_found_among_what_cargo_tells() {
        let line = r#"{"reason":"compiler-artifact","target":{"kind":["bin"],"name":"worker"},
            "filenames":["a/worker.js","a/worker.wasm"]}"#;
        assert_eq!(wasm_in(line, "worker"), Some("a/worker.wasm".into()));
        assert_eq!(wasm_in(line, "longtom"), None);
        assert_eq!(wasm_in("   Compiling longtom", "longtom"), None);
        let library = line.replace("bin", "lib");
        assert_eq!(wasm_in(&library, "worker"), None);
    }
}
