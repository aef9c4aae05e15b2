package org.axtrial.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import org.axtrial.evidence.EvidenceLostException;
import org.axtrial.evidence.RunTrend;
import org.axtrial.evidence.TrendCsv;
import org.axtrial.evidence.Trending;
import org.axtrial.report.PdfPrinter.Paper;
import org.axtrial.report.TrendPage;
import org.axtrial.report.TrendWords;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Follows the values of an axis over many runs. */
@Command(
        name = "trend",
        mixinStandardHelpOptions = true,
        description = {
            "Follows every check of an axis over the runs of one machine, in order of time.",
            "",
            "Shows values with uncertainty, limits, control limits, and signs of drift, in",
            "trend.html, trend.pdf, trend.csv and trend.json. Nothing moves; packs are only",
            "read. One that does not verify, and a run of another machine, is left out and",
            "named."
        },
        footer = {
            "",
            "Exit codes: 0 no check shows a sign of drift; 2 wrong use, or fewer than",
            "two runs; 3 a check does, or a pack was left out that does not verify."
        })
final class TrendCommand implements Callable<Integer> {

    private final Terminal terminal;

    @Parameters(
            arity = "1..*",
            paramLabel = "FOLDER",
            description = "Folders of runs, merged folders, or folders that hold such ones, for example reports")
    private List<Path> folders = new ArrayList<>();

    @Option(names = "--axis", paramLabel = "NAME", description = "Only this axis; several may be given. By default all")
    private List<String> axes = new ArrayList<>();

    @Option(names = "--out", paramLabel = "DIR", description = "New folder to write, by default reports/trend-LASTRUN")
    private Optional<Path> out = Optional.empty();

    @Option(
            names = "--paper",
            paramLabel = "SIZE",
            defaultValue = "A4",
            converter = PaperOption.class,
            description = "Paper that trend.pdf is laid out for: A4 or Letter. Default: ${DEFAULT-VALUE}")
    private Paper paper = Paper.A4;

    @Option(
            names = "--locale",
            paramLabel = "TAG",
            description =
                    "Decimal sign and separator of trend.csv as used there, for example de-DE. Default: ${DEFAULT-VALUE}")
    private String locale = TableLocale.DEFAULT;

    TrendCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        out.ifPresent(this::requireOutside);
        Locale known = TableLocale.of(locale);
        FoundRuns found = FoundRuns.in(folders);
        RunTrend trend;
        try {
            trend = Trending.of(
                    found.runs(), found.leftOut(), axes.stream().distinct().toList());
        } catch (IllegalArgumentException e) {
            throw new WrongUseException(String.valueOf(e.getMessage()));
        }
        Path folder = out.orElse(Path.of(
                "reports", "trend-" + trend.runs().get(trend.runs().size() - 1).runId()));
        requireNew(folder);
        write(folder, trend, known);
        print(trend, folder);
        boolean drifts = trend.series().stream().anyMatch(RunTrend.Series::flagged);
        return (drifts || found.broken() ? ExitCode.NOT_PROVEN : ExitCode.PASSED).code();
    }

    private static void requireNew(Path folder) {
        if (Files.exists(folder)) {
            throw new WrongUseException(folder + " is already there; give a new name with --out");
        }
    }

    private void requireOutside(Path folder) {
        requireNew(folder);
        Path target = folder.toAbsolutePath().normalize();
        for (Path each = target; each != null; each = each.getParent()) {
            if (Files.exists(each.resolve("manifest.json"))) {
                throw new WrongUseException(
                        "--out " + folder + " lies inside " + each + ", which would no longer verify");
            }
        }
    }

    private void write(Path folder, RunTrend trend, Locale known) {
        // Made before anything is written, so that a page that cannot be made leaves nothing behind.
        byte[] page = TrendPage.html(trend);
        byte[] print = TrendPage.pdf(trend, paper);
        try {
            Files.createDirectories(folder);
            Files.write(folder.resolve(RunTrend.FILE), trend.json());
            Files.write(folder.resolve(TrendPage.FILE), page);
            Files.write(folder.resolve(TrendPage.PDF), print);
            Files.writeString(folder.resolve(TrendCsv.FILE), TrendCsv.text(trend, known));
        } catch (IOException e) {
            throw new EvidenceLostException(folder + " cannot be written: " + e, e);
        }
    }

    private void print(RunTrend trend, Path folder) {
        terminal.line("Trend of " + String.join(", ", trend.axes()) + (trend.simulated() ? "  SIMULATED" : ""));
        TrendWords.sentences(trend).forEach(sentence -> terminal.line("  " + sentence));
        Stream.concat(
                        trend.leftOut().stream().map(each -> "Left out: " + each.what() + " " + each.reason()),
                        trend.conditions().stream())
                .forEach(line -> terminal.line("  " + line));
        trend.series().stream().filter(RunTrend.Series::flagged).forEach(series -> {
            terminal.line("  " + TrendWords.name(series) + ": " + TrendWords.finding(series));
            TrendWords.findings(series).forEach(line -> terminal.line("    " + line));
        });
        terminal.line("Trend: " + folder.resolve(TrendPage.FILE));
    }
}
