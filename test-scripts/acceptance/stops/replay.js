// 31  Replay
//
// Purpose   A start word that arrives twice, as a gateway may make it, gives one motion.
// Method    The start word of a relative move is sent twice. The axis must go once as far, and stay. The only trial in which the
//           program sends a start twice; the envelope must hold twice the way. Only for drives with a set-point hand-shake: where
//           each write is a move of its own the trial ends as ERROR before anything is sent.
// Cautions  If this fails the axis goes twice as far: keep that way free too. Rules of the place and people licensed for the work come
//           first.
// Source    Set-point hand-shake of CiA 402 (IEC 61800-7-201, from memory); limit common practice, no source.
import { trial, nominal } from "axtrial";

trial("A start word sent twice gives one motion", {
  id: "RPL-01", number: 31, axes: "all", tags: ["stops"],
  limits: { tolerance: [25, "count"] },
}, (axis, t) => {
  axis.enable();
  for (const distance of [0.1, -0.1]) {
    const move = axis.moveStartedTwice(distance, "rev");
    t.check(`Travel of ${distance} rev, started twice`, move.travel(), nominal(distance, "rev").plusMinus(t.limit("tolerance")));
  }
});
