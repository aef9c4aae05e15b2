// 37  Power cycle × 3
//
// Purpose   Parameters, position and reference survive a loss of supply, or their loss is seen.
// Method    The supply is switched off and on three times; parameters and position before and after, then a homing that must not move
//           the zero.
// Cautions  Without supply only the brake holds a hanging load. Stored energy stays in the drive for minutes: do not open it. Rules of
//           the place and people licensed for the work come first.
// Source    Common practice, no source.
import { trial, nominal } from "axtrial";
import { homing, setUpHoming } from "../_lib/machine.js";

trial("Comes back from a loss of supply as it was", {
  id: "PWR-01", number: 37, axes: "all", tags: ["endurance", "needs a person"], limit: [5, "min"],
  limits: { position: [50, "count"], zero: [25, "count"] },
}, (axis, t) => {
  const stored = axis.parameterNames().map(name => [name, axis.parameter(name)]);
  for (let cycle = 1; cycle <= 3; cycle++) {
    const before = axis.position("count");
    t.hold(`The load is held, and somebody is ready to switch the supply of the drive off and on, cycle ${cycle}`);
    axis.awaitRestart({ within: [2, "min"] });
    const moved = t.computed(axis.position("count") - before, "count", { from: ["position"], uncertainty: [0.4, "count"] });
    t.check(`Position, cycle ${cycle}`, moved, nominal(0, "count").plusMinus(t.limit("position")));
    for (const [name, was] of stored) {
      const now = axis.parameter(name);
      if (String(now) !== String(was)) t.check(`${name}, cycle ${cycle}, was ${was}`, now, nominal(0, "1").plusMinus(1e-9, "1"));
    }
  }
  setUpHoming(axis, homing.homeSwitchAndIndex);
  axis.enable();
  t.check("The zero is where it was", axis.home({ within: [5, "rev"] }).newZero(), nominal(0, "count").plusMinus(t.limit("zero")));
  axis.moveTo(1, "rev");
});
