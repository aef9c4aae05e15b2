// A position loop without feed-forward follows its set point at a distance of v / Kv: 100 mm/s at 60 1/s is 1.67 mm.
// Source: steady following error of a position loop with proportional gain, e = v / Kv. Limits: common practice, no source.
import { trial, between } from "axtrial";

trial("Follows its set point at the distance that its gain gives", { id: "FOL-01", axes: "all" }, (axis, t) => {
  axis.enable();
  for (const distance of [60, -60]) {
    const move = axis.moveBy(distance, "mm", { speed: [100, "mm/s"] });
    t.check(`Peak following error, ${distance} mm`, move.peakFollowingError(), between(1.4, 2.2, "mm"));
  }
});
