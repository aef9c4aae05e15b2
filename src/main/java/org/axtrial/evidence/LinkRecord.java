package org.axtrial.evidence;

import java.util.ArrayList;
import java.util.List;

/**
 * What a look at the link to one axis came to. Nothing was written to the drive for it.
 *
 * @param axis name
 * @param peer host, port, unit
 * @param outcome the worst grade of the findings
 * @param facts what was found, as names and printed values, in order
 * @param findings what is wrong, or could not be proven
 */
public record LinkRecord(String axis, String peer, Grade outcome, List<RunSetup.Fact> facts, List<Finding> findings) {

    /** How a finding weighs, the lightest first. */
    public enum Grade {
        /** Everything is as the site file and the drive description say. */
        PROVEN,
        /** Nothing contradicts them, but not everything could be shown. */
        NOT_PROVEN,
        /** Something contradicts them. */
        WRONG
    }

    /**
     * Something that is wrong, or could not be proven.
     *
     * @param grade how it weighs
     * @param text what was seen, and what to do
     * @param readings other readings of the registers that would explain it, the likeliest first
     * @param corrections lines of the description to look at; nothing is ever changed
     */
    public record Finding(Grade grade, String text, List<String> readings, List<String> corrections) {

        public Finding {
            readings = List.copyOf(readings);
            corrections = List.copyOf(corrections);
        }
    }

    public LinkRecord {
        facts = List.copyOf(facts);
        findings = List.copyOf(findings);
    }

    /** A record whose outcome follows from its findings. */
    public static LinkRecord of(String axis, String peer, List<RunSetup.Fact> facts, List<Finding> findings) {
        Grade worst = findings.stream()
                .map(Finding::grade)
                .reduce(Grade.PROVEN, (one, other) -> one.compareTo(other) > 0 ? one : other);
        return new LinkRecord(axis, peer, worst, facts, findings);
    }

    /** The same with one more finding. */
    public LinkRecord with(Finding finding) {
        List<Finding> more = new ArrayList<>(findings);
        more.add(finding);
        return of(axis, peer, facts, more);
    }
}
