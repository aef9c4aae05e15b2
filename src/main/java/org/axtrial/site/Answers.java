package org.axtrial.site;

import java.util.List;

/**
 * The answers of one file.
 *
 * @param readings values of instruments
 * @param people hold points, witness points, work by hand and re-tests
 */
public record Answers(List<GivenAnswer> readings, List<PersonAnswer> people) {

    public Answers {
        readings = List.copyOf(readings);
        people = List.copyOf(people);
    }

    /** What an answer is for. */
    public record Target(String trial, String axis) {}
}
