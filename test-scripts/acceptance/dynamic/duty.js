// 24  Torque on the duty cycle
//
// Purpose   The motor bears the work all day: its RMS torque over the cycle, dwell included, stays below the rated one.
// Method    A short duty cycle, several times; RMS and peak of the torque.
// Cautions  Keep clear during the cycle; the motor gets warm. Rules of the place and people licensed for the work come first.
// Source    Common practice, no source: RMS at most 80 % of rated. RMS torque by its definition, dwell included.
import { trial, atMost } from "axtrial";

trial("Torque over a duty cycle", {
  id: "DUT-01", number: 24, axes: "all", tags: ["dynamic"], limit: [3, "min"],
  limits: { rms: [80, "%"], peak: [150, "%"] },
}, (axis, t) => {
  axis.enable();
  for (let round = 1; round <= 3; round++) {
    for (const [way, sign] of [["out", 1], ["back", -1]]) {
      const move = axis.moveBy(sign * 0.5, "rev", { settle: [300, "ms"] });
      t.check(`RMS torque ${way}, round ${round}`, move.rmsTorque(), atMost(t.limit("rms")));
      t.check(`Peak torque ${way}, round ${round}`, move.peakTorque(), atMost(t.limit("peak")));
    }
  }
});
