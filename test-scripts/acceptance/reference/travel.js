// Both limit switches are found by slow homing, first the lower, then the upper one. Their distance proves the scale, and
// that each is found in its own direction proves the sense. The reference is made anew afterwards.
// The limit switches of this trial are part of the machine control; they are no safety function. Common practice, no
// source; edit the limits for your machine.
import { trial, nominal } from "axtrial";

const NEGATIVE_LIMIT = 17; // homing method 17 of CiA 402: negative limit switch, no index
const POSITIVE_LIMIT = 18;
const HOME_AND_INDEX = 7;
const REACH = { within: [510, "mm"] };

trial("Travel between the limit switches", { id: "TRV-01", axes: "all", limit: [3, "min"] }, (axis, t) => {
  axis.setParameter("homingSpeedSwitch", 300, "rpm");
  axis.setParameter("homingSpeedZero", 30, "rpm");
  axis.setParameter("homingAcceleration", 3000, "rpm/s");
  axis.setParameter("homingMethod", NEGATIVE_LIMIT, "1");
  axis.enable();
  axis.home(REACH);
  axis.setParameter("homingMethod", POSITIVE_LIMIT, "1");
  const upper = axis.home(REACH);
  // The zero moved from the lower to the upper switch, so the register reads so much less.
  t.check("Distance of the limit switches", upper.newZero(), nominal(-480, "mm").plusMinus(1, "mm"));
  axis.setParameter("homingMethod", HOME_AND_INDEX, "1");
  axis.home(REACH);
});
