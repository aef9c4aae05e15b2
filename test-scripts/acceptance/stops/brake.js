// The holding brake alone carries the load. Support a real load before the torque is taken away: a brake that does not hold
// lets it fall. Common practice, no source; edit the limit for your machine.
import { trial, nominal } from "axtrial";

trial("The brake holds the load", { id: "BRK-01", axes: "HOIST" }, (axis, t) => {
  axis.enable();
  axis.dwell(200, "ms");
  axis.disable();
  const held = axis.dwell(3, "s");
  t.check("Drift in three seconds without torque", held.drift(), nominal(0, "mm").plusMinus(0.1, "mm"));
});
