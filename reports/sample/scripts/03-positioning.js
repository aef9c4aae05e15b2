// Point-to-point moves, judged by the drive's own feedback: this shows that the loop does its work. It says nothing of
// the accuracy of the mechanics, for which an external instrument is needed.
// Invented demonstration. The limits are common practice, no source; edit them for your machine.
import { trial, nominal, atMost } from "axtrial";

trial("Half a revolution out and back", { id: "POS-01", axes: "all", clause: "DEMO 5.1" }, (axis, t) => {
  axis.enable();
  const out = axis.moveBy(0.5, "rev");
  t.check("Position change out", out.travel(), nominal(0.5, "rev").plusMinus(0.2, "deg"));
  const back = axis.moveBy(-0.5, "rev");
  t.check("Position change back", back.travel(), nominal(-0.5, "rev").plusMinus(0.2, "deg"));
});

trial("Settles after a move", { id: "POS-02", axes: "all", clause: "DEMO 5.2" }, (axis, t) => {
  axis.enable();
  const out = axis.moveBy(0.25, "rev", { settle: [300, "ms"] });
  t.check("Settling time after the profile", out.settling({ window: [0.2, "deg"], from: "profile end" }), atMost(150, "ms"));
  t.check("Overshoot", out.overshoot(), atMost(0.3, "deg"));
  axis.moveBy(-0.25, "rev");
});

trial("Comes back to the same place five times", { id: "POS-03", axes: "all", clause: "DEMO 5.3" }, (axis, t) => {
  axis.enable();
  for (let round = 1; round <= 5; round++) {
    axis.moveBy(0.2, "rev");
    axis.moveTo(0, "rev");
    const rest = axis.dwell(100, "ms");
    t.check(`Deviation from zero, round ${round}`, rest.restPosition(), nominal(0, "deg").plusMinus(0.2, "deg"));
  }
});
