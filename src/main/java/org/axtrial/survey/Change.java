package org.axtrial.survey;

/**
 * One way in which a description may differ from the drive. The weights rank readings that explain a value equally well:
 * what happens more often comes first. They are common practice, without a source.
 */
enum Change {
    /** It stands one register higher or lower. */
    ADDRESS(1.0),
    /** The words of a wide value stand the other way round. */
    WORD_ORDER(1.05),
    /** Signed instead of unsigned, or the other way round. */
    SIGN(1.1),
    /** The value is ten times or a tenth of what it was taken for. */
    SCALE(1.2),
    /** Input instead of holding registers, or the other way round. */
    TABLE(1.25),
    /** The bytes in each register stand the other way round. */
    BYTE_ORDER(1.3),
    /** Floating point instead of integer, or the other way round. */
    FLOAT(1.35),
    /** Fewer or more registers. */
    WIDTH(1.4);

    private final double weight;

    Change(double weight) {
        this.weight = weight;
    }

    double weight() {
        return weight;
    }
}
