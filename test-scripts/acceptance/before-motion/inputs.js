// Before anything moves: no limit switch may be active where the axis stands in the middle of its travel.
// Stand clear all the same: an axis may start without warning. Common practice, no source.
import { trial, nominal } from "axtrial";

trial("No limit switch is active in the middle of the travel", { id: "INP-01", axes: "all" }, (axis, t) => {
  t.check("Digital inputs", axis.parameter("digitalInputs"), nominal(0, "1").plusMinus(0.5, "1"));
});
