// 9  Travel between limits
//
// Purpose   The distance of the limit switches is that of the drawing: that proves the scale over the whole travel, and that each
//           switch is found in its own direction proves the sense.
// Method    Slow homing onto the lower, then the upper limit switch; the zero moves by their distance. The reference is made anew.
// Cautions  Runs onto the limit switches on purpose, slowly. They are part of the machine control and no safety function; know
//           where the mechanical stops are. Rules of the place and people licensed for the work come first.
// Source    Common practice, no source. Methods 17, 18 and 7 of CiA 402. Distance: drawing of the rig (invented).
import { trial, nominal } from "axtrial";
import { homing, setUpHoming } from "../_lib/machine.js";

const REACH = { within: [5, "rev"] };

trial("Travel between the limit switches", {
  id: "TRV-01", number: 9, axes: "all", tags: ["reference"], limit: [3, "min"],
  limits: { travel: [4.8, "rev"], tolerance: [0.01, "rev"] },
}, (axis, t) => {
  setUpHoming(axis, homing.negativeLimit);
  axis.enable();
  axis.home(REACH);
  axis.setParameter("homingMethod", homing.positiveLimit, "1");
  const upper = axis.home(REACH);
  // The zero moved from the lower to the upper switch, so the register reads so much less.
  t.check("Distance of the limit switches", upper.newZero(),
    nominal(-t.limit("travel").in("rev"), "rev").plusMinus(t.limit("tolerance")));
  axis.setParameter("homingMethod", homing.homeSwitchAndIndex, "1");
  axis.home(REACH);
  axis.moveTo(1, "rev");
});
