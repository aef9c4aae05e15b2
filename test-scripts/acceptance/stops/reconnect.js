// 30  Reconnect and second client
//
// Purpose   A connection that is made anew gets its place at the drive again and moves nothing; a second program does not disturb.
// Method    The link is lost twice in the middle of a slow move and made anew; then the axis is watched, enabled, watched again, and
//           moved. Meanwhile a second program may read: it must not change what the axis does.
// Cautions  Only one program may command a drive: the second one reads. Keep clear as for any motion. Rules of the place and people
//           licensed for the work come first.
// Source    Common practice, no source.
import { trial, nominal, atMost } from "axtrial";

trial("Moves nothing when the link is made anew", {
  id: "REC-01", number: 30, axes: "all", tags: ["stops", "needs a person", "provokes a trip"], limit: [3, "min"],
  limits: { motion: [25, "count"], errors: [0, "1"] },
}, (axis, t) => {
  const still = (name, motion) => t.check(name, motion.drift(), nominal(0, "count").plusMinus(t.limit("motion")));
  for (const round of [1, 2]) {
    axis.enable();
    axis.moveWithoutLink(round === 1 ? 0.5 : -0.5, "rev", { cut: "close", after: [300, "ms"], lasts: [500, "ms"], speed: [30, "rpm"] });
    axis.resetFault();
    still(`After reconnecting, round ${round}`, axis.dwell(500, "ms"));
    axis.enable();
    still(`Under torque again, round ${round}`, axis.dwell(500, "ms"));
    axis.disable();
  }
  t.operate("Let a second program read from the drive, if the drive allows a second connection");
  t.check("Failed looks beside a second program", axis.linkTimes({ reads: 200 }).errors(), atMost(t.limit("errors")));
  axis.enable();
  const move = axis.moveBy(0.1, "rev");
  t.check("A new order is followed", move.travel(), nominal(0.1, "rev").plusMinus(t.limit("motion")));
  axis.moveBy(-0.1, "rev");
});
