package org.axtrial.measure;

import java.util.OptionalDouble;

/**
 * A measured value held against a criterion.
 *
 * @param measured the measurement, in the unit of the criterion
 * @param criterion what it was held against
 * @param verdict PASS, FAIL or INCONCLUSIVE
 * @param margin distance to the nearer limit, positive inside, in the criterion's unit; empty without a value
 * @param reason one sentence a person can act on; empty for a plain PASS
 */
public record Judgement(
        Measurement measured, Criterion criterion, Verdict verdict, OptionalDouble margin, String reason) {

    public Judgement {
        switch (verdict) {
            case PASS, FAIL, INCONCLUSIVE -> {
                // The only ones that a measured value can come to.
            }
            default -> throw new IllegalArgumentException("a measured value cannot come to " + verdict.printed());
        }
        if (verdict != Verdict.PASS && reason.isBlank()) {
            throw new IllegalArgumentException(verdict.printed() + " needs a reason");
        }
    }
}
