// Constant speed, both ways. Common practice, no source; edit the limits for your machine.
import { trial, nominal, atMost } from "axtrial";

trial("Holds its speed both ways", { id: "SPD-01", axes: "all" }, (axis, t) => {
  axis.enable();
  for (const speed of [50, -50]) {
    const run = axis.holdSpeed(speed, "mm/s", { for: [1, "s"] });
    t.check(`Mean speed at ${speed} mm/s`, run.meanSpeed(), nominal(speed, "mm/s").plusMinus(1, "%"));
    t.check(`Speed ripple at ${speed} mm/s`, run.speedRipple(), atMost(3, "%"));
  }
});
