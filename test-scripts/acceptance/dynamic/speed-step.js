// 25  Step response of speed
//
// Purpose   The speed loop is tuned: it neither crawls nor swings.
// Method    A speed ordered with the steepest ramp that the envelope allows, which the loop sees as a step: rise from 10 to 90 %, and
//           overshoot in percent of the ordered speed. The ramp itself takes 0.8·v/a of the rise.
// Cautions  The hardest start of the axis: nothing on it that can fall. Rules of the place and people licensed for the work come first.
// Source    Rise and overshoot as for a second-order system (textbook definitions, from memory); limits common practice, no source:
//           a damping of 0.45 overshoots by 20 %.
import { trial, atMost } from "axtrial";

trial("The speed rises quickly and without swinging", {
  id: "STR-01", number: 25, axes: "all", tags: ["dynamic", "after encoder"],
  limits: { speed: [60, "rpm"], ramp: [25, "rev/s2"], rise: [120, "ms"], overshoot: [20, "%"] },
}, (axis, t) => {
  axis.enable();
  for (const sign of [1, -1]) {
    const run = axis.holdSpeed(sign * t.limit("speed").in("rpm"), "rpm", { for: [300, "ms"], acceleration: t.limit("ramp") });
    t.check(`Rise ${sign > 0 ? "forwards" : "back"}`, run.riseTime(), atMost(t.limit("rise")));
    t.check(`Overshoot ${sign > 0 ? "forwards" : "back"}`, run.speedOvershoot(), atMost(t.limit("overshoot")));
  }
});
