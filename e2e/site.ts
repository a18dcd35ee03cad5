// A site of a test's own: a copy of the release that the test may change, served like the
// real one.
import { createHash } from "node:crypto";
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { release, serve } from "./release.mjs";

const digest = (text: string) => `sha256-${createHash("sha256").update(text).digest("base64")}`;

export class Site {
  private constructor(readonly dir: string, readonly url: string, readonly stop: () => Promise<void>) {}

  /** Serves a copy of the release at a free port, below this path. */
  static async open(under = "/"): Promise<Site> {
    const dir = mkdtempSync(join(tmpdir(), "longtom-site-"));
    cpSync(release, dir, { recursive: true });
    const { url, stop } = await serve(dir, under);
    return new Site(dir, url, stop);
  }

  /** Puts another version in place: the same programs, and a page marked data-edition="next". */
  publishNext(): void {
    const page = join(this.dir, "index.html");
    const worker = join(this.dir, "service-worker.js");
    const before = readFileSync(page, "utf8");
    const after = before.replace("<html ", '<html data-edition="next" ');
    const stored = readFileSync(worker, "utf8");
    const version = stored.match(/const VERSION = "([0-9a-f]+)"/)![1]!;
    const next = createHash("sha256").update(after).digest("hex").slice(0, version.length);
    const entry = (text: string) => `["./",${Buffer.byteLength(text)},"${digest(text)}"]`;
    const listed = stored.replace(entry(before), entry(after)).replace(`"${version}"`, `"${next}"`);
    if (after === before || !listed.includes(entry(after))) {
      throw new Error("The page or its service worker is not of the form that this expects.");
    }
    this.write("index.html", after);
    this.write("service-worker.js", listed);
  }

  /** Replaces a file, packed forms and all. */
  write(name: string, content: string | Buffer): void {
    for (const suffix of [".br", ".gz"]) rmSync(join(this.dir, name + suffix), { force: true });
    writeFileSync(join(this.dir, name), content);
  }

  remove(name: string): void {
    for (const suffix of ["", ".br", ".gz"]) rmSync(join(this.dir, name + suffix), { force: true });
  }

  async close(): Promise<void> {
    await this.stop();
    rmSync(this.dir, { recursive: true, force: true });
  }
}
