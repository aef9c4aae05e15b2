// 7  Sense and scale
//
// Purpose   A positive order goes the way that the drawing calls positive, and as far as ordered. Longer and faster moves are
//           allowed only afterwards.
// Method    Two small moves out and two back at 1 % of the highest speed, each read on an instrument beside the machine, because
//           registers that agree with each other can all be wrong together. The line through all readings is the scale.
// Cautions  The first motion. Wrong sign or scale is a runaway: lowest speed, shortest way, hand on the emergency stop, nobody in
//           reach. Rules of the place and people licensed for the work come first.
// Source    Common practice, no source.
import { trial, nominal } from "axtrial";
import { machine } from "../_lib/machine.js";

trial("Goes the right way and as far as ordered", {
  id: "SNS-01", number: 7, axes: "all", tags: ["first motion", "needs an instrument"], proves: "sense and scale",
  limits: { step: [0.02, "rev"], speed: [1.8, "rpm"], difference: [1, "%"] },
}, (axis, t) => {
  const { unit } = machine[axis.name].instrument;
  const read = name => t.reading(name, machine[axis.name].instrument);
  axis.enable();
  let before = read("Before");
  let commanded = 0;
  const readings = [{ commanded: [commanded, "rev"], measured: before }];
  for (const [name, sign] of [["forwards", 1], ["forwards again", 1], ["back", -1], ["back again", -1]]) {
    const step = sign * t.limit("step").in("rev");
    const move = axis.moveBy(step, "rev", { speed: t.limit("speed") });
    const after = read(`After the move ${name}`);
    const u = Math.hypot(after.uncertainty(unit), before.uncertainty(unit));
    const moved = t.computed(after.value(unit) - before.value(unit), unit, { from: [after, before], uncertainty: [u, unit] });
    t.check(`Moved ${name}, by the instrument`, moved, nominal(step, "rev").plusMinus(t.limit("difference")));
    t.check(`Moved ${name}, by the drive`, move.travel(), nominal(step, "rev").plusMinus(t.limit("difference")));
    commanded += step;
    readings.push({ commanded: [commanded, "rev"], measured: after });
    before = after;
  }
  t.check("Scale by the instrument", t.scale(readings), nominal(1, "1").plusMinus(t.limit("difference")));
});
