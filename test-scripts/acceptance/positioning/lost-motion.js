// 16  Reversal and lost motion
//
// Purpose   Play, a loose key, a soft coupling or belt: what the motor does that the load does not.
// Method    After a reversal the friction of the load must be felt at once: while the train has play the motor turns alone and needs
//           next to no torque. And when the torque goes, a wound-up train springs back. An instrument at the load shows the size.
// Cautions  The second trial takes the torque away: not for a hanging load, which would fall. Rules of the place and people
//           licensed for the work come first.
// Source    Common practice, no source.
import { trial, nominal, atLeast } from "axtrial";

trial("The load is felt at once after a reversal", {
  id: "LOS-01", number: 16, axes: ["CARRIAGE", "TABLE"], tags: ["positioning", "after mechanics"],
  limits: { torque: [5, "%"] },
}, (axis, t) => {
  axis.enable();
  axis.moveBy(0.2, "rev", { speed: [12, "rpm"] });
  axis.moveBy(-30, "count", { speed: [0.6, "rpm"] });
  // Now the flanks of a sound train touch the other way round; those of a worn one touch nothing.
  const back = axis.moveBy(-20, "count", { speed: [0.6, "rpm"] });
  t.check("Peak torque 30 counts after the reversal", back.peakTorque(), atLeast(t.limit("torque")));
  axis.moveTo(1, "rev");
});

trial("Does not spring back when the torque goes", {
  id: "LOS-02", number: 16, axes: ["CARRIAGE", "TABLE"], tags: ["positioning", "after mechanics"],
  limits: { springBack: [25, "count"] },
}, (axis, t) => {
  axis.enable();
  axis.moveBy(0.1, "rev", { speed: [30, "rpm"] });
  const before = axis.position("count");
  axis.disable();
  const rest = axis.dwell(1, "s").restPosition();
  const back = t.computed(rest.value("count") - before, "count", { from: [rest, "position"], uncertainty: [0.5, "count"] });
  t.check("Spring-back", back, nominal(0, "count").plusMinus(t.limit("springBack")));
});
