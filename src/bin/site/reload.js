// Reloads the page whenever a new build is there. Only `site dev` serves it.
let current;
const changes = new EventSource("./changes");
changes.onmessage = (event) => {
  if (current !== undefined && event.data !== current) location.reload();
  current = event.data;
};
