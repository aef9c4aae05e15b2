// 35  Warm drift
//
// Purpose   How far the zero shifts when the axis gets warm.
// Method    Homing cold, work, homing again: the change of the zero. On a real machine half an hour of work; edit the rounds. What
//           the drive sees is the shift between motor and switch; an instrument shows the shift of the load.
// Cautions  Long work without a person: keep the way guarded; hot surfaces on motor and brake resistor. Rules of the place and people
//           licensed for the work come first.
// Source    Common practice, no source.
import { trial, nominal } from "axtrial";
import { homing, setUpHoming } from "../_lib/machine.js";

const ROUNDS = 5;
const REACH = { within: [5, "rev"] };

trial("The zero stays when the axis gets warm", {
  id: "WRM-01", number: 35, axes: "all", tags: ["endurance"], limit: [60, "min"],
  limits: { shift: [25, "count"] },
}, (axis, t) => {
  setUpHoming(axis, homing.homeSwitchAndIndex);
  axis.enable();
  axis.home(REACH);
  for (let round = 1; round <= ROUNDS; round++) {
    for (const sign of [1, -1]) axis.moveBy(sign * 1, "rev", { speed: [180, "rpm"], acceleration: [25, "rev/s2"], settle: [20, "ms"] });
  }
  t.check("Shift of the zero", axis.home(REACH).newZero(), nominal(0, "count").plusMinus(t.limit("shift")));
  axis.moveTo(1, "rev");
});
