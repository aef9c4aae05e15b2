// 14  Positioning accuracy
//
// Purpose   Where the load truly goes, by an instrument beside the machine. Values of the drive cannot pass this trial: they show how
//           well its loop closes, not where the load is.
// Method    Five targets, five cycles, both directions; A, E and M after ISO 230-2.
// Cautions  Somebody stands near a machine under torque to read: stay out of its reach as far as the instrument lets you, or read
//           from a distance. Laser light: by its class. Rules of the place and people licensed for the work come first.
// Source    ISO 230-2:2014 for the evaluation (from memory); limits common practice, no source. Name the axes that have an instrument.
import { trial, atMost } from "axtrial";
import { machine } from "../_lib/machine.js";

trial("Goes where it is sent, by an instrument", {
  id: "ACC-01", number: 14, axes: "CARRIAGE", tags: ["positioning", "needs an instrument"], limit: [5, "min"],
  limits: { accuracy: [0.1, "mm"], systematic: [0.08, "mm"], mean: [0.05, "mm"], repeatability: [0.05, "mm"] },
}, (axis, t) => {
  axis.enable();
  const stops = [60, 107, 151, 203, 249].map(target => ({ target: [target, "mm"], up: [], down: [] }));
  const read = (stop, way, cycle) => {
    axis.moveTo(...stop.target, { speed: [200, "mm/s"], settle: [100, "ms"] });
    return t.reading(`Target ${stop.target[0]} mm, ${way}, cycle ${cycle}`, machine[axis.name].instrument);
  };
  for (let cycle = 1; cycle <= 5; cycle++) {
    axis.moveTo(50, "mm");
    for (const stop of stops) stop.up.push(read(stop, "up", cycle));
    axis.moveTo(260, "mm");
    for (const stop of [...stops].reverse()) stop.down.push(read(stop, "down", cycle));
  }
  const test = t.positioning(stops);
  t.check("Accuracy A", test.accuracy(), atMost(t.limit("accuracy")));
  t.check("Systematic error E", test.systematicError(), atMost(t.limit("systematic")));
  t.check("Mean error M", test.meanError(), atMost(t.limit("mean")));
  t.check("Repeatability R", test.repeatability(), atMost(t.limit("repeatability")));
  axis.moveTo(100, "mm");
});
