package org.axtrial.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.axtrial.evidence.EvidenceLostException;
import org.axtrial.evidence.RepeatedCheck;
import org.axtrial.evidence.RunRecord;
import org.axtrial.measure.GaugeStudy;
import org.axtrial.quantity.Quantity;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Studies how far the test itself can be trusted, from several runs of it. */
@Command(
        name = "gauge",
        mixinStandardHelpOptions = true,
        description = {
            "Tells how much of the spread of a check comes from the test itself: the same check, run several times by several",
            "operators on the same axes. Every operator runs it on every axis equally often; two of each are the least.",
            "Nothing moves; the runs are only read."
        })
final class GaugeCommand implements Callable<Integer> {

    /** A gauge is held to be good below so many percent of the tolerance or of the spread, and usable below … */
    private static final double GOOD = 10;
    /** … so many (AIAG MSA, 4th edition, from memory). */
    private static final double USABLE = 30;

    private final Terminal terminal;

    @Parameters(arity = "1..*", paramLabel = "RUN-FOLDER", description = "Folders of the runs, in any order")
    private List<Path> folders = new ArrayList<>();

    @Option(names = "--check", required = true, paramLabel = "NAME", description = "Name of the check")
    private String check = "";

    @Option(
            names = "--trial",
            paramLabel = "ID",
            description = "Trial that the check is in, if several have one like it")
    private Optional<String> trial = Optional.empty();

    GaugeCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        RepeatedCheck data;
        GaugeStudy study;
        try {
            data = RepeatedCheck.of(folders.stream().map(RunRecord::read).toList(), trial, check);
            study = GaugeStudy.of(data.readings());
        } catch (IllegalArgumentException | EvidenceLostException e) {
            throw new WrongUseException(String.valueOf(e.getMessage()));
        }
        GaugeStudy.AverageRange range = study.averageRange();
        GaugeStudy.Anova anova = study.anova();
        terminal.line("Gauge study of \"" + data.check() + "\" in trial " + data.trial());
        terminal.line("  operators " + String.join(", ", data.operators()) + "; axes "
                + String.join(", ", data.axes()) + "; "
                + data.readings().get(0).get(0).size() + " readings each");
        terminal.line("");
        terminal.line(String.format("  %-34s %18s %18s", "standard deviation", "average and range", "ANOVA"));
        row(data, "repeatability (same operator)", range.repeatability(), Math.sqrt(anova.repeatability()));
        row(
                data,
                "reproducibility (operators)",
                range.reproducibility(),
                Math.sqrt(anova.appraiser() + anova.interaction()));
        row(data, "the test, both together", range.gauge(), Math.sqrt(anova.gauge()));
        row(data, "the axes", range.part(), Math.sqrt(anova.part()));
        terminal.line("");
        if (range.gauge() == 0 || anova.gauge() == 0) {
            terminal.line(
                    "  Every operator read the same each time: the test shows no spread of its own in its resolution.");
            return ExitCode.PASSED.code();
        }
        String ofSpread = share(range.percent()) + " of the spread by average and range, " + share(anova.percent())
                + " by ANOVA; it tells " + range.categories() + " kinds of axes apart";
        terminal.line("  The test makes up " + ofSpread + ".");
        data.tolerance().ifPresent(width -> {
            double percent = 100 * 6 * Math.sqrt(anova.gauge()) / width;
            terminal.line("  Six standard deviations of the test are " + share(percent) + " of the tolerance of "
                    + new Quantity(width, data.unit()).printed(6) + ": " + word(percent) + ".");
        });
        terminal.line("  Below " + share(GOOD) + " a test is held to be good, up to " + share(USABLE)
                + " usable with care (AIAG MSA, 4th edition, from memory).");
        return ExitCode.PASSED.code();
    }

    private void row(RepeatedCheck data, String what, double range, double anova) {
        terminal.line(String.format("  %-34s %18s %18s", what, printed(data, range), printed(data, anova)));
    }

    private static String printed(RepeatedCheck data, double value) {
        return new Quantity(value, data.unit()).printed(3);
    }

    private static String share(double percent) {
        return String.format(Locale.ROOT, percent < 10 ? "%.1f %%" : "%.0f %%", percent);
    }

    private static String word(double percent) {
        return percent < GOOD
                ? "good"
                : percent <= USABLE ? "usable with care" : "too much; the test must become better";
    }
}
