// 23  Acceleration and deceleration
//
// Purpose   The ramps are those that were ordered, and distances from small to large come out right.
// Method    Straight lines through the reported speed while it rises and falls; then a ladder of distances.
// Cautions  Hard ramps shake loose what is loose: nothing on the axis that can fall. Rules of the place and people licensed for the
//           work come first.
// Source    Common practice, no source: ramps ± 10 %.
import { trial, nominal } from "axtrial";

trial("Ramps and distances are as ordered", {
  id: "ACL-01", number: 23, axes: "all", tags: ["dynamic"],
  limits: { ramp: [5, "rev/s2"], rampTolerance: [10, "%"], distance: [25, "count"] },
}, (axis, t) => {
  axis.enable();
  for (const sign of [1, -1]) {
    const run = axis.holdSpeed(sign * 150, "rpm", { for: [200, "ms"], acceleration: t.limit("ramp") });
    const way = sign > 0 ? "forwards" : "back";
    t.check(`Acceleration ${way}`, run.acceleration(), nominal(...t.limit("ramp")).plusMinus(t.limit("rampTolerance")));
    t.check(`Deceleration ${way}`, run.deceleration(), nominal(...t.limit("ramp")).plusMinus(t.limit("rampTolerance")));
  }
  for (const distance of [0.01, 0.1, 0.5, -0.01, -0.1, -0.5]) {
    t.check(`Distance of ${distance} rev`, axis.moveBy(distance, "rev").travel(), nominal(distance, "rev").plusMinus(t.limit("distance")));
  }
});
