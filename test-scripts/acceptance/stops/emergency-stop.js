// 27  Emergency stop by the real device
//
// Purpose   A record of what the axis does when the emergency stop is pressed while it moves.
// Method    A person presses the real device, three times for each direction; the program records time and distance from the first
//           sign of the stop. It cannot see the moment of pressing.
// Cautions  Only by a person authorised for it, with nobody in reach. The program records; whether the safety function is sound is
//           judged by the competent person with the means of the place. Support a hanging load. Local rules come first.
// Source    Common practice, no source: three stops for each direction.
import { trial, atMost, nominal } from "axtrial";

trial("Stops by the emergency stop", {
  id: "EST-01", number: 27, axes: "all", tags: ["stops", "needs a person", "provokes a trip"], limit: [5, "min"],
  limits: { speed: [30, "rpm"], time: [0.5, "s"], distance: [0.2, "rev"], window: [25, "count"], restart: [25, "count"] },
}, (axis, t) => {
  t.hold("The area is clear and a person authorised for the emergency stop is at the device");
  for (let round = 1; round <= 3; round++) {
    for (const [way, sign] of [["forwards", 1], ["back", -1]]) {
      axis.enable();
      const run = axis.holdSpeed(sign * t.limit("speed").in("rpm"), "rpm", {
        for: [2, "s"], operate: `Press the emergency stop now, ${way}, round ${round}`, rehearse: { kind: "drive trip", code: 0x5443 },
      });
      t.check(`Stopping time ${way}, round ${round}`, run.stoppingTime({ window: t.limit("window") }), atMost(t.limit("time")));
      t.check(`Stopping distance ${way}, round ${round}`, run.stoppingDistance(), atMost(t.limit("distance")));
      const rest = axis.dwell(500, "ms", { operate: `Release the emergency stop, ${way}, round ${round}` });
      t.check(`No motion on release, ${way}, round ${round}`, rest.drift(), nominal(0, "count").plusMinus(t.limit("restart")));
      axis.resetFault();
    }
  }
});
