// Starts the reckonings off the main thread: new Worker(url, { type: "module" }), where
// url is data-worker of the page's <html>. The program speaks first, once it is ready; a
// message sent before that is lost. Where it cannot start, the page is told so instead:
// { kind: "not started", why: a text for whoever looks into it }.
import start from "built/worker.js";

start({ module_or_path: new URL("built/worker.wasm", import.meta.url) })
  .catch((problem) => postMessage({ kind: "not started", why: String(problem) }));
