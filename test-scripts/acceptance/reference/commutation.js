// 10  Commutation after work on the motor
//
// Purpose   A commutation that is off, or a swapped phase that still turns, shows as torque that swings with the motor angle.
// Method    One slow motor revolution; peak torque against the mean, held against the value of the first acceptance.
// Cautions  After work on motor or encoder the axis may run away at the first torque: shortest way, hand on the emergency stop.
//           Rules of the place and people licensed for the work come first.
// Source    Common practice, no source: baseline plus 20 %.
import { trial, atMost } from "axtrial";
import { machine } from "../_lib/machine.js";

trial("The torque does not swing with the motor angle", {
  id: "COM-01", number: 10, axes: "all", tags: ["first motion", "after motor"],
  limits: { speed: [6, "rpm"], swing: [4, "%"], swingHanging: [12, "%"] },
}, (axis, t) => {
  axis.enable();
  const runs = [1, -1].map(sign => axis.holdSpeed(sign * t.limit("speed").in("rpm"), "rpm", { for: [2, "s"], acceleration: [0.5, "rev/s2"] }));
  for (const [name, run] of [["forwards", runs[0]], ["back", runs[1]]]) {
    const [peak, rms] = [run.peakTorque(), run.rmsTorque()];
    const swing = t.computed(peak.value("%") - rms.value("%"), "%",
      { from: [peak, rms], uncertainty: [Math.hypot(peak.uncertainty("%"), rms.uncertainty("%")) + 0.01, "%"] });
    t.check(`Peak above RMS torque, ${name}`, swing, atMost(t.limit(machine[axis.name].hanging ? "swingHanging" : "swing")));
  }
});
