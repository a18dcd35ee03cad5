// `make bench`: how long Root zone takes in the browser and natively. Told, never asserted.
import { timed } from "./errands.mjs";

const rounds = 3;
const draws = 200; // each of them all standings of a day that repeats itself: a point answer

await timed({
  reckoning: "root_zone",
  page: "root-zone",
  cases: {
    earth: { question: {}, address: "" },
    concrete: { question: { floor: { top: "concrete" } }, address: "?floor.top=concrete" },
  },
  first: draws,
  rounds,
  tell(name, { all, drawn, of, rest }, native) {
    return (
      `Root zone on a floor of ${name} in the browser, unthrottled: all ${all.toFixed(0)} ms, of which ${of} draws ${drawn.toFixed(0)} ms, ` +
      `so a point answer ${(drawn / of).toFixed(1)} ms with the turns between, and ${rest.toFixed(0)} ms for months, heights and covers; ` +
      `natively ${native.toFixed(0)} ms, so ${(all / native).toFixed(2)} times as long in the browser (quickest of ${rounds})`
    );
  },
});
