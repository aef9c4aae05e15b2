// 28  No restart
//
// Purpose   Nothing moves by itself when a stop is reset or the power comes back.
// Method    The axis is stopped in the middle of a move by a trip of its drive, the fault is reset, and torque is given again: it must
//           stay where it is until a new command. The same after the supply was off.
// Cautions  If this fails the axis goes on with its old move: keep clear, the whole way must be free. Hold a hanging load before its
//           supply is taken. Rules of the place and people licensed for the work come first.
// Source    ISO 12100 and IEC 60204-1 ask that a reset does not restart (from memory); limit common practice, no source.
import { trial, nominal } from "axtrial";

trial("Does not move again after a reset or the return of power", {
  id: "NRS-01", number: 28, axes: "all", tags: ["stops", "needs a person", "provokes a trip"], limit: [3, "min"],
  limits: { motion: [25, "count"] },
}, (axis, t) => {
  const still = (name, motion) => t.check(name, motion.drift(), nominal(0, "count").plusMinus(t.limit("motion")));
  axis.enable();
  axis.holdSpeed(30, "rpm", { for: [1.5, "s"], operate: "Trip the drive while the axis moves, by its stop input", rehearse: { kind: "drive trip", code: 0x5443 } });
  axis.resetFault();
  still("After the reset", axis.dwell(1, "s"));
  axis.enable();
  still("Under torque again", axis.dwell(1, "s"));
  axis.disable();
  t.hold("The load is held, and somebody is ready to switch the supply of the drive off and on");
  axis.awaitRestart({ within: [2, "min"] });
  still("After the return of power", axis.dwell(1, "s"));
  axis.enable();
  still("Under torque after the return of power", axis.dwell(1, "s"));
});
