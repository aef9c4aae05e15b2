package org.axtrial.report;

import java.util.List;
import java.util.Locale;
import org.axtrial.evidence.RunSetup.Fact;
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
        Front front,
        List<Matrix> overview,
        List<AxisTable> axisTables,
        List<InstrumentLine> instruments,
        List<Trial> trials,
        List<Budget> budgets,
        List<FileLine> files) {

    /** The page that is signed. */
    record Front(
            String jobId,
            String title,
            Word verdict,
            String sentence,
            List<Tally> tallies,
            List<Fact> job,
            List<Fact> machine,
            List<AxisLine> axes,
            String extent,
            List<Fact> conditions,
            List<Finding> failed,
            List<Finding> unproven,
            String nothingOpen,
            List<String> notes) {}

    /** A verdict as a word, a shape and a CSS class. */
    record Word(String word, String kind) {

        static Word of(Verdict verdict) {
            return new Word(
                    verdict.printed(), verdict.name().toLowerCase(Locale.ROOT).replace('_', '-'));
        }
    }

    record Tally(Word verdict, int count) {}

    /** An axis on one line. */
    record AxisLine(String name, String description, String drive, String peer, boolean simulated) {}

    /** One finding, which several axes may share. */
    record Finding(String trial, String title, Word verdict, List<Link> axes, String reason) {}

    /** A place in the report to go to. */
    record Link(String anchor, String text) {}

    /** Trials down, some of the axes across. */
    record Matrix(List<String> axes, List<Row> rows) {

        /** A trial with its verdicts, one cell for each axis. */
        record Row(String id, String title, String clause, List<Cell> cells) {}

        /** The trial on one axis; no link if it was not meant for that axis. */
        record Cell(List<Link> link, List<Word> verdict, String detail) {}
    }

    /** Facts down, some of the axes across. */
    record AxisTable(List<String> axes, List<AxisRow> rows) {}

    /** One fact of each axis. */
    record AxisRow(String name, List<String> values) {}

    /** One instrument with whether its calibration counted on the day of the test. */
    record InstrumentLine(
            String id,
            String type,
            String serial,
            String certificate,
            String calibrated,
            String due,
            String resolution,
            String uncertainty,
            String correction,
            String state,
            boolean valid) {}

    record Trial(
            String anchor,
            String id,
            String axis,
            String with,
            String title,
            String clause,
            String script,
            boolean planned,
            Word verdict,
            String reason,
            List<Attempt> attempts) {}

    record Attempt(
            String heading,
            Word verdict,
            String reason,
            String when,
            List<Step> steps,
            List<Check> checks,
            List<Figure> figures,
            List<Positioning> positioning,
            List<Break> broken,
            List<String> stops,
            List<String> quietStops,
            List<Parameter> parameters) {}

    /** A parameter of the drive that the attempt changed. */
    record Parameter(String name, String found, String written, String end, boolean leftBehind) {}

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
            String coverage,
            String budgetAnchor,
            String period,
            String source,
            Word verdict,
            String zone,
            String conformity,
            String limitSource,
            String reason,
            String place) {}

    /** A positioning test: its plot, and the numbers of it. */
    record Positioning(String svg, String caption, List<PositioningRow> rows) {}

    record PositioningRow(
            String target,
            String meanUp,
            String deviationUp,
            String meanDown,
            String deviationDown,
            String reversal,
            String repeatability) {}

    record Figure(String title, String file, String caption, List<String> svgs) {}

    /** The uncertainty budget of one check. */
    record Budget(
            String anchor,
            String trial,
            String check,
            String combined,
            String freedom,
            String coverage,
            String expanded,
            List<Part> parts) {

        /** One contribution. */
        record Part(
                String name,
                String how,
                String type,
                String distribution,
                String spread,
                String divisor,
                String freedom,
                String standard,
                String share) {}
    }

    record FileLine(String name, String sha256, long size) {}
}
