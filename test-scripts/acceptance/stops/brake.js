// 32  Brake hold
//
// Purpose   The holding brake alone carries the load.
// Method    At the place where gravity pulls hardest the torque is taken away; the position is watched. Minutes on a real machine, seconds
//           by default: edit the time.
// Cautions  A brake that does not hold lets the load fall: support it first, nobody below. Rules of the place and people licensed for
//           the work come first.
// Source    Common practice, no source.
import { trial, nominal } from "axtrial";

trial("The brake holds the load", {
  id: "BRK-01", number: 32, axes: "HOIST", tags: ["stops", "after brake"], limit: [10, "min"],
  limits: { time: [5, "s"], drift: [50, "count"] },
}, (axis, t) => {
  axis.enable();
  axis.dwell(200, "ms");
  axis.disable();
  const held = axis.dwell(...t.limit("time"));
  t.check("Drift without torque", held.drift(), nominal(0, "count").plusMinus(t.limit("drift")));
});
