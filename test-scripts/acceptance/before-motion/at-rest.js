// Torque comes on: the axis must not jump, and must be quiet. A noisy encoder makes the loops restless.
// Common practice, no source; edit the limits for your machine.
import { trial, nominal, atMost } from "axtrial";

trial("Comes under torque without a jump and is quiet", { id: "RST-01", axes: "all" }, (axis, t) => {
  axis.enable();
  const rest = axis.dwell(1, "s");
  t.check("Drift in one second", rest.drift(), nominal(0, "mm").plusMinus(0.02, "mm"));
  const quiet = axis.dwell(1, "s");
  t.check("Peak torque at rest", quiet.peakTorque(), atMost(axis.name === "HOIST" ? 45 : 20, "%"));
  t.note(`RMS torque at rest ${quiet.rmsTorque()}`);
});
