package org.axtrial.survey;

import java.util.ArrayList;
import java.util.List;
import org.axtrial.evidence.LinkRecord;
import org.axtrial.evidence.LinkRecord.Finding;
import org.axtrial.evidence.LinkRecord.Grade;
import org.axtrial.evidence.RunSetup;

/** Collects what a look at a link brings. */
final class Notes {

    private final List<RunSetup.Fact> facts = new ArrayList<>();
    private final List<Finding> findings = new ArrayList<>();

    void fact(String name, String value) {
        facts.add(new RunSetup.Fact(name, value));
    }

    void wrong(String text) {
        finding(Grade.WRONG, text, List.of(), List.of());
    }

    void wrong(String text, List<String> readings, List<String> corrections) {
        finding(Grade.WRONG, text, readings, corrections);
    }

    void notProven(String text) {
        finding(Grade.NOT_PROVEN, text, List.of(), List.of());
    }

    private void finding(Grade grade, String text, List<String> readings, List<String> corrections) {
        findings.add(new Finding(grade, text, readings, corrections));
    }

    LinkRecord record(String axis, String peer) {
        return LinkRecord.of(axis, peer, facts, findings);
    }
}
