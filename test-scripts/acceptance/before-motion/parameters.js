// 4  Parameter record
//
// Purpose   Every declared parameter is as approved; a difference is found before it moves something.
// Method    Reads all parameters that the drive description declares and holds each against _lib/approved.js. A parameter that
//           nobody approved fails. `axtrial snapshot` keeps the whole set as found and as left.
// Cautions  Nothing moves. Rules of the place and people licensed for the work come first.
// Source    Common practice, no source.
import { trial, nominal, atMost } from "axtrial";
import { approved } from "../_lib/approved.js";

trial("Every parameter is as approved", {
  id: "PAR-01", number: 4, axes: "all", tags: ["before motion"],
  limits: { rounding: [0.001, "%"] },
}, (axis, t) => {
  const set = approved[axis.name];
  for (const name of axis.parameterNames()) {
    const stored = axis.parameter(name);
    if (!(name in set)) {
      t.check(`${name} is not in the approved set`, t.computed(1, "1", { from: [stored], uncertainty: [0.001, "1"] }), atMost(0, "1"));
      continue;
    }
    const [value, unit] = set[name];
    t.check(name, stored, value === 0
      ? nominal(0, unit).plusMinus(1e-6, unit)
      : nominal(value, unit).plusMinus(t.limit("rounding")));
  }
});
