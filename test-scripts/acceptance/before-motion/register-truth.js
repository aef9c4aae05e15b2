// 2  Register truth
//
// Purpose   The numbers are read right: address, word order, sign, and counts for a turn.
// Method    A constant with four different bytes must read as listed: swapped words or bytes, or an address that is one off,
//           cannot. Then a hand turns the motor shaft a quarter turn forwards and back: the counts must follow in size and
//           sign, and a position below zero must not read as a huge number. `axtrial link` names the cause of a wrong map.
// Cautions  The torque must be off and stay off: lock it by the rules of the place. Not for a hanging load, which would fall
//           when its brake is opened by hand. People licensed for the work come first.
// Source    Common practice, no source. Electronic gear: 8192 encoder counts make 625 register counts.
import { trial, nominal } from "axtrial";
import { machine } from "../_lib/machine.js";

trial("The position follows a hand, in size and sign", {
  id: "REG-01", number: 2, axes: ["CARRIAGE", "TABLE"], tags: ["before motion", "needs a person"],
  limits: { quarterTurn: [2500, "count"], byHand: [300, "count"] },
}, (axis, t) => {
  t.check("Constant with four different bytes", axis.parameter("productCode"),
    nominal(machine[axis.name].productCode, "1").plusMinus(0.5, "1"));
  for (const [way, sign] of [["forwards", 1], ["back", -1], ["back once more", -1], ["forwards again", 1]]) {
    const before = axis.position("count");
    t.operate(`Turn the motor shaft a quarter turn ${way}`, { rehearse: { kind: "turned by hand", angle: `${90 * sign} deg` } });
    const turned = t.computed(axis.position("count") - before, "count", { from: ["position"], uncertainty: [0.4, "count"] });
    t.check(`Counts, ${way}`, turned, nominal(sign * t.limit("quarterTurn").in("count"), "count").plusMinus(t.limit("byHand")));
  }
});
