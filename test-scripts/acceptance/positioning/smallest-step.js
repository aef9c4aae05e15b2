// 17  Smallest step
//
// Purpose   How small a step the axis still makes: friction and play swallow what is smaller.
// Method    Steps of 100, 50 and 20 counts, both ways; achieved over commanded.
// Cautions  Small moves, but under torque: keep clear. Rules of the place and people licensed for the work come first.
// Source    Common practice, no source: 50 % to 150 %.
import { trial, between } from "axtrial";

trial("Makes small steps", {
  id: "STP-01", number: 17, axes: "all", tags: ["positioning"],
  limits: { least: [50, "%"], most: [150, "%"] },
}, (axis, t) => {
  axis.enable();
  for (const step of [100, 50, 20]) {
    for (const sign of [1, -1]) {
      const made = axis.moveBy(sign * step, "count", { speed: [6, "rpm"] }).travel();
      const share = t.computed(100 * made.value("count") / (sign * step), "%",
        { from: [made], uncertainty: [100 * made.uncertainty("count") / step + 0.01, "%"] });
      t.check(`Step of ${sign * step} counts, achieved over commanded`, share, between(t.limit("least"), t.limit("most")));
    }
  }
});
