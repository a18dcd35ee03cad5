// The release in dist/, served by the project's own server at a free port.
import { spawn } from "node:child_process";
import { fileURLToPath } from "node:url";

const top = fileURLToPath(new URL("..", import.meta.url));
export const release = `${top}dist`;
/** The project's own builder and server; whoever calls this has had it compiled. */
export const program = `${process.env.CARGO_TARGET_DIR ?? `${top}target`}/debug/site`;

/** Serves a folder; returns its address and a way to stop. */
export async function serve(dir, under = "/") {
  const server = spawn(program, ["serve", "--dir", dir, "--port", "0", "--under", under], {
    stdio: ["ignore", "pipe", "inherit"],
  });
  const ended = new Promise((resolve) => server.once("exit", resolve));
  const url = await new Promise((resolve, reject) => {
    let heard = "";
    server.stdout.on("data", (words) => {
      heard += words;
      const found = heard.match(/http:\S+/);
      if (found) resolve(found[0]);
    });
    server.once("error", reject);
    server.once("exit", () => reject(new Error(`The server ended: ${heard}`)));
  });
  return {
    url,
    stop: async () => {
      server.kill();
      await ended;
    },
  };
}

export const serveRelease = () => serve(release);
