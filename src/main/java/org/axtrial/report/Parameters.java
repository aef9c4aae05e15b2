package org.axtrial.report;

import org.axtrial.evidence.ParameterChange;

/** Tells what became of the parameters that a trial changed. */
final class Parameters {

    private Parameters() {}

    /** How a change ended. */
    static String end(ParameterChange change) {
        if (change.kept()) {
            return "kept, as the script ordered";
        }
        return change.end()
                .map(last -> last.trouble()
                        .map(why -> "NOT put back: " + Words.minus(why))
                        .orElse("put back"))
                .orElse("NOT put back: the run ended first");
    }

    /** What a signer must know of a change; only for one that stays or may have stayed. */
    static String sentence(String axis, ParameterChange change) {
        String what = "Axis " + axis + ", parameter " + change.name() + ": ";
        return change.kept()
                ? what + "changed from " + Words.minus(change.printedFound()) + " to "
                        + Words.minus(change.printedWritten()) + " and kept, as the script ordered."
                : what + "may still be " + Words.minus(change.printedWritten()) + " instead of "
                        + Words.minus(change.printedFound()) + ". It was " + end(change) + ".";
    }
}
