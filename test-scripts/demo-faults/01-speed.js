// An honest FAIL. The electronic gear of the LABELLER's drive is wrong. A move ordered in counts and read back in counts
// agrees with itself and cannot show it. The speed can: the drive turns the motor with the ordered r/min, while the counts
// that come back are nine tenths of what the site file makes of them.
// Invented demonstration. The limits are common practice, no source; edit them for your machine.
import { trial, nominal, atMost } from "axtrial";

trial("A move agrees with itself", { id: "GEAR-01", axes: ["LABELLER"], clause: "DEMO 4.1" }, (axis, t) => {
  axis.enable();
  const out = axis.moveBy(1, "rev");
  t.check("Position change by the drive's own counts", out.travel(), nominal(1, "rev").plusMinus(0.5, "deg"));
  t.note("Both sides of this check go through the electronic gear, so it proves nothing of the gear.");
});

trial("Speed from counts agrees with the ordered speed", { id: "GEAR-02", axes: ["LABELLER"], clause: "DEMO 4.2" }, (axis, t) => {
  axis.enable();
  const run = axis.holdSpeed(300, "rpm", { for: [1, "s"] });
  t.check("Speed that the drive reports", run.reportedSpeed(), nominal(300, "rpm").plusMinus(1, "%"));
  t.check("Speed from counts over time", run.meanSpeed(), nominal(300, "rpm").plusMinus(0.5, "%"));
});
