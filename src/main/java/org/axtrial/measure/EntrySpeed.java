package org.axtrial.measure;

import org.axtrial.trace.Trace;

/**
 * How fast a position comes into a window, and what the steps and the noise of its readings make of the moment. A position
 * that is known to ± δ crosses an edge at a moment known to ± δ/v (JCGM 100:2008, 5.1.2, with ∂t/∂x = 1/v). A slow tail
 * changes by less than a step between two samples, so the speed is taken over several steps.
 *
 * @param speed size, position unit per second, positive; 0 if the position does not change
 * @param quantum step of the position
 * @param noise standard deviation of a single reading at rest about a straight line, because the end of a tail is no noise
 */
record EntrySpeed(double speed, double quantum, double noise) {

    /** Over so many steps on either side of the entry a reading that is off by one falsifies the speed by no more than a quarter. */
    private static final double STEPS = 4;

    /**
     * Looks on both sides of the entry until the position has changed enough.
     *
     * @param outside index of the last sample outside; there is a sample after it
     */
    static EntrySpeed at(Trace trace, String position, int outside) {
        double[] x = trace.values(position);
        double quantum = trace.channel(position).quantum();
        // Of what follows the entry the first half may still be the tail, which is no noise.
        int still = outside + 1 + (x.length - outside - 1) / 2;
        Rest rest = Rest.atEnd(trace.between(trace.time(still), Double.POSITIVE_INFINITY), position);
        double noise = rest.moving() ? 0 : rest.aboutALine();
        double wanted = STEPS * Math.max(quantum, noise);
        int left = outside;
        while (left > 0 && Math.abs(x[outside + 1] - x[left]) < wanted) {
            left--;
        }
        int right = outside + 1;
        while (right < x.length - 1 && Math.abs(x[right] - x[outside]) < wanted) {
            right++;
        }
        if (Math.abs(x[right] - x[outside]) < wanted) {
            // It comes to rest before that; the time at rest says nothing of the speed.
            right = outside + 1;
        }
        double time = trace.time(right) - trace.time(left);
        return new EntrySpeed(time > 0 ? Math.abs(x[right] - x[left]) / time : 0, quantum, noise);
    }

    /**
     * Adds what the reading makes of the moment, and what the target makes of it.
     *
     * @param targetHalfWidth within which the target is known, position unit; 0 for an ordered one
     */
    void contribute(Draft draft, double targetHalfWidth) {
        if (speed > 0) {
            draft.add(Contribution.rectangular(
                            "quantisation at the edge of the window",
                            "half a position step at the speed of entry",
                            quantum / 2 / speed))
                    .add(new Contribution(
                            "noise at the edge of the window",
                            Contribution.Evaluation.B,
                            "scatter of single readings at rest, at the speed of entry",
                            noise / speed,
                            Double.POSITIVE_INFINITY))
                    .add(Contribution.rectangular(
                            "position at rest",
                            "known to ± half a step, or to what it still creeps, at the speed of entry",
                            targetHalfWidth / speed));
        }
    }
}
