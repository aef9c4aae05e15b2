package org.axtrial.evidence;

/**
 * Names one attempt of one trial on one axis.
 *
 * @param script file name under the scripts folder, with slashes
 * @param trial id of the trial, unique in its script
 * @param axis name of the axis
 * @param attempt 1 for the first try
 */
public record TrialKey(String script, String trial, String axis, int attempt) {

    @Override
    public String toString() {
        return trial + " on " + axis + (attempt > 1 ? " (attempt " + attempt + ")" : "");
    }
}
