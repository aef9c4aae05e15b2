// Constant speed, both ways: the mean from displacement over time, the ripple and the following error.
// Invented demonstration. The limits are common practice, no source; edit them for your machine.
import { trial, nominal, atMost } from "axtrial";

trial("Holds its speed both ways", { id: "SPD-01", axes: "all", clause: "DEMO 6.1" }, (axis, t) => {
  axis.enable();
  for (const speed of [60, -60]) {
    const run = axis.holdSpeed(speed, "rpm", { for: [800, "ms"] });
    t.check(`Mean speed at ${speed} r/min`, run.meanSpeed(), nominal(speed, "rpm").plusMinus(1, "%"));
    t.check(`Speed ripple at ${speed} r/min`, run.speedRipple(), atMost(5, "%"));
  }
});

// A position loop without feed-forward follows its set point at a distance of v / Kv.
trial("Follows its set point", { id: "FOL-01", axes: "all", clause: "DEMO 6.2" }, (axis, t) => {
  axis.enable();
  for (const distance of [0.5, -0.5]) {
    const move = axis.moveBy(distance, "rev");
    t.check(`Peak following error, ${distance} rev`, move.peakFollowingError(), atMost(40, "deg"));
  }
});
