// 5  Inputs
//
// Purpose   Each switch is wired to its own bit with the right polarity, before the drive depends on it.
// Method    No switch is active in the middle of the travel. Then each is operated by hand: its bit alone must change, and fall
//           again.
// Cautions  Stand where the axis cannot reach you: it may start without warning. The torque is off; lock it by the rules of the
//           place. These switches are part of the machine control and no safety function. People licensed for the work come first.
// Source    Common practice, no source. Bits: object 60FDh of CiA 402.
import { trial, nominal } from "axtrial";
import { input } from "../_lib/machine.js";

const SWITCHES = [["negative limit", input.negativeLimit], ["positive limit", input.positiveLimit], ["home", input.home]];

trial("No switch is active in the middle of the travel", {
  id: "INP-01", number: 5, axes: "all", tags: ["before motion"],
}, (axis, t) => {
  t.check("Digital inputs", axis.parameter("digitalInputs"), nominal(0, "1").plusMinus(0.5, "1"));
});

trial("Each switch changes its own bit and no other", {
  id: "INP-02", number: 5, axes: "all", tags: ["before motion", "needs a person"],
}, (axis, t) => {
  for (const [name, bit] of SWITCHES) {
    t.operate(`Hold down the ${name} switch`, { rehearse: { kind: "switch pressed", input: name } });
    t.check(`${name}, held`, axis.parameter("digitalInputs"), nominal(bit, "1").plusMinus(0.5, "1"));
    t.operate(`Let go of the ${name} switch`, { rehearse: { kind: "switch released", input: name } });
    t.check(`${name}, let go`, axis.parameter("digitalInputs"), nominal(0, "1").plusMinus(0.5, "1"));
  }
});
