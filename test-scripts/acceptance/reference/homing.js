// 13  Homing repeatability
//
// Purpose   The reference is where it was, and is found again in the same place from both sides. An index mark too near to the
//           edge of the switch makes the zero jump by one motor revolution some day.
// Method    Homing on the switch alone, then on switch and index: the difference is the gap between both. Then ten homings with
//           index, from both sides in turn; each tells by how much the zero moved.
// Cautions  Homing runs onto a switch whose place the program does not know: the way is limited, the envelope of speed and torque
//           holds. Rules of the place and people licensed for the work come first.
// Source    Common practice, no source: gap between 10 % and 90 % of a motor revolution (0.2 rev at the load). Methods 7 and 23
//           of CiA 402.
import { trial, nominal, atMost, between } from "axtrial";
import { homing, setUpHoming } from "../_lib/machine.js";

const REACH = { within: [5, "rev"] };

trial("The zero is where it was, with a sound gap to the switch", {
  id: "HOM-01", number: 13, axes: "all", tags: ["reference"],
  limits: { zero: [25, "count"], leastGap: [0.02, "rev"], mostGap: [0.18, "rev"] },
}, (axis, t) => {
  setUpHoming(axis, homing.homeSwitchAndIndex);
  axis.enable();
  t.check("The zero is where it was", axis.home(REACH).newZero(), nominal(0, "count").plusMinus(t.limit("zero")));
  axis.setParameter("homingMethod", homing.homeSwitch, "1");
  axis.moveTo(0.2, "rev");
  axis.home(REACH);
  axis.setParameter("homingMethod", homing.homeSwitchAndIndex, "1");
  axis.moveTo(0.2, "rev");
  const gap = axis.home(REACH).newZero();
  const size = t.computed(Math.abs(gap.value("rev")), "rev", { from: [gap], uncertainty: [gap.uncertainty("rev"), "rev"] });
  t.check("Gap between switch and index", size, between(t.limit("leastGap"), t.limit("mostGap")));
  axis.moveTo(1, "rev");
});

trial("The reference is found again from both sides", {
  id: "HOM-02", number: 13, axes: "all", tags: ["reference"], limit: [4, "min"],
  limits: { change: [10, "count"], range: [10, "count"] },
}, (axis, t) => {
  setUpHoming(axis, homing.homeSwitchAndIndex);
  axis.enable();
  axis.home(REACH);
  const changes = [];
  for (let round = 1; round <= 10; round++) {
    axis.moveTo(round % 2 ? 0.1 : -0.5, "rev", { speed: [150, "rpm"], acceleration: [25, "rev/s2"] });
    changes.push(axis.home(REACH).newZero());
    t.check(`Change of the zero, round ${round}`, changes.at(-1), nominal(0, "count").plusMinus(t.limit("change")));
  }
  t.check("Range of the changes", t.homingRange(changes), atMost(t.limit("range")));
  axis.moveTo(1, "rev");
});
