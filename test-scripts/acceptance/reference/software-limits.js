// 12  Software limits
//
// Purpose   The drive itself refuses or cuts a move that would leave its software limits, from the highest speed too.
// Method    Sets limits half a revolution to both sides, orders twice as far at the highest speed, and sees where the axis comes to
//           rest. The program puts the limits back.
// Cautions  Test software limits before the mechanical ones at speed, and far from them. Software limits are no safety function.
//           Rules of the place and people licensed for the work come first.
// Source    Common practice, no source. Objects 607Dh of CiA 402.
import { trial, nominal } from "axtrial";

trial("The drive keeps to its software limits from the highest speed", {
  id: "SWL-01", number: 12, axes: "all", tags: ["reference"],
  limits: { speed: [180, "rpm"], beyond: [0.005, "rev"] },
}, (axis, t) => {
  axis.enable();
  axis.moveTo(2, "rev", { speed: [180, "rpm"] });
  const here = axis.read("position");
  axis.setParameter("softwareLimitMax", here + 25000, "count");
  axis.setParameter("softwareLimitMin", here - 25000, "count");
  const start = axis.position("rev");
  for (const [name, sign] of [["upper", 1], ["lower", -1]]) {
    const rest = axis.moveUntilStopped(sign * 1, "rev", { by: "limit", speed: t.limit("speed"), acceleration: [25, "rev/s2"] }).restPosition();
    t.check(`Rest at the ${name} limit`, rest, nominal(start + sign * 0.5, "rev").plusMinus(t.limit("beyond")));
    axis.moveTo(start, "rev", { speed: [180, "rpm"] });
  }
  axis.moveTo(1, "rev");
});
