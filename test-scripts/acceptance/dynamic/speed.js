// 21  Speed holding
//
// Purpose   The speed is the ordered one, both ways, and stays.
// Method    Displacement over time, which needs no trust in the speed signal; drift of the reported speed.
// Cautions  Keep the whole way free. Rules of the place and people licensed for the work come first.
// Source    Common practice, no source: mean ± 0.5 %. The quantum of the speed by counting must be below a tenth of that.
import { trial, nominal, between } from "axtrial";

trial("Holds its speed both ways", {
  id: "SPD-01", number: 21, axes: "all", tags: ["dynamic"],
  limits: { speed: [30, "rpm"], mean: [0.5, "%"], drift: [0.3, "rpm"] },
}, (axis, t) => {
  const drift = t.limit("drift").in("rpm");
  axis.enable();
  for (const sign of [1, -1]) {
    const speed = sign * t.limit("speed").in("rpm");
    const run = axis.holdSpeed(speed, "rpm", { for: [1, "s"] });
    t.check(`Mean speed at ${speed} r/min`, run.meanSpeed(), nominal(speed, "rpm").plusMinus(t.limit("mean")));
    t.check(`Drift at ${speed} r/min`, run.speedDrift(), between(-drift, drift, "rpm"));
  }
});
