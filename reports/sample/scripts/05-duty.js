// Torque over a short duty cycle, the dwell included.
// Invented demonstration. The limits are common practice, no source; edit them for your machine.
import { trial, atMost } from "axtrial";

trial("Torque over a duty cycle", { id: "TRQ-01", axes: "all", clause: "DEMO 7.1" }, (axis, t) => {
  axis.enable();
  const out = axis.moveBy(0.5, "rev", { settle: [400, "ms"] });
  t.check("RMS torque out", out.rmsTorque(), atMost(80, "%"));
  t.check("Peak torque out", out.peakTorque(), atMost(200, "%"));
  const back = axis.moveBy(-0.5, "rev", { settle: [400, "ms"] });
  t.check("RMS torque back", back.rmsTorque(), atMost(80, "%"));
  t.check("Peak torque back", back.peakTorque(), atMost(200, "%"));
});
