package org.axtrial.evidence;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;

/**
 * The results of a run as a {@link CsvTable}: one row for each check of each attempt, and one for each attempt without
 * checks and each trial without attempts.
 */
public final class ResultsCsv {

    private static final List<String> HEAD = List.of(
            "run",
            "axis",
            "script",
            "trial",
            "title",
            "clause",
            "attempt",
            "started (UTC)",
            "trial verdict",
            "attempt verdict",
            "check",
            "value",
            "bound",
            "unit",
            "U",
            "k",
            "lower limit",
            "upper limit",
            "margin",
            "unit of limits",
            "check verdict",
            "reason");

    private final CsvTable table;

    private ResultsCsv(Locale locale) {
        table = new CsvTable(locale, HEAD);
    }

    /**
     * Writes the table into a new file.
     *
     * @param locale decides the decimal sign, comma or point, and with it the separator, semicolon or comma
     * @throws EvidenceLostException if the file is already there or cannot be written
     */
    public static void write(RunRecord record, Locale locale, Path file) {
        try {
            Files.write(
                    file,
                    text(record, locale).getBytes(StandardCharsets.UTF_8),
                    StandardOpenOption.CREATE_NEW,
                    StandardOpenOption.WRITE);
        } catch (FileAlreadyExistsException e) {
            throw new EvidenceLostException(file + " is already there; give another name", e);
        } catch (IOException e) {
            throw new EvidenceLostException(file + " cannot be written: " + e, e);
        }
    }

    static String text(RunRecord record, Locale locale) {
        ResultsCsv csv = new ResultsCsv(locale);
        for (TrialRecord trial : record.trials()) {
            csv.trial(record.stamps().runId(), trial);
        }
        return csv.table.text();
    }

    private void trial(String run, TrialRecord trial) {
        List<String> first = new ArrayList<>();
        for (String text : List.of(run, trial.axis(), trial.script(), trial.trial(), trial.title(), trial.clause())) {
            first.add(CsvTable.words(text));
        }
        if (trial.attempts().isEmpty()) {
            List<String> row = new ArrayList<>(first);
            row.addAll(List.of("", "", CsvTable.words(trial.verdict().printed())));
            filled(row, trial.reason());
        }
        for (TrialRecord.Attempt attempt : trial.attempts()) {
            List<String> next = new ArrayList<>(first);
            next.add(String.valueOf(attempt.attempt()));
            next.add(CsvTable.words(attempt.startedAt().toString()));
            next.add(CsvTable.words(trial.verdict().printed()));
            next.add(CsvTable.words(attempt.verdict().printed()));
            if (attempt.checks().isEmpty()) {
                filled(new ArrayList<>(next), attempt.reason());
            }
            for (CheckRecord check : attempt.checks()) {
                List<String> row = new ArrayList<>(next);
                check(row, check);
                filled(row, check.reason());
            }
        }
    }

    private void check(List<String> row, CheckRecord check) {
        CheckRecord.Measured measured = check.measured();
        row.add(CsvTable.words(check.name()));
        row.add(table.number(measured.value()));
        row.add(CsvTable.words(measured.bound()));
        row.add(CsvTable.words(measured.unit().symbol()));
        row.add(table.number(OptionalDouble.of(measured.expandedUncertainty())));
        row.add(table.number(measured.coverageFactor()));
        row.add(table.number(check.criterion().lower()));
        row.add(table.number(check.criterion().upper()));
        row.add(table.number(check.margin()));
        row.add(CsvTable.words(check.criterion().unit().symbol()));
        row.add(CsvTable.words(check.verdict().printed()));
    }

    /** Every row has a cell for each head; the reason is the last one. */
    private void filled(List<String> row, String reason) {
        while (row.size() < HEAD.size() - 1) {
            row.add("");
        }
        row.add(CsvTable.words(reason));
        table.row(row);
    }
}
