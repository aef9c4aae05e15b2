// 11  Hardware limits
//
// Purpose   Each limit switch stops the axis, where the drawing says, and the axis can back out.
// Method    Runs onto each switch slowly, which gives the trip point, then at test speed, which gives the over-travel; backs out
//           each time.
// Cautions  Know where the mechanical stops are and that the over-travel ends before them; slow first. Limit switches of the machine
//           control are no safety function. Rules of the place and people licensed for the work come first.
// Source    Common practice, no source. Over-travel: v·t + v²/2a plus 20 %.
import { trial, nominal, atMost } from "axtrial";

trial("Each limit switch stops the axis, and it backs out", {
  id: "HWL-01", number: 11, axes: "all", tags: ["reference"], limit: [3, "min"],
  limits: {
    upper: [4.2, "rev"], lower: [-0.6, "rev"], tolerance: [0.01, "rev"], overTravel: [0.08, "rev"],
    slow: [6, "rpm"], test: [60, "rpm"],
  },
}, (axis, t) => {
  axis.enable();
  for (const [name, sign] of [["upper", 1], ["lower", -1]]) {
    const place = t.limit(name).in("rev");
    axis.moveTo(place - sign * 0.05, "rev", { speed: [180, "rpm"] });
    const slow = axis.moveUntilStopped(sign * 0.15, "rev", { by: "limit", speed: t.limit("slow") }).restPosition();
    t.check(`Trip point, ${name}`, slow, nominal(place, "rev").plusMinus(t.limit("tolerance")));
    axis.moveBy(-sign * 0.15, "rev", { speed: t.limit("slow").in("rpm") < 30 ? [30, "rpm"] : t.limit("slow") });
    const fast = axis.moveUntilStopped(sign * 0.25, "rev", { by: "limit", speed: t.limit("test") }).restPosition();
    const over = t.computed(Math.abs(fast.value("rev") - slow.value("rev")), "rev",
      { from: [fast, slow], uncertainty: [Math.hypot(fast.uncertainty("rev"), slow.uncertainty("rev")), "rev"] });
    t.check(`Over-travel, ${name}`, over, atMost(t.limit("overTravel")));
    const out = axis.moveBy(-sign * 0.3, "rev");
    t.check(`Backs out, ${name}`, out.travel(), nominal(-sign * 0.3, "rev").plusMinus(t.limit("tolerance")));
  }
  axis.moveTo(1, "rev", { speed: [180, "rpm"] });
});
