// 34  Friction signature
//
// Purpose   Friction is as it was at the first acceptance: lubrication, bearings, alignment.
// Method    Slow constant speed both ways over the same piece; half the difference of the torques against the baseline. Then at three
//           speeds: the straight line through them parts what is there at any speed from what grows with it.
// Cautions  Keep the way free. Rules of the place and people licensed for the work come first.
// Source    Common practice, no source: baseline ± 25 %, and a band for each part. Baselines: first acceptance of the rig (invented).
import { trial, nominal, between } from "axtrial";

const BASELINE = { CARRIAGE: [8.35, "%"], HOIST: [4.2, "%"], TABLE: [8.35, "%"] };

trial("Friction is as it was", {
  id: "FRI-01", number: 34, axes: "all", tags: ["endurance"],
  limits: { speed: [12, "rpm"], change: [25, "%"] },
}, (axis, t) => {
  axis.enable();
  const [out, back] = [1, -1].map(sign => axis.holdSpeed(sign * t.limit("speed").in("rpm"), "rpm", { for: [1, "s"] }));
  t.check("Friction torque", out.frictionTorque(back), nominal(...BASELINE[axis.name]).plusMinus(t.limit("change")));
});

trial("Friction grows with the speed as it did", {
  id: "FRI-02", number: 34, axes: "all", tags: ["endurance"],
  limits: { slow: [6, "rpm"], middle: [12, "rpm"], fast: [24, "rpm"], lowest: [2, "%"], highest: [12, "%"], growth: [3, "%"] },
}, (axis, t) => {
  axis.enable();
  const speeds = ["slow", "middle", "fast"].map(name => {
    const hold = sign => axis.holdSpeed(sign * t.limit(name).in("rpm"), "rpm", { for: [1, "s"] });
    return { out: hold(1), back: hold(-1) };
  });
  const [lowest, highest, growth] = ["lowest", "highest", "growth"].map(name => t.limit(name).in("%"));
  t.check("Coulomb friction", t.coulombFriction(speeds), between(lowest, highest, "%"));
  t.check("Viscous friction at the highest speed", t.viscousFriction(speeds), between(-growth, growth, "%"));
});
