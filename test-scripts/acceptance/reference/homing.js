// The reference: it must be where it was, and be found again in the same place, after slow and after hard motion.
// Common practice, no source; edit the limits for your machine.
import { trial, nominal } from "axtrial";

const HOME_AND_INDEX = 7; // homing method 7 of CiA 402: home switch and index
const REACH = { within: [510, "mm"] };

trial("The reference is found again", { id: "HOM-01", axes: "all", limit: [3, "min"] }, (axis, t) => {
  axis.setParameter("homingSpeedSwitch", 300, "rpm");
  axis.setParameter("homingSpeedZero", 30, "rpm");
  axis.setParameter("homingAcceleration", 3000, "rpm/s");
  axis.setParameter("homingMethod", HOME_AND_INDEX, "1");
  axis.enable();
  t.check("The zero is where it was", axis.home(REACH).newZero(), nominal(0, "mm").plusMinus(0.05, "mm"));
  for (const round of [1, 2, 3]) {
    axis.moveBy(60, "mm", { speed: [200, "mm/s"], acceleration: [2500, "mm/s2"] });
    axis.moveBy(-20, "mm", { speed: [200, "mm/s"], acceleration: [2500, "mm/s2"] });
    t.check(`Change of the zero, round ${round}`, axis.home(REACH).newZero(), nominal(0, "mm").plusMinus(0.02, "mm"));
  }
});
