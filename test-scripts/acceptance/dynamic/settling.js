// A quick move: how long until the axis stays in its window, and how far it goes beyond.
// Common practice, no source; edit the limits for your machine.
import { trial, atMost } from "axtrial";

trial("Settles after a quick move", { id: "SET-01", axes: "all" }, (axis, t) => {
  axis.enable();
  const out = axis.moveBy(40, "mm", { speed: [200, "mm/s"], acceleration: [2500, "mm/s2"], settle: [600, "ms"] });
  t.check("Settling time after the profile", out.settling({ window: [0.05, "mm"], from: "profile end" }), atMost(150, "ms"));
  t.check("Overshoot", out.overshoot(), atMost(0.1, "mm"));
  axis.moveBy(-40, "mm");
});
