// 18  Following error
//
// Purpose   The axis follows its set point at the distance that its gain gives, with room to the trip level.
// Method    Moves at 10, 50 and 100 % of the highest speed, both ways: peak; and the gain from constant speed, held against Kv.
// Cautions  Highest speed of the axis: sense, scale and limits must be proven before, nobody in reach. Rules of the place and people
//           licensed for the work come first.
// Source    e = v / Kv for a position loop without feed-forward (machine-tool definition of Kv); limits common practice, no source:
//           half of the trip level of 10,000 counts.
import { trial, nominal, atMost } from "axtrial";

trial("Follows its set point at the distance that its gain gives", {
  id: "FOL-01", number: 18, axes: "all", tags: ["dynamic"],
  limits: { full: [180, "rpm"], peak: [5000, "count"], gain: [60, "1/s"], gainTolerance: [10, "%"] },
}, (axis, t) => {
  axis.enable();
  for (const [share, distance] of [[0.1, 0.3], [0.5, 0.8], [1, 1.5]]) {
    for (const sign of [1, -1]) {
      const move = axis.moveBy(sign * distance, "rev", { speed: [share * t.limit("full").in("rpm"), "rpm"] });
      t.check(`Peak at ${sign * 100 * share} % of the speed`, move.peakFollowingError(), atMost(t.limit("peak")));
    }
  }
  const hold = axis.holdSpeed(60, "rpm", { for: [500, "ms"] });
  t.check("Position gain", hold.positionGain(), nominal(...t.limit("gain")).plusMinus(t.limit("gainTolerance")));
  axis.moveTo(1, "rev");
});
