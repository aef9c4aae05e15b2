package org.axtrial.report;

import java.util.List;
import java.util.Locale;
import org.axtrial.evidence.RunSetup;
import org.axtrial.measure.Verdict;

/**
 * What the template prints, in words and in order. Texts are plain; the template escapes them. The two members that it
 * prints as they are, {@code style} and the drawings, are made by this package alone.
 */
record View(
        String style,
        String mark,
        String markText,
        String runId,
        String recordHash,
        String journalHash,
        String title,
        Word verdict,
        String sentence,
        List<Tally> tallies,
        List<RunSetup.Fact> job,
        List<RunSetup.Fact> machine,
        List<RunSetup.Fact> conditions,
        List<RunSetup.AxisUnderTest> axes,
        List<Finding> failed,
        List<Finding> unproven,
        List<String> notes,
        List<Group> groups,
        List<FileLine> files) {

    /** A verdict as a word, a shape and a CSS class. */
    record Word(String word, String kind) {

        static Word of(Verdict verdict) {
            return new Word(
                    verdict.printed(), verdict.name().toLowerCase(Locale.ROOT).replace('_', '-'));
        }
    }

    record Tally(Word verdict, int count) {}

    record Finding(String anchor, String trial, String axis, String title, Word verdict, String reason) {}

    /** The trials of one axis. */
    record Group(String axis, String description, List<Trial> trials) {}

    record Trial(
            String anchor,
            String id,
            String axis,
            String title,
            String clause,
            String script,
            boolean planned,
            Word verdict,
            String reason,
            int checks,
            List<Attempt> attempts) {}

    record Attempt(
            String heading,
            Word verdict,
            String reason,
            String when,
            List<Step> steps,
            List<Check> checks,
            List<Figure> figures,
            List<Break> broken,
            List<String> stops) {}

    record Step(String at, String text, String place) {}

    record Break(Word verdict, String message, String place, String line) {}

    record Check(
            String name,
            String definition,
            String measured,
            String expected,
            String limits,
            String margin,
            String uncertainty,
            String period,
            String source,
            Word verdict,
            String reason,
            String place,
            List<String> budget) {}

    record Figure(String title, String file, String caption, List<String> svgs) {}

    record FileLine(String name, String sha256, long size) {}
}
