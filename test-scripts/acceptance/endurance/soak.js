// 36  Soak
//
// Purpose   Nothing changes in hours of work.
// Method    The same move many times; following error and rest position of the last rounds against the first. Ten rounds by default;
//           edit the rounds and the limit of the trial for hours.
// Cautions  Long work without a person: keep the way guarded. Rules of the place and people licensed for the work come first.
// Source    Common practice, no source.
import { trial, nominal } from "axtrial";

const ROUNDS = 10;

trial("Nothing changes in many rounds", {
  id: "SOA-01", number: 36, axes: "all", tags: ["endurance"], limit: [60, "min"],
  limits: { rest: [15, "count"], following: [50, "count"] },
}, (axis, t) => {
  axis.enable();
  const start = axis.position("rev");
  const round = () => {
    const out = axis.moveTo(start + 0.5, "rev", { speed: [150, "rpm"], acceleration: [25, "rev/s2"] });
    axis.moveTo(start, "rev", { speed: [150, "rpm"], acceleration: [25, "rev/s2"], settle: [20, "ms"] });
    return { rest: out.restPosition(), following: out.peakFollowingError() };
  };
  const first = round();
  let last = first;
  for (let done = 1; done < ROUNDS; done++) last = round();
  for (const [name, key] of [["rest position", "rest"], ["following error", "following"]]) {
    const change = t.computed(last[key].value("count") - first[key].value("count"), "count", {
      from: [first[key], last[key]], uncertainty: [Math.hypot(first[key].uncertainty("count"), last[key].uncertainty("count")), "count"],
    });
    t.check(`Change of the ${name}`, change, nominal(0, "count").plusMinus(t.limit(key)));
  }
});
