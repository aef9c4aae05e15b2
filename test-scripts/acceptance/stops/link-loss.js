// 29  Loss of communication
//
// Purpose   A program that ends, a program that hangs and a pulled cable all end in a stop by the drive itself.
// Method    Three times the link is lost in the middle of a move: closed, silent, cable pulled. Nobody looks for a second; then the
//           axis must stand, well before its target, and without torque. Nothing is sent again.
// Cautions  If the watchdog of the drive does not work the axis goes on to its target unwatched: the whole way must be free, nobody in
//           reach, hand on the emergency stop. Support a hanging load. Rules of the place and people licensed for the work come first.
// Source    Common practice, no source. Distance: v·t + v²/2a with the watchdog of 150 ms, plus 20 %.
import { trial, atMost, nominal } from "axtrial";

trial("Stops by itself when the link is lost", {
  id: "LLS-01", number: 29, axes: "all", tags: ["stops", "provokes a trip"], limit: [3, "min"],
  limits: { speed: [60, "rpm"], time: [1.5, "s"], distance: [0.3, "rev"] },
}, (axis, t) => {
  for (const [name, cut, sign] of [["connection closed", "close", 1], ["program silent", "silence", -1], ["cable pulled", "cable", 1]]) {
    t.step(name);
    if (cut === "cable") t.hold("Somebody stands ready to pull the network cable while the axis moves, and to plug it in again");
    axis.enable();
    const lost = axis.moveWithoutLink(sign * 2, "rev", { cut, after: [400, "ms"], lasts: [1, "s"], speed: t.limit("speed") });
    t.check(`Time to rest, ${name}`, lost.time(), atMost(t.limit("time")));
    t.check(`Distance, ${name}`, lost.distance(), atMost(t.limit("distance")));
    t.check(`Torque when seen again, ${name}`, lost.enabled(), nominal(0, "1").plusMinus(0.5, "1"));
    axis.resetFault();
  }
});
