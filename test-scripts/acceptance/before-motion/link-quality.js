// 3  Link quality
//
// Purpose   The network is quick and clean enough for the watchdog of the drive.
// Method    1,000 looks at the drive, as fast as it answers: median, 99 %, longest, failures.
// Cautions  Nothing moves. Rules of the place and people licensed for the work come first.
// Source    Common practice, no source: 99 % of the looks within a third of the watchdog (150 ms here), no failure.
import { trial, atMost } from "axtrial";

trial("The drive answers in time and without errors", {
  id: "LNK-01", number: 3, axes: "all", tags: ["before motion"],
  limits: { p99: [50, "ms"], errors: [0, "1"] },
}, (axis, t) => {
  const times = axis.linkTimes({ reads: 1000 });
  t.check("Reply time of 99 % of the looks", times.p99(), atMost(t.limit("p99")));
  t.check("Looks without a valid reply", times.errors(), atMost(t.limit("errors")));
  t.note(`Median ${times.median()}, longest ${times.longest()}`);
});
