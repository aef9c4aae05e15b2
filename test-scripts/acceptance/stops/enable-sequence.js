// 33  Enable and brake sequence
//
// Purpose   Torque and brake take the load over from each other without a drop or a jump.
// Method    Torque off and on, three times; how far the axis moved after each.
// Cautions  A wrong sequence lets a hanging load drop: support it, nobody below. Rules of the place and people licensed for the work
//           come first.
// Source    Common practice, no source.
import { trial, nominal } from "axtrial";

trial("Neither drops nor jumps when the torque changes", {
  id: "ESQ-01", number: 33, axes: "all", tags: ["stops", "after brake"],
  limits: { drop: [100, "count"], jump: [100, "count"] },
}, (axis, t) => {
  const change = (from, to) => t.computed(to.value("count") - from.value("count"), "count",
    { from: [from, to], uncertainty: [Math.hypot(from.uncertainty("count"), to.uncertainty("count")), "count"] });
  axis.enable();
  let last = axis.dwell(300, "ms").restPosition();
  for (let round = 1; round <= 3; round++) {
    axis.disable();
    const off = axis.dwell(500, "ms").restPosition();
    t.check(`Drop, round ${round}`, change(last, off), nominal(0, "count").plusMinus(t.limit("drop")));
    axis.enable();
    last = axis.dwell(300, "ms").restPosition();
    t.check(`Jump, round ${round}`, change(off, last), nominal(0, "count").plusMinus(t.limit("jump")));
  }
});
