//! The order of work: compile, name by content, refer by those names, list for the
//! service worker, pack, and put in place all at once.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use crate::compile::{self, Compiled, NURSERY, Program, RECKONINGS, SCREEN, WORKER};
use crate::compress::{Packing, is_packable};
use crate::headers::{self, Headers, policy_for_page};
use crate::names::{References, content_hash, integrity, named_by_content};
use crate::problem::{Outcome, Problem, read_bytes, read_text, write};
use crate::scripts::without_remarks;
use crate::styles;

/// The entry, both in the repository and in the site.
pub const PAGE: &str = "index.html";
/// The web manifest; its name must outlast versions, since installed copies keep it.
const MANIFEST: &str = "manifest.webmanifest";
/// The service worker; its name must outlast versions, since browsers look there for
/// the next one.
const SERVICE_WORKER: &str = "service-worker.js";
/// What is written by hand and published.
const PUBLIC: &str = "public";
/// The demo nursery, fetched when it is asked for.
const DEMO: &str = "demo.json";
/// Pictures that the manifest shows before installing: fetched by the browser itself
/// then, and of no use offline.
const SCREENSHOTS: &str = "screenshots/";
/// Whatever reloads the page while it is being written; never in a release.
const RELOAD_SCRIPT: &str = include_str!("reload.js");

/// How the programs are compiled.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Speed {
    /// What is shipped.
    Release,
    /// Quick to build, for looking at a change: no wasm-opt, nothing packed, no service
    /// worker, and a script that reloads the page.
    Quick,
}

impl Speed {
    /// The cargo profile: the program's own, or the one for quick looks.
    pub const fn profile(self, release: &'static str) -> &'static str {
        match self {
            Self::Release => release,
            Self::Quick => "quick",
        }
    }
}

/// Every file of the site by its published name.
type Files = BTreeMap<String, Vec<u8>>;

/// Builds the whole site into `dir`, replacing what was there only once all is done.
pub fn site(dir: &Path, speed: Speed) -> Outcome<()> {
    if !Path::new(PAGE).exists() {
        return Err(Problem::new(format!(
            "There is no {PAGE} here: run this from the top of the repository."
        )));
    }
    let files = assemble(compile::all(speed)?, speed)?;
    let staging = PathBuf::from("target/site/staging");
    clear(&staging)?;
    for (name, content) in &files {
        write(&staging.join(name), content)?;
        if speed == Speed::Release && is_packable(name) && name != headers::FILE {
            pack(&staging, name, content)?;
        }
    }
    clear(dir)?;
    std::fs::rename(&staging, dir)
        .map_err(|cause| Problem::with_file("put the site into", dir, cause))
}

fn assemble([screen, nursery, reckonings, worker]: [Compiled; 4], speed: Speed) -> Outcome<Files> {
    let mut site = Site::default();
    site.add_program(&SCREEN, screen);
    site.add_program(&NURSERY, nursery);
    site.add_program(&RECKONINGS, reckonings);
    site.add_program(&WORKER, worker);
    let styles = styles::join(Path::new("style/index.css"))?;
    site.add("style/index.css", "styles.css", styles.into_bytes());
    site.add_script("archive.js")?;
    site.add_script("starter.js")?;
    site.add_script("worker-starter.js")?;
    let demo = format!("{PUBLIC}/{DEMO}");
    site.add(&demo, DEMO, read_bytes(Path::new(&demo))?);
    for name in icons_and_screenshots()? {
        let content = read_bytes(&Path::new(PUBLIC).join(&name))?;
        site.add_under_its_own_name(&name, content);
    }
    let manifest = read_text(&Path::new(PUBLIC).join(MANIFEST))?;
    check_manifest(&manifest, &site.files)?;
    site.add_under_its_own_name(MANIFEST, manifest.into_bytes());
    site.references.add("built/policy", &policy_for_page());
    let service_worker = match speed {
        Speed::Release => format!("./{SERVICE_WORKER}"),
        Speed::Quick => String::new(),
    };
    site.references
        .add(&format!("{PUBLIC}/{SERVICE_WORKER}"), &service_worker);
    site.add_page(speed)?;
    if speed == Speed::Release {
        site.add_service_worker()?;
    }
    let headers = Headers::of_the_site().to_json()?;
    site.files
        .insert(headers::FILE.into(), headers.into_bytes());
    Ok(site.files)
}

/// The site as it grows: each file may refer to those that came before it.
#[derive(Default)]
struct Site {
    files: Files,
    references: References,
}

impl Site {
    fn add(&mut self, reference: &str, plain_name: &str, content: Vec<u8>) {
        let name = named_by_content(plain_name, &content);
        self.references.add(reference, &format!("./{name}"));
        self.files.insert(name, content);
    }

    fn add_program(&mut self, program: &Program, compiled: Compiled) {
        for (extension, content) in [("wasm", compiled.wasm), ("js", compiled.glue.into_bytes())] {
            let plain = format!("{}.{extension}", program.name);
            self.add(&format!("built/{plain}"), &plain, content);
        }
    }

    fn add_script(&mut self, name: &str) -> Outcome<()> {
        let reference = format!("{PUBLIC}/{name}");
        let written = read_text(Path::new(&reference))?;
        let script = self
            .references
            .replace_in(&reference, &without_remarks(&written))?;
        self.add(&reference, name, script.into_bytes());
        Ok(())
    }

    fn add_under_its_own_name(&mut self, name: &str, content: Vec<u8>) {
        self.references
            .add(&format!("{PUBLIC}/{name}"), &format!("./{name}"));
        self.files.insert(name.to_owned(), content);
    }

    fn add_page(&mut self, speed: Speed) -> Outcome<()> {
        let written = without_html_comments(&read_text(Path::new(PAGE))?);
        let mut page = self.references.replace_in(PAGE, &written)?;
        if speed == Speed::Quick {
            let name = named_by_content("reload.js", RELOAD_SCRIPT.as_bytes());
            let tag = format!("<script type=\"module\" src=\"./{name}\"></script>\n</head>");
            page = page.replacen("</head>", &tag, 1);
            self.files.insert(name, RELOAD_SCRIPT.into());
        }
        self.files.insert(PAGE.into(), page.into_bytes());
        Ok(())
    }

    /// Fills in what is to be stored on the device: each file as its address, its bytes
    /// and its digest, and a version that changes whenever any of them does, or the
    /// service worker itself.
    fn add_service_worker(&mut self) -> Outcome<()> {
        let source = Path::new(PUBLIC).join(SERVICE_WORKER);
        let written = read_text(&source)?;
        let list: Vec<(String, usize, String)> = self
            .files
            .iter()
            .filter(|(name, _)| !name.starts_with(SCREENSHOTS))
            .map(|(name, content)| {
                // The page is asked for as the folder it stands for: some hosts answer
                // a request for index.html with a redirection to there.
                let name = if name == PAGE { "" } else { name };
                (format!("./{name}"), content.len(), integrity(content))
            })
            .collect();
        let list = serde_json::to_string(&list).map_err(|cause| {
            Problem::new(format!("Could not list the files to be stored: {cause}."))
        })?;
        let version = content_hash(format!("{list}{written}").as_bytes());
        self.references.add("built/version", &version);
        self.references.add_raw("built/files", list);
        let name = source.display().to_string();
        let script = self
            .references
            .replace_in(&name, &without_remarks(&written))?;
        self.files
            .insert(SERVICE_WORKER.into(), script.into_bytes());
        Ok(())
    }
}

/// Names of everything in the folders of pictures, as seen from the page.
fn icons_and_screenshots() -> Outcome<Vec<String>> {
    let mut names = Vec::new();
    for folder in ["icons", "screenshots"] {
        let path = Path::new(PUBLIC).join(folder);
        if !path.exists() {
            continue;
        }
        let entries = std::fs::read_dir(&path)
            .map_err(|cause| Problem::with_file("look into", &path, cause))?;
        for entry in entries {
            let entry = entry.map_err(|cause| Problem::with_file("look into", &path, cause))?;
            names.push(format!("{folder}/{}", entry.file_name().to_string_lossy()));
        }
    }
    Ok(names)
}

/// Every picture that the manifest names must be there.
fn check_manifest(manifest: &str, files: &Files) -> Outcome<()> {
    let parsed: serde_json::Value = serde_json::from_str(manifest)
        .map_err(|cause| Problem::new(format!("{PUBLIC}/{MANIFEST} is not JSON: {cause}.")))?;
    let pictures = ["icons", "screenshots"]
        .iter()
        .filter_map(|list| parsed.get(list)?.as_array())
        .flatten();
    for picture in pictures {
        let source = picture.get("src").and_then(|s| s.as_str()).unwrap_or("");
        if !files.contains_key(source.trim_start_matches("./")) {
            return Err(Problem::new(format!(
                "{PUBLIC}/{MANIFEST} names the picture “{source}”, which is not in {PUBLIC}/."
            )));
        }
    }
    Ok(())
}

fn without_html_comments(page: &str) -> String {
    let mut kept = String::new();
    let mut rest = page;
    while let Some((before, comment)) = rest.split_once("<!--") {
        kept.push_str(before.trim_end_matches([' ', '\n']));
        rest = comment.split_once("-->").map_or("", |(_, after)| after);
    }
    kept.push_str(rest);
    kept
}

/// Lays the packed forms of a file beside it, where they are smaller.
fn pack(folder: &Path, name: &str, content: &[u8]) -> Outcome<()> {
    for packing in Packing::ALL {
        let packed = packing.pack(content)?;
        if packed.len() < content.len() {
            write(&folder.join(format!("{name}{}", packing.suffix())), &packed)?;
        }
    }
    Ok(())
}

/// Removes a folder of ours, if it is there.
fn clear(folder: &Path) -> Outcome<()> {
    match std::fs::remove_dir_all(folder) {
        Err(cause) if cause.kind() != std::io::ErrorKind::NotFound => {
            Err(Problem::with_file("clear away", folder, cause))
        }
        _ => Ok(()),
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]
    use super::*;

    #[test]
    fn remarks_are_not_shipped() {
        assert_eq!(
            without_html_comments("<a>\n  <!-- why -->\n<b><!-- x --></b>"),
            "<a>\n<b></b>"
        );
    }

    #[test]
    fn a_picture_that_is_missing_stops_the_build() {
        let manifest = r#"{"icons": [{"src": "./icons/a.png"}], "name": "x"}"#;
        let mut files = Files::new();
        let refused = check_manifest(manifest, &files).unwrap_err();
        assert!(refused.to_string().contains("icons/a.png"), "{refused}");
        files.insert("icons/a.png".into(), Vec::new());
        assert_eq!(check_manifest(manifest, &files), Ok(()));
    }

    #[test]
    fn the_list_of_what_is_stored_changes_with_any_file() {
        let service_worker = |content: &[u8]| {
            let mut site = Site::default();
            site.files.insert(PAGE.into(), content.to_vec());
            site.files.insert("screenshots/a.png".into(), b"x".to_vec());
            site.add_service_worker().unwrap();
            String::from_utf8(site.files.remove(SERVICE_WORKER).unwrap()).unwrap()
        };
        let (one, other) = (service_worker(b"abc"), service_worker(b"abd"));
        assert_ne!(one, other);
        // FIPS 180-2, appendix B.1, in base64.
        assert!(one.contains(r#"["./",3,"sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0="]"#));
        assert!(!one.contains("screenshots"));
        assert!(!one.contains("\"built/"));
    }
}
