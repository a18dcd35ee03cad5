// Starts the screen, and says a plain sentence where that cannot be. Until the screen is
// there, the page is what index.html says; #opening is the line that tells how it stands.

function say(sentence) {
  const line = document.getElementById("opening");
  // Once the screen has taken its place there is no such line, and the screen speaks.
  if (line) line.textContent = sentence;
}

async function open() {
  if (typeof WebAssembly !== "object") {
    say("This browser cannot run Longtom. A browser brought up to date since 2022 can.");
    return;
  }
  let start;
  let program;
  try {
    ({ default: start } = await import("built/screen.js"));
    program = await fetch(new URL("built/screen.wasm", import.meta.url));
    if (!program.ok) throw new Error(program.statusText);
  } catch {
    say("Part of Longtom has not arrived. Look to the signal, then load this page again.");
    return;
  }
  try {
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

open();
if (document.documentElement.dataset.serviceWorker && "serviceWorker" in navigator) {
  if (document.readyState === "complete") store();
  else addEventListener("load", store);
}
