// Starts the screen, and says a plain sentence where that cannot be. Until the screen is
// there, the page is what index.html says; #opening is the line that tells how it stands.

function say(sentence) {
  const line = document.getElementById("opening");
  // Once the screen has taken its place there is no such line, and the screen speaks.
  if (line) line.textContent = sentence;
}

// The browser's shelf holds each text as a JSON string; what is damaged is taken as it lies.
function unwrapped(text) {
  try {
    const inner = JSON.parse(text);
    return typeof inner === "string" ? inner : text;
  } catch {
    return text;
  }
}

// Closed months lie elsewhere than all else: what reaches them is fetched when it is first wanted.
const archive = () => import("public/archive.js");
globalThis.longtomArchived = async (act, ...about) => (await archive(), longtomArchive[act](...about));

// The last page, should the program stop. It is plain JavaScript and needs nothing of the
// program: it says so, and what is stored can still be taken away as a file, just as it lies.
async function stopped(why) {
  const app = document.getElementById("app");
  if (!app || document.querySelector(".stopped")) return;
  const add = (parent, tag, text, set = {}) =>
    parent.appendChild(Object.assign(document.createElement(tag), { textContent: text }, set));
  app.replaceChildren();
  const main = add(app, "main", "", { className: "stopped" });
  add(main, "h1", "Longtom has stopped.");
  add(main, "p", "It met something it was not made for. What you had entered is stored on this device. Take a copy of it first, then open Longtom again.");
  const file = add(main, "p", "Getting the copy ready …");
  add(add(main, "p", ""), "a", "Open Longtom again", { href: "./", className: "button" });
  const details = add(main, "details", "");
  add(details, "summary", "For whoever mends it");
  add(details, "pre", why);
  const not_read = {};
  const closed = await closedMonths().catch((problem) => (not_read.closed = String(problem), {}));
  try {
    const stored = {};
    for (let i = 0; i < localStorage.length; i++) {
      const key = localStorage.key(i);
      if (key.startsWith("longtom.")) stored[key] = unwrapped(localStorage.getItem(key));
    }
    const parcel = { longtom: "parcel", schema: 1, packed: new Date().toISOString(), stored, closed, not_read };
    const href = URL.createObjectURL(new Blob([JSON.stringify(parcel)], { type: "application/json" }));
    file.textContent = "";
    add(file, "a", "Save everything stored as a file", { href, download: "longtom-everything.json", className: "button" });
  } catch {
    file.textContent = "The browser does not let this page reach what is stored. It is kept all the same.";
  }
}

// Closed months as they lie; whoever has just stopped does not wait for them for ever.
const closedMonths = () => Promise.race([
  longtomArchived("everything").then(JSON.parse),
  new Promise((_, fail) => setTimeout(fail, 10_000, "they did not come in time")),
]);

// A stop of the program is a trap, or something thrown at it that went through it: either way
// the program's own functions are on the way that it came.
function watch(problem) {
  const way = String(problem?.stack || problem);
  if (problem instanceof WebAssembly.RuntimeError || way.includes("wasm-function")) stopped(way);
}
addEventListener("error", (event) => watch(event.error));
addEventListener("unhandledrejection", (event) => watch(event.reason));

// A program, compiled while it comes. Where the browser cannot do that, as it comes.
async function compiled(address) {
  const program = await fetch(address);
  if (!program.ok) throw new Error(program.statusText);
  try {
    return await WebAssembly.compileStreaming(program);
  } catch {
    return fetch(address);
  }
}

// How long the program of a page is waited for.
const FIRST_MS = 1500;

// Starts the first program. Where the address asks for a page of another, that one comes first, but
// is not waited for long: the page is its, and the rest of the frame can wait.
async function open(other) {
  if (typeof WebAssembly !== "object") {
    say("This browser cannot run Longtom. A browser brought up to date since 2022 can.");
    return;
  }
  let start;
  let program;
  try {
    [{ default: start }, program] = await Promise.all([
      import("built/screen.js"),
      compiled(new URL("built/screen.wasm", import.meta.url)),
    ]);
  } catch {
    say("Part of Longtom has not arrived. Look to the signal, then load this page again.");
    return;
  }
  try {
    if (other) await Promise.race([other, new Promise((late) => setTimeout(late, FIRST_MS))]);
    await start({ module_or_path: program });
  } catch (problem) {
    console.error(problem);
    say("Longtom has arrived and would not start. Load this page again; if that does not help, bring the browser up to date.");
  }
}

// Stored for use without a signal only once the page itself has all it needs.
function store() {
  navigator.serviceWorker.register(document.documentElement.dataset.serviceWorker, { updateViaCache: "none" })
    .catch((problem) => console.info("Not stored on this device:", problem));
}

// The pages of the nursery, and the reckonings beyond the first, are programs of their own. Each
// is fetched when one of its pages is asked for; the nursery's also when the browser is idle and
// a record is kept here.
const parts = {
  nursery: {
    pages: /^#\/(nursery|thing|day-book|bring-in)\b/,
    glue: () => Promise.all([import("built/nursery.js"), archive()]),
    program: new URL("built/nursery.wasm", import.meta.url),
  },
  reckonings: {
    pages: /^#\/(recipe|rinse|bed|root-zone|season|moving-on|side-by-side|look-up)\b/,
    glue: () => Promise.all([import("built/reckonings.js")]),
    program: new URL("built/reckonings.wasm", import.meta.url),
  },
};
async function fetchPart(part) {
  try {
    const [[{ default: start }], program] = await Promise.all([part.glue(), compiled(part.program)]);
    await start({ module_or_path: program });
  } catch (problem) {
    part.sent = undefined;
    console.info("A part of Longtom has not opened:", problem);
    say("This part of Longtom has not arrived. Look to the signal, then load this page again.");
  }
}
globalThis.longtomPart = (name, when) => {
  const load = () => (parts[name].sent ??= fetchPart(parts[name]));
  if (when === "now") return load();
  if (keepsRecord()) (globalThis.requestIdleCallback ?? setTimeout)(load);
};
function keepsRecord() {
  try {
    return Object.keys(localStorage).some((key) => key.startsWith("longtom.record."));
  } catch {
    return false;
  }
}

// The start page says at once whether there is anything that could be due.
document.documentElement.toggleAttribute("data-keeps-record", keepsRecord());
// Where the address asks for one of them, both programs are fetched and compiled at once.
const asked = Object.keys(parts).find((name) => parts[name].pages.test(location.hash));
open(asked && globalThis.longtomPart(asked, "now"));
if (document.documentElement.dataset.serviceWorker && "serviceWorker" in navigator) {
  if (document.readyState === "complete") store();
  else addEventListener("load", store);
}
