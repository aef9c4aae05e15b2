// 19  Following-error trip
//
// Purpose   A blocked axis makes the drive trip at the level that is set, and nothing else.
// Method    The level is reduced to below the error of a usual move; the move must end by a trip at that level with its fault code.
//           Slow acceleration, so that the error grows slowly and the level shows. The program puts the level back.
// Cautions  The drive trips and takes its torque away: support a hanging load, know its brake. Rules of the place and people licensed
//           for the work come first.
// Source    Common practice, no source: level ± 10 % is usual; with samples each 4 ms the default here is 20 %. Fault code 8611h of CiA 402 (from memory).
import { trial, nominal } from "axtrial";

trial("Trips when the following error passes its level", {
  id: "FTR-01", number: 19, axes: "all", tags: ["dynamic", "provokes a trip"],
  limits: { level: [1200, "count"], tolerance: [20, "%"], code: [34321, "1"] },
}, (axis, t) => {
  const found = axis.parameter("followingErrorTrip").value("count");
  axis.setParameter("followingErrorTrip", ...t.limit("level"));
  axis.enable();
  const move = axis.moveUntilStopped(2.5, "rev", { by: "trip", speed: [150, "rpm"], acceleration: [1, "rev/s2"] });
  t.check("Following error at the trip", move.peakFollowingError(), nominal(...t.limit("level")).plusMinus(t.limit("tolerance")));
  t.check("Fault code", axis.parameter("faultCode"), nominal(...t.limit("code")).plusMinus(0.5, "1"));
  axis.resetFault();
  axis.setParameter("followingErrorTrip", found, "count");
  axis.enable();
  axis.moveTo(1, "rev");
});
