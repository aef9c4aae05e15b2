// 26  Stop from highest speed
//
// Purpose   The ordered stop takes the time and the way that its ramp gives: guards and distances are laid out for it.
// Method    Stops from the highest speed, both ways; time and distance from the order until the axis stays at rest.
// Cautions  This is the ordered stop of the machine control, no safety function. Keep the way and the over-run free. Rules of the
//           place and people licensed for the work come first.
// Source    s = v·t + v²/2a, plus 20 % (common practice, no source): 3 rev/s and 20 rev/s² with 50 ms give 0.375 rev and 0.2 s.
import { trial, atMost } from "axtrial";

trial("Stops from the highest speed", {
  id: "STO-01", number: 26, axes: "all", tags: ["stops"],
  limits: { speed: [180, "rpm"], ramp: [20, "rev/s2"], time: [0.3, "s"], distance: [0.45, "rev"], window: [40, "count"] },
}, (axis, t) => {
  axis.enable();
  for (const sign of [1, -1]) {
    const run = axis.holdSpeed(sign * t.limit("speed").in("rpm"), "rpm", { for: [200, "ms"], acceleration: t.limit("ramp") });
    const way = sign > 0 ? "forwards" : "back";
    t.check(`Stopping time ${way}`, run.stoppingTime({ window: t.limit("window") }), atMost(t.limit("time")));
    t.check(`Stopping distance ${way}`, run.stoppingDistance(), atMost(t.limit("distance")));
  }
});
