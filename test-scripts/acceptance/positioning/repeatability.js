// 15  Repeatability
//
// Purpose   The axis comes back to the same place, from one side and from both.
// Method    Targets that do not fall into step with a periodic error, five cycles from both sides; R, R up, R down after ISO 230-2.
//           Taken from the drive it shows the loop, not the load; name an instrument and use readings to see the load.
// Cautions  Many moves without a pause: keep out of reach. Rules of the place and people licensed for the work come first.
// Source    ISO 230-2:2014 for the evaluation (from memory); limits common practice, no source.
import { trial, atMost } from "axtrial";

trial("Comes back to the same place", {
  id: "REP-01", number: 15, axes: "all", tags: ["positioning"], limit: [5, "min"],
  limits: { both: [20, "count"], one: [15, "count"] },
}, (axis, t) => {
  axis.enable();
  const stops = [0.63, 0.87, 1.16].map(target => ({ target: [target, "rev"], up: [], down: [] }));
  const rest = stop => axis.moveTo(...stop.target, { speed: [120, "rpm"], acceleration: [25, "rev/s2"], settle: [100, "ms"] }).restPosition();
  for (let cycle = 1; cycle <= 5; cycle++) {
    axis.moveTo(0.55, "rev");
    for (const stop of stops) stop.up.push(rest(stop));
    axis.moveTo(1.25, "rev");
    for (const stop of [...stops].reverse()) stop.down.push(rest(stop));
  }
  const test = t.positioning(stops);
  t.check("Repeatability R", test.repeatability(), atMost(t.limit("both")));
  t.check("Repeatability R up", test.repeatabilityUp(), atMost(t.limit("one")));
  t.check("Repeatability R down", test.repeatabilityDown(), atMost(t.limit("one")));
  axis.moveTo(1, "rev");
});
