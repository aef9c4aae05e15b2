// 38  Axes together
//
// Purpose   Nothing gets worse while several axes move at once: neither the motion nor the answers of the drives.
// Method    The site file says `parallel: true`, so the first trial runs on all axes beside each other: each makes the same moves at
//           full polling, and errors and reply times are held against the same limits as alone. The second moves two axes by one
//           order and measures how far they are apart on the way; what stops one of them stops both. The third lets them come back to
//           one place again and again, as ISO 9283 does with 30 poses.
// Cautions  Only where no position of one axis can harm another, or a person. Rules of the place and people licensed for the work come
//           first.
// Source    Common practice, no source.
import { trial, nominal, atMost } from "axtrial";

trial("Works as well beside the other axes", {
  id: "TWO-01", number: 38, axes: "all", tags: ["endurance"], limit: [5, "min"],
  limits: { travel: [25, "count"], following: [3000, "count"], p99: [50, "ms"], errors: [0, "1"] },
}, (axis, t) => {
  axis.enable();
  for (let round = 1; round <= 3; round++) {
    for (const sign of [1, -1]) {
      const move = axis.moveBy(sign * 1, "rev", { speed: [150, "rpm"], acceleration: [20, "rev/s2"] });
      t.check(`Travel, round ${round}, ${sign} rev`, move.travel(), nominal(sign, "rev").plusMinus(t.limit("travel")));
      t.check(`Peak following error, round ${round}, ${sign} rev`, move.peakFollowingError(), atMost(t.limit("following")));
    }
  }
  const times = axis.linkTimes({ reads: 500 });
  t.check("Reply time of 99 % of the looks", times.p99(), atMost(t.limit("p99")));
  t.check("Looks without a valid reply", times.errors(), atMost(t.limit("errors")));
});

trial("Carriage and hoist move by one order as well as alone", {
  id: "TWO-02", number: 38, axes: "CARRIAGE", with: "HOIST", tags: ["endurance"], limit: [5, "min"],
  limits: { travel: [25, "count"], following: [3000, "count"], skew: [3, "mm"] },
}, (axis, t) => {
  t.enableTogether();
  for (const sign of [1, -1]) {
    const way = { by: [sign * 50, "mm"], speed: [100, "mm/s"], acceleration: [1000, "mm/s2"] };
    const moves = t.moveTogether({ CARRIAGE: way, HOIST: way });
    t.check(`Skew, ${sign * 50} mm`, t.skew(moves.CARRIAGE, moves.HOIST), atMost(t.limit("skew")));
    for (const [name, move] of [["CARRIAGE", moves.CARRIAGE], ["HOIST", moves.HOIST]]) {
      t.check(`Travel of ${name}, ${sign * 50} mm`, move.travel(), nominal(sign * 50, "mm").plusMinus(t.limit("travel")));
      t.check(`Peak following error of ${name}, ${sign * 50} mm`, move.peakFollowingError(), atMost(t.limit("following")));
    }
  }
});

trial("Carriage and hoist come back to one place", {
  id: "TWO-03", number: 38, axes: "CARRIAGE", with: "HOIST", tags: ["endurance"], limit: [5, "min"],
  limits: { repeatability: [0.05, "mm"] },
}, (axis, t) => {
  t.enableTogether();
  const way = sign => ({ by: [sign * 20, "mm"], speed: [100, "mm/s"], acceleration: [1000, "mm/s2"] });
  const poses = [];
  for (let cycle = 1; cycle <= 10; cycle++) {
    t.moveTogether({ CARRIAGE: way(1), HOIST: way(1) });
    const back = t.moveTogether({ CARRIAGE: way(-1), HOIST: way(-1) });
    poses.push({ CARRIAGE: back.CARRIAGE.restPosition(), HOIST: back.HOIST.restPosition() });
  }
  t.check("Pose repeatability RP of 10 poses", t.poseRepeatability(poses), atMost(t.limit("repeatability")));
});
