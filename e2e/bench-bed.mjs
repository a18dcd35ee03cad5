// `make bench`: how long Bed takes in the browser and natively. Told, never asserted.
import { timed } from "./errands.mjs";

const rounds = 3;
const draws = 400;
const drawsAtADay = 8; // as the sweep counts a day of the flow solved in full

await timed({
  reckoning: "bed",
  page: "bed",
  cases: {
    "10 cm pot": { question: {}, address: "" },
    "8.5 L pot": {
      question: { pot: { size: "round_8_5_l" }, bench: { spacing: "350 mm" }, plant: { drinks: "1000 mL" } },
      address: "?pot.size=round_8_5_l&bench.spacing=350%20mm&plant.drinks=1000%20mL",
    },
  },
  first: draws,
  rounds,
  tell(name, { all, drawn, steps, rest }, native) {
    const days = steps / drawsAtADay;
    return (
      `Bed of a ${name} in the browser, unthrottled: all ${all.toFixed(0)} ms, of which ${draws} draws ${drawn.toFixed(0)} ms, ` +
      `then ${days.toFixed(0)} days of the flow solved in full, each ${(rest / days).toFixed(1)} ms with the turns between; ` +
      `natively ${native.toFixed(0)} ms, so ${(all / native).toFixed(2)} times as long in the browser (quickest of ${rounds})`
    );
  },
});
