// Torque of slow motion both ways is friction, for a horizontal axis. Held against the value of the first acceptance.
// Common practice, no source; edit the limits for your machine.
import { trial, between } from "axtrial";

trial("Friction is as it was", { id: "FRI-01", axes: "CARRIAGE" }, (axis, t) => {
  axis.enable();
  for (const speed of [10, -10]) {
    const run = axis.holdSpeed(speed, "mm/s", { for: [2, "s"] });
    t.check(`RMS torque at ${speed} mm/s`, run.rmsTorque(), between(6, 10.5, "%"));
  }
});
