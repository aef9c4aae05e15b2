// 20  Move and settle
//
// Purpose   How long after a quick move the axis may be used, and how far it goes beyond.
// Method    A quick move; settling from the end of the profile until the position stays in the window; overshoot.
// Cautions  Quick moves: nobody in reach. Rules of the place and people licensed for the work come first.
// Source    Common practice, no source. The definition of settling stands beside each value in the report.
import { trial, atMost } from "axtrial";

trial("Settles after a quick move", {
  id: "SET-01", number: 20, axes: "all", tags: ["dynamic"],
  limits: { settling: [150, "ms"], window: [25, "count"], overshoot: [50, "count"] },
}, (axis, t) => {
  axis.enable();
  const out = axis.moveBy(0.4, "rev", { speed: [120, "rpm"], acceleration: [25, "rev/s2"], settle: [600, "ms"] });
  t.check("Settling time after the profile", out.settling({ window: t.limit("window"), from: "profile end" }), atMost(t.limit("settling")));
  t.check("Overshoot", out.overshoot(), atMost(t.limit("overshoot")));
  axis.moveBy(-0.4, "rev");
});
