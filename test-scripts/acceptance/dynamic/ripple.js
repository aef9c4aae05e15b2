// 22  Speed ripple
//
// Purpose   The axis runs evenly: cogging, a bad encoder or a loose train shows as ripple.
// Method    Peak to peak of the reported speed in percent of the mean, and the strongest oscillation with its frequency.
// Cautions  Keep the whole way free. Rules of the place and people licensed for the work come first.
// Source    Common practice, no source: 2 % peak to peak.
import { trial, atMost } from "axtrial";

trial("Runs evenly", {
  id: "RIP-01", number: 22, axes: "all", tags: ["dynamic"],
  limits: { speed: [120, "rpm"], ripple: [2, "%"] },
}, (axis, t) => {
  axis.enable();
  for (const sign of [1, -1]) {
    const run = axis.holdSpeed(sign * t.limit("speed").in("rpm"), "rpm", { for: [500, "ms"] });
    t.check(`Speed ripple ${sign > 0 ? "forwards" : "back"}`, run.speedRipple(), atMost(t.limit("ripple")));
    t.note(`Strongest oscillation ${run.rippleAmplitude()} at ${run.rippleFrequency()}`);
  }
});
