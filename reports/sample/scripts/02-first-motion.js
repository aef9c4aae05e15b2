// The first motion is short and slow. It proves sense and scale before anything longer is tried.
// Invented demonstration. The limits are common practice, no source; edit them for your machine.
import { trial, nominal, atMost } from "axtrial";

trial("Sense and scale of a short, slow move", {
  id: "MOV-01", axes: "all", clause: "DEMO 4.1", proves: "sense and scale",
}, (axis, t) => {
  axis.enable();
  const out = axis.moveBy(0.05, "rev", { speed: [30, "rpm"] });
  t.check("Position change out", out.travel(), nominal(0.05, "rev").plusMinus(0.5, "deg"));
  t.check("Peak torque", out.peakTorque(), atMost(80, "%"));
  const back = axis.moveBy(-0.05, "rev", { speed: [30, "rpm"] });
  t.check("Position change back", back.travel(), nominal(-0.05, "rev").plusMinus(0.5, "deg"));
});
