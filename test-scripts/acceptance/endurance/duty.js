// A short duty cycle, the dwell included. Common practice, no source; edit the limits for your machine.
import { trial, atMost } from "axtrial";

trial("Torque over a duty cycle", { id: "DUT-01", axes: "all", limit: [3, "min"] }, (axis, t) => {
  axis.enable();
  for (let round = 1; round <= 10; round++) {
    const out = axis.moveBy(50, "mm", { settle: [300, "ms"] });
    t.check(`RMS torque out, round ${round}`, out.rmsTorque(), atMost(60, "%"));
    axis.moveBy(-50, "mm", { settle: [300, "ms"] });
  }
});
