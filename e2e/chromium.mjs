// How the system's Chromium is started, by tests and by whatever draws pictures.
export const executablePath = process.env.CHROMIUM ?? "/usr/bin/chromium";

export const args = [
  // As root, as in most continuous integration, Chromium has no sandbox to offer.
  ...(process.getuid?.() === 0 ? ["--no-sandbox"] : []),
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  // Nothing of the browser's own on the network, so that what is seen there is the site's.
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];
