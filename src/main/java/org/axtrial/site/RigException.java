package org.axtrial.site;

import java.util.List;

/** Not every axis of a site could be opened. Nothing has moved, nothing stays open. */
public final class RigException extends Exception {

    private static final long serialVersionUID = 1L;

    private final transient List<String> troubles;

    RigException(List<String> troubles) {
        super(String.join("\n", troubles));
        this.troubles = List.copyOf(troubles);
    }

    /** One line for each axis that could not be opened: its name, what is wrong, what to look at. */
    public List<String> troubles() {
        return troubles;
    }
}
