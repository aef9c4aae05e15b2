// 34  Friction signature
//
// Purpose   Friction is as it was at the first acceptance: lubrication, bearings, alignment.
// Method    Slow constant speed both ways over the same piece; half the difference of the torques against the baseline.
// Cautions  Keep the way free. Rules of the place and people licensed for the work come first.
// Source    Common practice, no source: baseline ± 25 %. Baselines: first acceptance of the rig (invented).
import { trial, nominal } from "axtrial";

const BASELINE = { CARRIAGE: [8.35, "%"], HOIST: [4.2, "%"], TABLE: [8.35, "%"] };

trial("Friction is as it was", {
  id: "FRI-01", number: 34, axes: "all", tags: ["endurance"],
  limits: { speed: [12, "rpm"], change: [25, "%"] },
}, (axis, t) => {
  axis.enable();
  const [out, back] = [1, -1].map(sign => axis.holdSpeed(sign * t.limit("speed").in("rpm"), "rpm", { for: [1, "s"] }));
  t.check("Friction torque", out.frictionTorque(back), nominal(...BASELINE[axis.name]).plusMinus(t.limit("change")));
});
