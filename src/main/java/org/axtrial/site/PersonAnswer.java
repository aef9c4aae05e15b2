package org.axtrial.site;

/**
 * What a person did about one step of a trial, as it was written down beforehand.
 *
 * @param kind HOLD, WITNESS, OPERATE or RETEST
 * @param trial id of the trial
 * @param axis name of the axis
 * @param name text of the step, as the script says it; empty string for a re-test
 * @param positive whether the hold point is released, the witness present, the work done
 * @param by who; empty string if the file does not say
 * @param reason why not, empty string if it is positive; why the trial is tried again
 * @param attempt which try of the trial it is for, from 1
 * @param line where it stands in the file, from 1
 */
public record PersonAnswer(
        AnswerKind kind,
        String trial,
        String axis,
        String name,
        boolean positive,
        String by,
        String reason,
        int attempt,
        int line) {}
