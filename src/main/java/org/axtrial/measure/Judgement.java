package org.axtrial.measure;

import java.util.Optional;
import java.util.OptionalDouble;

/**
 * A measured value held against a criterion.
 *
 * @param measured the measurement, in the unit of the criterion
 * @param criterion what it was held against
 * @param verdict PASS, FAIL or INCONCLUSIVE
 * @param margin distance to the nearer limit, positive inside, in the criterion's unit; empty without a value
 * @param reason one sentence a person can act on; empty for a PASS
 * @param conformity how sure it is; empty without a value, and for what was judged before it was worked out
 */
public record Judgement(
        Measurement measured,
        Criterion criterion,
        Verdict verdict,
        OptionalDouble margin,
        String reason,
        Optional<Conformity> conformity) {

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

    /** A judgement that does not say how sure it is. */
    public Judgement(Measurement measured, Criterion criterion, Verdict verdict, OptionalDouble margin, String reason) {
        this(measured, criterion, verdict, margin, reason, Optional.empty());
    }
}
