package org.axtrial.sim;

/** The index mark of the encoder, once in each motor revolution. Angles are rad since the simulation started. */
final class IndexMark {

    private static final double TURN = 2 * Math.PI;

    private final double offset;
    private boolean present = true;

    /** A mark at that many motor revolutions, and at every whole one from there. */
    IndexMark(double revolutions) {
        this.offset = revolutions * TURN;
    }

    /** Loses the mark, as a broken wire does, or brings it back. */
    void be(boolean nowPresent) {
        present = nowPresent;
    }

    /** The mark that was passed on the way from one angle to another, the last of several; NaN if none was. */
    double passed(double before, double after) {
        if (!present) {
            return Double.NaN;
        }
        double from = (before - offset) / TURN;
        double to = (after - offset) / TURN;
        if (to > from) {
            double mark = Math.floor(to);
            return mark > from ? mark * TURN + offset : Double.NaN;
        }
        double mark = Math.ceil(to);
        return mark < from ? mark * TURN + offset : Double.NaN;
    }
}
