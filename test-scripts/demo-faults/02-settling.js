// An honest INCONCLUSIVE. The DIVERTER may well settle in 5 ms, but it is looked at every 50 ms.
// Invented demonstration. The limits are common practice, no source; edit them for your machine.
import { trial, atMost } from "axtrial";

trial("Settles after a move", { id: "SET-01", axes: ["DIVERTER"], clause: "DEMO 5.1" }, (axis, t) => {
  axis.enable();
  const out = axis.moveBy(40, "mm", { settle: [800, "ms"] });
  t.check("Overshoot", out.overshoot(), atMost(0.05, "mm"));
  t.check("Settling time after the profile", out.settling({ window: [0.02, "mm"], from: "profile end" }), atMost(5, "ms"));
});
