import { defineConfig } from "@playwright/test";
import { args, executablePath } from "./chromium.mjs";
import { program, release } from "./release.mjs";

// The release, served by the project's own server with the headers a real host must send.
const port = Number(process.env.LONGTOM_PORT ?? 8089);

export default defineConfig({
  testDir: ".",
  testMatch: "*.spec.ts",
  // Generous: a machine with two cores may be compiling beside it, and no test is timed.
  timeout: 60_000,
  expect: { timeout: 15_000 },
  // A machine that hangs for a minute fails a journey that is right. What passes only at the second
  // time is told as flaky at the end.
  retries: 1,
  workers: 2,
  fullyParallel: true,
  forbidOnly: !!process.env.CI,
  reporter: "line",
  use: {
    baseURL: `http://localhost:${port}/`,
    hasTouch: true,
    locale: "en-GB",
    serviceWorkers: "allow",
    trace: "retain-on-failure",
    launchOptions: { executablePath, args },
  },
  projects: [
    { name: "phone", use: { viewport: { width: 390, height: 844 } } },
    // What does not depend on the size is tried on the phone alone.
    // A phone whose keyboard is open.
    { name: "keyboard-open", grep: /@every-size/, use: { viewport: { width: 390, height: 500 } } },
    { name: "tablet-upright", grep: /@every-size/, use: { viewport: { width: 820, height: 1180 } } },
    { name: "tablet-sideways", grep: /@every-size/, use: { viewport: { width: 1180, height: 820 } } },
  ],
  webServer: {
    command: `${program} serve --dir ${release} --port ${port}`,
    url: `http://localhost:${port}/`,
    reuseExistingServer: false,
  },
});
