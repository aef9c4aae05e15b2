package org.axtrial.evidence;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.text.DecimalFormatSymbols;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;

/**
 * The results of a run as a table for spreadsheet programs: CSV (RFC 4180) in UTF-8 with a byte order mark, one row for
 * each check of each attempt, and one for each attempt without checks and each trial without attempts. Values are
 * unrounded.
 */
public final class ResultsCsv {

    private static final String BYTE_ORDER_MARK = "\uFEFF";

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

    private final char separator;
    private final char decimal;
    private final StringBuilder out = new StringBuilder(BYTE_ORDER_MARK);

    private ResultsCsv(Locale locale) {
        this.decimal = DecimalFormatSymbols.getInstance(locale).getDecimalSeparator() == ',' ? ',' : '.';
        this.separator = decimal == ',' ? ';' : ',';
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
        csv.row(HEAD.stream().map(csv::words).toList());
        for (TrialRecord trial : record.trials()) {
            csv.trial(record.stamps().runId(), trial);
        }
        return csv.out.toString();
    }

    private void trial(String run, TrialRecord trial) {
        List<String> first = new ArrayList<>();
        for (String text : List.of(run, trial.axis(), trial.script(), trial.trial(), trial.title(), trial.clause())) {
            first.add(words(text));
        }
        if (trial.attempts().isEmpty()) {
            List<String> row = new ArrayList<>(first);
            row.addAll(List.of("", "", words(trial.verdict().printed())));
            filled(row, trial.reason());
        }
        for (TrialRecord.Attempt attempt : trial.attempts()) {
            List<String> next = new ArrayList<>(first);
            next.add(String.valueOf(attempt.attempt()));
            next.add(words(attempt.startedAt().toString()));
            next.add(words(trial.verdict().printed()));
            next.add(words(attempt.verdict().printed()));
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
        row.add(words(check.name()));
        row.add(number(measured.value()));
        row.add(
                switch (measured.bound()) {
                    case EXACT -> "";
                    case AT_LEAST -> "at least";
                    case AT_MOST -> "at most";
                });
        row.add(words(measured.unit().symbol()));
        row.add(number(OptionalDouble.of(measured.expandedUncertainty())));
        row.add(number(measured.coverageFactor()));
        row.add(number(check.criterion().lower()));
        row.add(number(check.criterion().upper()));
        row.add(number(check.margin()));
        row.add(words(check.criterion().unit().symbol()));
        row.add(words(check.verdict().printed()));
    }

    /** Every row has a cell for each head; the reason is the last one. */
    private void filled(List<String> row, String reason) {
        while (row.size() < HEAD.size() - 1) {
            row.add("");
        }
        row.add(words(reason));
        row(row);
    }

    private void row(List<String> cells) {
        out.append(String.join(String.valueOf(separator), cells)).append("\r\n");
    }

    private String number(OptionalDouble value) {
        return value.isEmpty() ? "" : CanonicalJson.number(value.getAsDouble()).replace('.', decimal);
    }

    /**
     * A text as one cell. A spreadsheet program would work out a text that begins with one of these characters, so an
     * apostrophe goes before it.
     */
    private String words(String text) {
        String line = Json.wellFormed(text);
        String plain = line.replaceAll("[\\p{Cntrl}\u2028\u2029]+", " ");
        boolean first = !line.isEmpty() && "=+-@\t\r\n\uFF1D\uFF0B\uFF0D\uFF20".indexOf(line.charAt(0)) >= 0;
        boolean formula = first || plain.stripLeading().matches("[=+\\-@].*");
        String safe = formula ? "'" + plain : plain;
        boolean quoted = safe.indexOf('"') >= 0 || safe.indexOf(',') >= 0 || safe.indexOf(';') >= 0;
        return quoted ? "\"" + safe.replace("\"", "\"\"") + "\"" : safe;
    }
}
