// 8  Creep both ways
//
// Purpose   Nothing binds, rubs or pushes before the axis goes faster.
// Method    Slow constant speed both ways: friction is half the difference of the torques, the load half the sum. Without gravity
//           both directions must need the same torque.
// Cautions  The first longer motion: slow, nobody in reach, hand on the emergency stop. Rules of the place and people licensed for
//           the work come first.
// Source    Common practice, no source: symmetric within 20 %.
import { trial, atMost, between } from "axtrial";
import { machine } from "../_lib/machine.js";

trial("Creeps both ways with the same torque", {
  id: "CRP-01", number: 8, axes: "all", tags: ["first motion"],
  limits: { speed: [6, "rpm"], friction: [15, "%"], asymmetry: [20, "%"], following: [150, "count"] },
}, (axis, t) => {
  const speed = t.limit("speed").in("rpm");
  axis.enable();
  const out = axis.holdSpeed(speed, "rpm", { for: [1.5, "s"] });
  const back = axis.holdSpeed(-speed, "rpm", { for: [1.5, "s"] });
  t.check("Friction", out.frictionTorque(back), atMost(t.limit("friction")));
  if (!machine[axis.name].hanging) {
    const [load, friction] = [out.loadTorque(back), out.frictionTorque(back)];
    const share = 100 * load.value("%") / friction.value("%");
    const u = 100 * load.uncertainty("%") / friction.value("%");
    const limit = t.limit("asymmetry").in("%");
    t.check("Load as a share of friction", t.computed(share, "%", { from: [load, friction], uncertainty: [u + 0.01, "%"] }),
      between(-limit, limit, "%"));
  }
  for (const [name, run] of [["forwards", out], ["back", back]]) {
    t.check(`Peak following error, ${name}`, run.peakFollowingError(), atMost(t.limit("following")));
  }
});
