// A soft coupling or belt is wound up by the friction of its load and springs back when the torque goes. For horizontal axes
// only: without torque a hanging load falls. Common practice, no source; edit the limit for your machine.
import { trial, nominal } from "axtrial";

trial("Does not spring back when the torque goes", { id: "WND-01", axes: "CARRIAGE" }, (axis, t) => {
  axis.enable();
  axis.moveBy(10, "mm", { speed: [20, "mm/s"] });
  const before = axis.position("mm");
  axis.disable();
  const rest = axis.dwell(1, "s").restPosition();
  const back = t.computed(rest.value("mm") - before, "mm", { from: [rest, "position"], uncertainty: [0.001, "mm"] });
  t.check("Spring-back", back, nominal(0, "mm").plusMinus(0.05, "mm"));
});
