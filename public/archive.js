// Closed months of the record, each as one packed value in IndexedDB, and doing something while
// no other tab does it. The screen calls these by globalThis.longtomArchive; each gives a promise.

const STORE = "months";
// What the names of months that were set aside begin with.
const ASIDE = "aside.";

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

// Tells a value from whatever else has lain or will lie under its name; undefined for none.
const stampOf = (kept) => (kept === undefined ? undefined : String(kept?.stamp ?? ""));

// Changes what lies under a name, but only while it is what was seen there. Looking and changing
// are one transaction, so nobody comes between them.
async function change(name, seen, act) {
  let still;
  let refused;
  await within("readwrite", (months) => {
    const asked = months.get(name);
    asked.onsuccess = () => {
      still = stampOf(asked.result) === seen;
      try {
        if (still) act(months, asked.result);
      } catch (fault) {
        refused = fault;
        asked.transaction.abort();
      }
    };
    return asked;
  }).catch((fault) => {
    throw refused ?? fault;
  });
  return still;
}

async function through(bytes, stream) {
  return new Uint8Array(await new Response(new Blob([bytes]).stream().pipeThrough(stream)).arrayBuffer());
}

// The text of a value as bytes; undefined where none can be made of it.
async function unpacked(kept) {
  if (kept?.packed && typeof DecompressionStream !== "function") throw new Error("it cannot unpack what is stored");
  try {
    return kept.packed ? await through(kept.bytes, new DecompressionStream("deflate-raw")) : kept.bytes;
  } catch {
    return undefined;
  }
}

// The text of a value; undefined where none can be made of it.
async function textOf(kept) {
  const bytes = await unpacked(kept);
  if (!bytes) return undefined;
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    return undefined;
  }
}

// A value as it lies: its text, or else its bytes as digits of base 64.
async function asItLies(kept) {
  const text = await textOf(kept).catch(() => undefined);
  if (text !== undefined) return text;
  const bytes = kept?.bytes instanceof Uint8Array ? kept.bytes : new Uint8Array();
  let all = "";
  for (const byte of bytes) all += String.fromCharCode(byte);
  return { packed: !!kept?.packed, bytes: btoa(all) };
}

// When the page was last let do what else it has to.
let breath = 0;

const isAside = (name) => String(name).startsWith(ASIDE);
const names = () => within("readonly", (months) => months.getAllKeys());
const get = (name) => within("readonly", (months) => months.get(name));

globalThis.longtomArchive = {
  names: async () => (await names()).filter((name) => !isAside(name)),
  // Its stamp, and its text if it has one.
  async look(name) {
    const kept = await get(name);
    return kept === undefined ? undefined : [stampOf(kept), await textOf(kept)];
  },
  // Of each name, which are in lines: the bytes of its text, nothing where there is none, null where
  // none can be made of what is there, or the fault that stands in the way.
  async readMany(names) {
    const all = await within("readonly", (months) => {
      const asked = names.split("\n").map((name) => months.get(name));
      return { get result() { return asked.map((one) => one.result); } };
    });
    const bytesOf = async (kept) => (await unpacked(kept)) ?? null;
    return Promise.all(all.map((kept) => (kept === undefined ? kept : bytesOf(kept).catch((fault) => fault))));
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
  async replace(name, text, seen) {
    const plain = new TextEncoder().encode(text);
    const packed = typeof CompressionStream === "function";
    const bytes = packed ? await through(plain, new CompressionStream("deflate-raw")) : plain;
    return change(name, seen, (months) => months.put({ packed, bytes, stamp: Math.random() }, name));
  },
  // `add` writes over nothing: where there is such a name already, all of it breaks off.
  setAside: (name, _, seen) => change(name, seen, (months, kept) => {
    months.add(kept, `${ASIDE}${Date.now()}.${name}`);
    months.delete(name);
  }),
  // What was set aside, each in a line: name and bytes.
  async asides() {
    const all = (await names()).filter(isAside);
    return (await Promise.all(all.map(async (name) => `${name} ${(await get(name))?.bytes?.length ?? 0}`))).join("\n");
  },
  // Nothing where it is there no more.
  async asideText(name) {
    const kept = await get(name);
    if (kept === undefined) return undefined;
    const lies = await asItLies(kept);
    return typeof lies === "string" ? lies : JSON.stringify(lies);
  },
  async discard(name) {
    if (isAside(name)) await within("readwrite", (months) => months.delete(name));
  },
  // The room that localStorage takes, in UTF-16 units.
  async used() {
    return Object.keys(localStorage).reduce((units, key) => units + key.length + localStorage.getItem(key).length, 0);
  },
  // All of it, for the file with everything stored.
  async everything() {
    const lies = {};
    for (const name of await names()) lies[name] = await asItLies(await get(name));
    return JSON.stringify(lies);
  },
  // Gives a function that lets the next one in, as soon as this is the only one.
  alone(name) {
    if (!navigator.locks) return Promise.resolve(() => {});
    return new Promise((done, fail) => {
      navigator.locks.request(name, () => new Promise((letIn) => done(letIn))).catch(fail);
    });
  },
};
