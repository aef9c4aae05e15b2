package org.axtrial.site;

import java.util.List;
import java.util.stream.Collectors;

/** A file of answers cannot be used. Holds everything that was found wrong. */
public final class AnswersProblemsException extends Exception {

    private static final long serialVersionUID = 1L;

    private final transient List<Problem> problems;

    AnswersProblemsException(List<Problem> problems) {
        super(problems.stream().map(Problem::toString).collect(Collectors.joining("\n")));
        this.problems = List.copyOf(problems);
    }

    /** At least one problem, from top to bottom. */
    public List<Problem> problems() {
        return problems;
    }
}
