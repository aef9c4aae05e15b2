// 6  Enable at standstill
//
// Purpose   Torque comes on without a jump, and the axis is quiet under torque. A noisy encoder makes the loops restless.
// Method    Compares the position before and after enabling, then watches a second for drift and torque.
// Cautions  First torque on this axis: keep clear, hand on the emergency stop. A wrong commutation or sign can run away. Rules of
//           the place and people licensed for the work come first.
// Source    Common practice, no source: jump below the in-position window.
import { trial, nominal, atMost } from "axtrial";
import { machine } from "../_lib/machine.js";

trial("Comes under torque without a jump and is quiet", {
  id: "ENA-01", number: 6, axes: "all", tags: ["first motion"],
  limits: { jump: [10, "count"], drift: [10, "count"], torque: [20, "%"], torqueHanging: [45, "%"] },
}, (axis, t) => {
  const before = axis.position("count");
  axis.enable();
  const rest = axis.dwell(500, "ms");
  const jump = t.computed(rest.restPosition().value("count") - before, "count",
    { from: [rest.restPosition(), "position"], uncertainty: [0.4, "count"] });
  t.check("Jump when the torque comes on", jump, nominal(0, "count").plusMinus(t.limit("jump")));
  const quiet = axis.dwell(1, "s");
  t.check("Drift in one second", quiet.drift(), nominal(0, "count").plusMinus(t.limit("drift")));
  t.check("Peak torque at rest", quiet.peakTorque(), atMost(t.limit(machine[axis.name].hanging ? "torqueHanging" : "torque")));
});
