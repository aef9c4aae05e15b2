package org.axtrial.site;

import java.util.List;
import java.util.stream.Collectors;

/** A site file, or a drive description it names, cannot be used. Holds everything that was found wrong. */
public final class SiteProblemsException extends Exception {

    private final transient List<Problem> problems;

    SiteProblemsException(List<Problem> problems) {
        super(problems.stream().map(Problem::toString).collect(Collectors.joining("\n")));
        this.problems = List.copyOf(problems);
    }

    /** At least one problem; the site file first, then the drive descriptions, each from top to bottom. */
    public List<Problem> problems() {
        return problems;
    }
}
