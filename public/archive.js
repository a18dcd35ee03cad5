// Closed months of the record, each as one packed value in IndexedDB, and doing something while
// no other tab does it. The screen calls these by globalThis.longtomArchive; each gives a promise.

const STORE = "months";

function open() {
  return new Promise((done, fail) => {
    const asked = indexedDB.open("longtom", 1);
    asked.onupgradeneeded = () => asked.result.createObjectStore(STORE);
    asked.onsuccess = () => done(asked.result);
    asked.onerror = () => fail(asked.error);
    asked.onblocked = () => fail(new Error("another tab holds it"));
  });
}

async function within(mode, act) {
  const database = await open();
  try {
    // Written to the disk before it counts as done.
    const transaction = database.transaction(STORE, mode, { durability: "strict" });
    const asked = act(transaction.objectStore(STORE));
    await new Promise((done, fail) => {
      transaction.oncomplete = done;
      transaction.onabort = transaction.onerror = () => fail(transaction.error ?? new Error("it broke off"));
    });
    return asked.result;
  } finally {
    database.close();
  }
}

// The text as bytes: whoever reads it wants it so.
async function unpacked(kept) {
  return kept.packed ? through(kept.bytes, new DecompressionStream("deflate-raw")) : kept.bytes;
}

let breath = 0;

async function through(bytes, stream) {
  return new Uint8Array(await new Response(new Blob([bytes]).stream().pipeThrough(stream)).arrayBuffer());
}

globalThis.longtomArchive = {
  names: () => within("readonly", (months) => months.getAllKeys()),
  async read(name) {
    const kept = await within("readonly", (months) => months.get(name));
    if (!kept) return undefined;
    return new TextDecoder("utf-8", { fatal: true }).decode(await unpacked(kept));
  },
  // Of each name the bytes of its text, nothing, or the fault that stands in its way.
  async readMany(...names) {
    const all = await within("readonly", (months) => {
      const asked = names.map((name) => months.get(name));
      return { get result() { return asked.map((one) => one.result); } };
    });
    return Promise.all(all.map((kept) => kept && unpacked(kept).catch((fault) => fault)));
  },
  // Lets the page do what else it has to, if that has waited for some milliseconds.
  async breathe() {
    if (performance.now() - breath < 10) return;
    const { port1, port2 } = new MessageChannel();
    await new Promise((done) => {
      port1.onmessage = done;
      port2.postMessage(0);
    });
    port1.close();
    breath = performance.now();
  },
  async write(name, text) {
    const plain = new TextEncoder().encode(text);
    const packed = typeof CompressionStream === "function";
    const bytes = packed ? await through(plain, new CompressionStream("deflate-raw")) : plain;
    await within("readwrite", (months) => months.put({ packed, bytes }, name));
  },
  // Gives a function that lets the next one in, as soon as this is the only one.
  alone(name) {
    if (!navigator.locks) return Promise.resolve(() => {});
    return new Promise((done, fail) => {
      navigator.locks.request(name, () => new Promise((letIn) => done(letIn))).catch(fail);
    });
  },
};
