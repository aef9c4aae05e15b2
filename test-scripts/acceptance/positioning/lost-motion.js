// Lost motion as the motor feels it: after a reversal the load's friction must be felt at once. While the train has play,
// the motor turns alone and needs next to no torque. Common practice, no source; edit the limits for your machine.
import { trial, atLeast } from "axtrial";

trial("The load is felt at once after a reversal", { id: "LOS-01", axes: "CARRIAGE" }, (axis, t) => {
  axis.enable();
  axis.moveBy(2, "mm", { speed: [5, "mm/s"] });
  axis.moveBy(-0.03, "mm", { speed: [0.5, "mm/s"] });
  // Now the flanks of a sound train touch the other way round; those of a worn one touch nothing.
  const back = axis.moveBy(-0.02, "mm", { speed: [0.5, "mm/s"] });
  t.check("Peak torque 0.03 mm after the reversal", back.peakTorque(), atLeast(5, "%"));
});
