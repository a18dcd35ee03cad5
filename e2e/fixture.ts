// What every journey of the screens is watched for, whatever it is about: anything written to
// the console as a fault, a fault that nobody caught, anything that the policy refuses, and
// anything asked of the network once the service worker has said that all is stored.
import type { BrowserContext, Page, Request } from "@playwright/test";
import { expect, test as base } from "./test";

export { expect };

/** The page that asks; none for a service worker, nor while a page is only about to be there. */
function pageOf(request: Request): Page | undefined {
  try {
    return request.serviceWorker() ? undefined : request.frame().page();
  } catch {
    return undefined;
  }
}

export class Guard {
  private readonly problems: string[] = [];
  private readonly expected: { pattern: RegExp; met: boolean }[] = [];
  /** Since when all is stored, in milliseconds of the browser's own clock. */
  private readonly stored = new Map<BrowserContext, number>();
  /** Pages that were on their way before that, and have not been told of it themselves. */
  private readonly early = new Set<Page>();
  private newVersion = false;

  /** Watches a browser of its own: the test's, or another that it opens. */
  async watch(context: BrowserContext): Promise<void> {
    context.on("console", (message) => {
      if (message.type() === "error") this.say(`console: ${message.text()}`);
    });
    context.on("weberror", (error) => this.say(`not caught: ${error.error().message}`));

    await context.exposeBinding("tellStored", ({ page }, at: number) => {
      this.early.delete(page);
      this.stored.set(context, Math.min(at, this.stored.get(context) ?? at));
    });
    await context.exposeBinding("tellForbidden", (_, what: string) => this.say(what));
    await context.addInitScript(() => {
      const tell = globalThis as unknown as { tellStored(at: number): void; tellForbidden(what: string): void };
      navigator.serviceWorker?.addEventListener("message", ({ data }) => {
        if (data?.kind === "stored") tell.tellStored(Date.now());
      });
      addEventListener("securitypolicyviolation", (event) => {
        tell.tellForbidden(`policy: ${event.violatedDirective} ${event.blockedURI}`);
      });
    });

    const asked = new WeakSet<Request>();
    context.on("request", (request) => {
      // A page that was on its way before all was stored is not the service worker's yet.
      const page = pageOf(request);
      if (page && request.isNavigationRequest() && !this.stored.has(context)) this.early.add(page);
      if (!this.stored.has(context) || !request.url().startsWith("http")) return;
      // The browser looks by itself whether there is a new service worker.
      if (request.url().endsWith("/service-worker.js")) return;
      asked.add(request);
      // What a service worker itself asks for goes to the network always.
      if (request.serviceWorker() && !this.newVersion) this.say(`network: ${request.url()}`);
    });
    context.on("response", (response) => {
      const request = response.request();
      // A worker tells late of what it asked for: what counts is when that was.
      const began = request.timing().startTime;
      if (began > 0 && began < (this.stored.get(context) ?? 0)) return;
      const page = pageOf(request);
      if (page && this.early.has(page)) return;
      if (asked.has(request) && !request.serviceWorker() && !response.fromServiceWorker()) {
        this.say(`network: ${request.url()}`);
      }
    });
  }

  /** From now on the service worker of a new version may fetch that version. */
  newVersionComes(): void {
    this.newVersion = true;
  }

  /** The test brings this fault about itself; it must then come. */
  expects(pattern: RegExp): void {
    this.expected.push({ pattern, met: false });
  }

  private say(problem: string): void {
    const brought = this.expected.filter(({ pattern }) => pattern.test(problem));
    for (const each of brought) each.met = true;
    if (brought.length === 0) this.problems.push(problem);
  }

  conclude(): void {
    expect(this.problems, "nothing was amiss behind the page").toEqual([]);
    const missing = this.expected.filter(({ met }) => !met).map(({ pattern }) => String(pattern));
    expect(missing, "faults that were to come").toEqual([]);
  }
}

export const test = base.extend<{ guard: Guard }>({
  guard: [
    async ({ context }, use) => {
      const guard = new Guard();
      await guard.watch(context);
      await use(guard);
      guard.conclude();
    },
    { auto: true },
  ],
});

/** Marks a journey that is made at every size; all others are made on the phone alone. */
export const everySize = { tag: "@every-size" };
