// The test that every journey starts from: it fails on whatever the site's policy refuses,
// and can tell what the service worker says.
import { test as base, expect, type Page } from "@playwright/test";
import { Site } from "./site";

export { expect };

export const test = base.extend<{ refused: string[]; site: Site }>({
  // Anything that the Content-Security-Policy refuses, anywhere in the test.
  refused: [
    async ({ context }, use) => {
      const refused: string[] = [];
      await context.exposeBinding("tellRefused", (_, what: string) => refused.push(what));
      await context.addInitScript(() => {
        addEventListener("securitypolicyviolation", (event) => {
          (globalThis as any).tellRefused(`${event.violatedDirective}: ${event.blockedURI}`);
        });
      });
      await use(refused);
      expect(refused, "refused by the Content-Security-Policy").toEqual([]);
    },
    { auto: true },
  ],
  // A copy of the release of the test's own.
  site: async ({}, use) => {
    const site = await Site.open();
    await use(site);
    await site.close();
  },
});

export type Stored = { kind: string; version: string; files: number; bytes: number };

/** Asks the active service worker whether all is stored, as the page does. */
export function stored(page: Page): Promise<Stored> {
  return page.evaluate(async () => {
    const registration = await navigator.serviceWorker.ready;
    return new Promise<any>((resolve) => {
      const hear = (event: MessageEvent) => {
        if (!/stored$/.test(event.data?.kind)) return;
        navigator.serviceWorker.removeEventListener("message", hear);
        resolve(event.data);
      };
      navigator.serviceWorker.addEventListener("message", hear);
      navigator.serviceWorker.startMessages();
      registration.active!.postMessage({ kind: "stored?" });
    });
  });
}

/** Waits until this page's service worker has stored everything and answers for it. */
export async function storedAndControlled(page: Page): Promise<Stored> {
  await page.waitForFunction(() => navigator.serviceWorker.controller?.state === "activated");
  return stored(page);
}

/** Every request from now on that reaches for the network, the browser's own look for a
 * new service worker excepted. */
export function networkOf(page: Page): string[] {
  const seen: string[] = [];
  page.context().on("request", (request) => {
    const isOwnLook = request.url().endsWith("/service-worker.js");
    // What a service worker answers is also listed by the page; only its own count.
    if (request.serviceWorker() && !isOwnLook) seen.push(request.url());
  });
  page.on("response", (response) => {
    if (!response.fromServiceWorker() && response.url().startsWith("http")) seen.push(response.url());
  });
  return seen;
}
