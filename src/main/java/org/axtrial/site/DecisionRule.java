package org.axtrial.site;

/** How a measured value is judged against its limits. */
public enum DecisionRule {
    /** Simple acceptance: the measured value itself decides. */
    SIMPLE(
            "simple",
            "Simple acceptance: PASS if the unrounded measured value lies within the limits; its uncertainty is stated"
                    + " beside it. INCONCLUSIVE if the measurement cannot resolve the limit.");

    private final String spelling;
    private final String sentence;

    DecisionRule(String spelling, String sentence) {
        this.spelling = spelling;
        this.sentence = sentence;
    }

    /** The spelling in a site file. */
    public String spelling() {
        return spelling;
    }

    /** As it stands in a report. */
    public String sentence() {
        return sentence;
    }
}
