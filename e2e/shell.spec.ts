// What holds before any reckoning: the headers, the static page, the store on the device,
// and the change from one version to the next.
import type { Page } from "@playwright/test";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { release } from "./release.mjs";
import { Site } from "./site";
import { expect, networkOf, storedAndControlled, test } from "./test";

const hashed = /-[0-9a-f]{16}\.(js|css|wasm)$/;
const named = (start: string, end: string) =>
  readdirSync(release).find((name) => name.startsWith(start) && name.endsWith(end))!;

test.describe("headers", () => {
  test("every file has its type, its packing and the policy", async ({ request, baseURL }) => {
    const types: Record<string, string> = {
      html: "text/html; charset=utf-8",
      css: "text/css; charset=utf-8",
      js: "text/javascript; charset=utf-8",
      wasm: "application/wasm",
      webmanifest: "application/manifest+json",
    };
    for (const name of readdirSync(release)) {
      const type = types[name.split(".").pop()!];
      if (!type) continue;
      const answer = await request.get(name, { headers: { "Accept-Encoding": "gzip, br" } });
      const headers = answer.headers();
      expect(answer.status(), name).toBe(200);
      expect(headers["content-type"], name).toBe(type);
      expect(headers["content-encoding"], name).toBe("br");
      expect(headers["cache-control"], name).toMatch(hashed.test(name) ? /immutable/ : /^no-cache$/);
      expect(headers["content-security-policy"], name).toContain("default-src 'none'");
      expect(headers["content-security-policy"], name).toContain("frame-ancestors 'none'");
      expect(headers["x-content-type-options"], name).toBe("nosniff");
      expect(headers["referrer-policy"], name).toBe("no-referrer");
      expect(headers["cross-origin-opener-policy"], name).toBe("same-origin");
      const plain = await request.get(name, { headers: { "Accept-Encoding": "identity" } });
      expect(plain.headers()["content-encoding"], name).toBeUndefined();
      expect((await plain.body()).equals(readFileSync(join(release, name))), name).toBe(true);
    }
    expect((await request.get(baseURL!)).headers()["content-type"]).toBe(types.html);
  });

  test("nothing else can be had", async ({ request }) => {
    for (const path of ["nothing.js", "icons", "%2e%2e/Cargo.toml", "..%2fCargo.toml", "headers.json/../../Cargo.toml"]) {
      expect((await request.get(path)).status(), path).toBe(404);
    }
    expect((await request.post("index.html")).status()).toBe(405);
  });
});

test.describe("the page before the program", () => {
  test("says what it is with no program at all", async ({ page, site }) => {
    site.remove(named("screen-", ".wasm"));
    await page.goto(site.url);
    await expect(page.getByRole("heading", { level: 1 })).toBeVisible();
    await expect(page.getByText("Longtom", { exact: true })).toBeVisible();
    await expect(page.locator("#opening")).toContainText("has not arrived");
  });

  test("says so when what arrives is no program", async ({ page, site }) => {
    site.write(named("screen-", ".wasm"), "no program");
    await page.goto(site.url);
    await expect(page.locator("#opening")).toContainText("would not start");
  });

  test("says so in a browser that cannot run programs", async ({ page }) => {
    await page.addInitScript(() => delete (globalThis as any).WebAssembly);
    await page.goto(".");
    await expect(page.locator("#opening")).toContainText("cannot run Longtom");
  });

  test("names a worker that starts", async ({ page }) => {
    await page.goto(".");
    const failure = await page.evaluate(async () => {
      const worker = new Worker(document.documentElement.dataset.worker!, { type: "module" });
      // A worker that is missing, refused or broken says so at once; one that starts does
      // not, and either speaks or waits.
      return new Promise<string>((resolve) => {
        worker.onerror = (event) => resolve(event.message || "the worker is missing or broken");
        worker.onmessage = ({ data }) => resolve(data?.kind === "not started" ? data.why : "");
        setTimeout(() => resolve(""), 3000);
      });
    });
    expect(failure).toBe("");
  });
});

test.describe("stored on the device", () => {
  test("everything listed is stored on the first visit, and the page is told", async ({ page }) => {
    await page.goto(".");
    const told = await storedAndControlled(page);
    expect(told.kind).toBe("stored");
    const inCache = await page.evaluate(async () => {
      const [name] = await caches.keys();
      const answers = await (await caches.open(name!)).matchAll();
      const sizes = await Promise.all(answers.map(async (answer) => (await answer.arrayBuffer()).byteLength));
      return { files: answers.length, bytes: sizes.reduce((sum, size) => sum + size, 0) };
    });
    expect(inCache).toEqual({ files: told.files, bytes: told.bytes });
    for (const name of readdirSync(release).filter((name) => hashed.test(name))) {
      expect(await page.evaluate((url) => caches.match(url).then(Boolean), `./${name}`), name).toBe(true);
    }
  });

  test("works with no network at all, after a reload too", async ({ page, site }) => {
    await page.goto(site.url);
    await storedAndControlled(page);
    await site.stop();
    for (const address of [site.url, `${site.url}index.html`, `${site.url}?from=home#/mix`]) {
      await page.goto("about:blank");
      await page.goto(address);
      await expect(page).toHaveTitle(/Longtom/);
    }
    await page.reload();
    await expect(page).toHaveTitle(/Longtom/);
    await page.goto(`${site.url}some/where/else`);
    expect(page.url()).toBe(site.url);
  });

  test("fetches nothing once stored, and refuses what is not", async ({ page }) => {
    await page.goto(".");
    await storedAndControlled(page);
    const seen = networkOf(page);
    await page.reload();
    await expect(page).toHaveTitle(/Longtom/);
    const refused = await page.evaluate(async () => {
      const answer = await fetch("./headers.json");
      const changed = await fetch("./", { method: "POST" });
      return [answer.status, changed.status, await answer.text()];
    });
    expect(refused).toEqual([504, 504, "This is not stored on this device.\n"]);
    expect(seen).toEqual([]);
  });

  test("a file that is not what it should be leaves nothing stored", async ({ page, site }) => {
    site.write("icons/pot.svg", "<svg xmlns='http://www.w3.org/2000/svg'/>");
    const tried = page.context().waitForEvent("request", (request) =>
      !!request.serviceWorker() && request.url().endsWith("pot.svg"));
    await page.goto(site.url);
    await tried;
    await expect.poll(() => page.evaluate(async () => ({
      registered: !!(await navigator.serviceWorker.getRegistration()),
      caches: await caches.keys(),
    }))).toEqual({ registered: false, caches: [] });
  });

  test("works in a folder of a host, and lets its neighbour be", async ({ page }) => {
    const site = await Site.open("/tools/longtom/");
    await page.goto(site.url);
    await page.evaluate(() => caches.open("longtom http://localhost/elsewhere/ 1"));
    const told = await storedAndControlled(page);
    expect(told.kind).toBe("stored");
    await site.stop();
    await page.reload();
    await expect(page).toHaveTitle(/Longtom/);
    expect(await page.evaluate(() => caches.keys())).toHaveLength(2);
    await site.close();
  });
});

test.describe("a new version", () => {
  test("waits, and then takes over every page at once, whole", async ({ page, context, site }) => {
    const changed = new Set<Page>();
    await context.exposeBinding("tellChanged", ({ page }) => changed.add(page));
    await context.addInitScript(() => {
      navigator.serviceWorker.addEventListener("controllerchange", () => (globalThis as any).tellChanged());
    });
    await page.goto(site.url);
    const first = await storedAndControlled(page);
    const other = await context.newPage();
    await other.goto(site.url);

    site.publishNext();
    await page.evaluate(async () => {
      const registration = await navigator.serviceWorker.ready;
      await registration.update();
    });
    await page.waitForFunction(async () => (await navigator.serviceWorker.ready).waiting?.state === "installed");

    // Until it is told to, it leaves everything as it was, however often one reloads.
    await page.reload();
    await expect(page.locator("html")).not.toHaveAttribute("data-edition");
    expect((await storedAndControlled(page)).version).toBe(first.version);

    changed.clear();
    await page.evaluate(async () => {
      (await navigator.serviceWorker.ready).waiting!.postMessage({ kind: "change over" });
    });
    await expect.poll(() => changed.size).toBe(2);

    for (const each of [page, other]) {
      // The page may be reloading by itself already.
      await each.reload().catch(() => undefined);
      await expect(each.locator("html")).toHaveAttribute("data-edition", "next");
      const next = await storedAndControlled(each);
      expect(next.kind).toBe("stored");
      expect(next.version).not.toBe(first.version);
    }
    expect(await page.evaluate(() => caches.keys())).toHaveLength(1);
    await site.stop();
    await page.reload();
    await expect(page.locator("html")).toHaveAttribute("data-edition", "next");
  });

  test("that cannot be fetched whole leaves the old one as it is", async ({ page, site }) => {
    await page.goto(site.url);
    const first = await storedAndControlled(page);
    site.publishNext();
    site.remove("icons/pot-512.png");
    await page.evaluate(async () => {
      const registration = await navigator.serviceWorker.ready;
      const ended = new Promise<void>((resolve) => {
        registration.addEventListener("updatefound", () => {
          const worker = registration.installing!;
          worker.addEventListener("statechange", () => worker.state === "redundant" && resolve());
        });
      });
      await registration.update().catch(() => undefined);
      await ended;
    });
    const still = await storedAndControlled(page);
    expect(still).toEqual(first);
    await page.reload();
    await expect(page.locator("html")).not.toHaveAttribute("data-edition");
  });
});

test.describe("the manifest", () => {
  test("names pictures of the sizes it says", async ({ page, request, baseURL }) => {
    await page.goto(".");
    const href = await page.locator("link[rel=manifest]").getAttribute("href");
    const manifest = await (await request.get(href!)).json();
    for (const key of ["id", "name", "short_name", "start_url", "scope", "display", "icons", "shortcuts"]) {
      expect(manifest[key], key).toBeTruthy();
    }
    for (const picture of [...manifest.icons, ...(manifest.screenshots ?? [])]) {
      // Fetched past the service worker, which keeps no pictures for the shop window.
      const answer = await request.get(new URL(picture.src, baseURL).href);
      const src = `data:${picture.type};base64,${(await answer.body()).toString("base64")}`;
      const size = await page.evaluate(async (src) => {
        const image = new Image();
        image.src = src;
        await image.decode();
        return `${image.naturalWidth}x${image.naturalHeight}`;
      }, src);
      if (picture.sizes !== "any") expect(size, picture.src).toBe(picture.sizes);
    }
    expect(manifest.icons.map((icon: { purpose: string }) => icon.purpose)).toContain("maskable");
  });
});
