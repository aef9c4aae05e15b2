package org.axtrial.engine;

import java.util.List;

/** Scripts cannot be run as they are. Holds everything that was found wrong; nothing has moved. */
public final class ScriptProblemsException extends Exception {

    private static final long serialVersionUID = 1L;

    private final transient List<String> problems;

    ScriptProblemsException(List<String> problems) {
        super(String.join("\n", problems));
        this.problems = List.copyOf(problems);
    }

    /** Each with script, line, column and the line itself where they are known. */
    public List<String> problems() {
        return problems;
    }
}
