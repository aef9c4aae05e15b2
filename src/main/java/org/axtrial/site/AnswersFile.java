package org.axtrial.site;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.axtrial.quantity.NearMiss;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.axtrial.quantity.WrittenNumber;
import org.axtrial.quantity.WrittenNumber.Decimal;
import org.axtrial.quantity.WrittenNumber.Shape;

/**
 * A file of answers that were written down beforehand, readings among them: YAML, or a table if its name ends in {@code .csv}. Whether its
 * numbers have a decimal point or a decimal comma is told from the file as a whole; what could be read either way is
 * refused.
 */
public final class AnswersFile {

    static final List<String> KEYS = List.of(
            "kind", "trial", "axis", "name", "value", "unit", "temperature", "by", "outcome", "reason", "attempt");
    private static final List<String> NUMBERS = List.of("value", "temperature");
    private static final int LINES_TOLD = 8;

    private final Path file;
    private final Problems problems;
    private final List<AnswerRow> rows;

    private AnswersFile(Path file, Problems problems, List<AnswerRow> rows) {
        this.file = file;
        this.problems = problems;
        this.rows = rows;
    }

    /**
     * Reads and checks a file.
     *
     * @param misfit why an answer is for nothing that the run has; empty if it fits
     * @throws AnswersProblemsException with everything that is wrong
     */
    public static Answers load(Path file, Function<Answers.Target, Optional<String>> misfit)
            throws AnswersProblemsException {
        Problems problems = new Problems();
        boolean table = file.toString().toLowerCase(Locale.ROOT).endsWith(".csv");
        List<AnswerRow> rows = table ? AnswersInCsv.read(file, problems) : AnswersInYaml.read(file, problems);
        Answers answers = new AnswersFile(file, problems, rows).answers(misfit);
        if (!problems.isEmpty()) {
            throw new AnswersProblemsException(problems.sorted());
        }
        return answers;
    }

    private Answers answers(Function<Answers.Target, Optional<String>> misfit) {
        Optional<Decimal> decimal = decimal();
        List<GivenAnswer> readings = new ArrayList<>();
        List<PersonAnswer> people = new ArrayList<>();
        Map<List<String>, Integer> lines = new HashMap<>();
        for (AnswerRow row : rows) {
            Optional<AnswerKind> kind = kind(row);
            OptionalInt attempt = kind.map(of -> attempt(row, of)).orElse(OptionalInt.empty());
            if (attempt.isEmpty() || !complete(row, kind.get(), attempt.getAsInt(), misfit, lines)) {
                continue;
            }
            if (kind.get() == AnswerKind.READING) {
                reading(row, attempt.getAsInt(), decimal).ifPresent(readings::add);
            } else {
                person(row, kind.get(), attempt.getAsInt()).ifPresent(people::add);
            }
        }
        return new Answers(readings, people);
    }

    private Optional<AnswerKind> kind(AnswerRow row) {
        Optional<AnswerRow.Cell> cell = row.cell("kind");
        if (cell.isEmpty()) {
            return Optional.of(AnswerKind.READING);
        }
        Optional<AnswerKind> kind = AnswerKind.of(cell.get().text());
        if (kind.isEmpty()) {
            problem(
                    row,
                    cell.get().place(),
                    "unknown kind \"" + cell.get().text() + "\"; "
                            + NearMiss.hintOrAll(cell.get().text(), AnswerKind.words()));
        }
        return kind;
    }

    /** The attempt that a row is for; empty if it is none, which is told. */
    private OptionalInt attempt(AnswerRow row, AnswerKind kind) {
        Optional<AnswerRow.Cell> cell = row.cell("attempt");
        if (cell.isEmpty()) {
            return OptionalInt.of(kind.firstAttempt());
        }
        String text = cell.get().text();
        if (text.matches("[1-9]\\d?") && Integer.parseInt(text) >= kind.firstAttempt()) {
            return OptionalInt.of(Integer.parseInt(text));
        }
        problem(
                row,
                cell.get().place(),
                "attempt is \"" + text + "\"; expected a whole number from " + kind.firstAttempt() + " to 99");
        return OptionalInt.empty();
    }

    /** Whether a row has what its kind needs and nothing else, and is for something that the run has, once. */
    private boolean complete(
            AnswerRow row,
            AnswerKind kind,
            int attempt,
            Function<Answers.Target, Optional<String>> misfit,
            Map<List<String>, Integer> lines) {
        List<String> missing =
                kind.needed().stream().filter(key -> row.cell(key).isEmpty()).toList();
        if (!missing.isEmpty()) {
            problem(row, row.place(), "missing: " + String.join(", ", missing));
        }
        KEYS.stream()
                .filter(key -> !kind.knows(key))
                .forEach(key -> row.cell(key)
                        .ifPresent(cell ->
                                problem(row, cell.place(), "an answer of the kind " + kind.word() + " has no " + key)));
        if (!missing.isEmpty()) {
            return false;
        }
        misfit.apply(new Answers.Target(text(row, "trial"), text(row, "axis")))
                .ifPresent(why -> problem(row, row.place(), why));
        List<String> which = List.of(
                kind.word(), text(row, "trial"), text(row, "axis"), text(row, "name"), Integer.toString(attempt));
        Integer first = lines.putIfAbsent(which, row.place().line());
        if (first != null) {
            problem(
                    row,
                    row.place(),
                    (kind == AnswerKind.RETEST ? "the re-test" : "\"" + text(row, "name") + "\"") + " of "
                            + text(row, "trial") + " on " + text(row, "axis")
                            + (attempt > 1 ? ", attempt " + attempt + "," : "") + " is answered already in line "
                            + first);
        }
        return true;
    }

    private Optional<GivenAnswer> reading(AnswerRow row, int attempt, Optional<Decimal> decimal) {
        Optional<Unit> unit = row.cell("unit").flatMap(cell -> unit(row, cell));
        OptionalDouble value = number(row, "value", decimal);
        OptionalDouble temperature = number(row, "temperature", decimal);
        if (unit.isEmpty()
                || value.isEmpty()
                || (temperature.isEmpty() && row.cell("temperature").isPresent())) {
            return Optional.empty();
        }
        return Optional.of(new GivenAnswer(
                text(row, "trial"),
                text(row, "axis"),
                text(row, "name"),
                new Quantity(value.getAsDouble(), unit.get()),
                temperature,
                text(row, "by"),
                attempt,
                row.place().line()));
    }

    private Optional<PersonAnswer> person(AnswerRow row, AnswerKind kind, int attempt) {
        boolean unsaid = kind == AnswerKind.WITNESS && row.cell("by").isEmpty();
        String outcome =
                row.cell("outcome").map(AnswerRow.Cell::text).orElse(unsaid ? kind.negative() : kind.positive());
        boolean positive = outcome.equals(kind.positive());
        String by = text(row, "by");
        String reason = text(row, "reason");
        if (!positive && !outcome.equals(kind.negative())) {
            problem(
                    row,
                    row.place(),
                    "outcome is \"" + outcome + "\"; it is \"" + kind.positive() + "\" or \"" + kind.negative() + "\"");
        } else if (positive && by.isEmpty() && kind.knows("by") && kind != AnswerKind.OPERATE) {
            problem(row, row.place(), "missing: by; a " + kind.word() + " point needs the name of the person");
        } else if (!by.isEmpty() && kind != AnswerKind.OPERATE && !PersonName.isFull(by)) {
            problem(row, row.place(), "by is \"" + by + "\"; it is the " + PersonName.EXPECTED);
        } else if (!positive && reason.isEmpty() && kind.knows("reason")) {
            problem(row, row.place(), "missing: reason; say why it is " + kind.negative());
        } else {
            return Optional.of(new PersonAnswer(
                    kind,
                    text(row, "trial"),
                    text(row, "axis"),
                    text(row, "name"),
                    positive,
                    by,
                    reason,
                    attempt,
                    row.place().line()));
        }
        return Optional.empty();
    }

    private static String text(AnswerRow row, String key) {
        return row.cell(key).map(AnswerRow.Cell::text).orElse("");
    }

    private Optional<Unit> unit(AnswerRow row, AnswerRow.Cell cell) {
        Optional<Unit> unit = Unit.of(cell.text());
        if (unit.isEmpty()) {
            problem(
                    row,
                    cell.place(),
                    "unknown unit \"" + cell.text() + "\"; "
                            + NearMiss.hintOrAll(
                                    cell.text(),
                                    Arrays.stream(Unit.values())
                                            .map(Unit::symbol)
                                            .toList()));
        }
        return unit;
    }

    /** Empty if there is none, or if something has been told about it. */
    private OptionalDouble number(AnswerRow row, String key, Optional<Decimal> decimal) {
        Optional<AnswerRow.Cell> cell = row.cell(key);
        if (cell.isEmpty()) {
            return OptionalDouble.empty();
        }
        String text = cell.get().text();
        if (shape(cell.get()) == Shape.NONE) {
            problem(
                    row,
                    cell.get().place(),
                    key + " is \"" + text + "\"; expected a number without unit, such as 12.345");
            return OptionalDouble.empty();
        }
        if (decimal.isEmpty()) {
            return OptionalDouble.empty();
        }
        return WrittenNumber.read(text, cell.get().plain() ? Decimal.POINT : decimal.get())
                .map(OptionalDouble::of)
                .orElse(OptionalDouble.empty());
    }

    /** A number by the rules of YAML has a decimal point whatever it looks like. */
    private static Shape shape(AnswerRow.Cell cell) {
        Shape shape = WrittenNumber.shape(cell.text());
        return cell.plain() && shape == Shape.AMBIGUOUS ? Shape.POINT : shape;
    }

    /** The decimal sign of the file as a whole; empty if that has been refused. */
    private Optional<Decimal> decimal() {
        Map<Shape, List<AnswerRow.Cell>> byShape = rows.stream()
                .flatMap(row -> NUMBERS.stream().flatMap(key -> row.cell(key).stream()))
                .collect(Collectors.groupingBy(AnswersFile::shape));
        List<AnswerRow.Cell> points = byShape.getOrDefault(Shape.POINT, List.of());
        List<AnswerRow.Cell> commas = byShape.getOrDefault(Shape.COMMA, List.of());
        List<AnswerRow.Cell> open = byShape.getOrDefault(Shape.AMBIGUOUS, List.of());
        if (!points.isEmpty() && !commas.isEmpty()) {
            problems.add(
                    file,
                    "",
                    commas.get(0).place(),
                    "the file has numbers with a decimal point (" + lines(points) + ") and with a decimal comma ("
                            + lines(commas) + "); write all of them in one way");
            return Optional.empty();
        }
        if (points.isEmpty() && commas.isEmpty() && !open.isEmpty()) {
            problems.add(
                    file,
                    "",
                    open.get(0).place(),
                    "nothing in the file tells whether its numbers have a decimal"
                            + " point or a decimal comma (" + lines(open) + "): for \""
                            + open.get(0).text() + "\" "
                            + WrittenNumber.bothWays(open.get(0).text()));
            return Optional.empty();
        }
        return Optional.of(commas.isEmpty() ? Decimal.POINT : Decimal.COMMA);
    }

    private static String lines(List<AnswerRow.Cell> cells) {
        List<String> lines = cells.stream()
                .map(cell -> Integer.toString(cell.place().line()))
                .distinct()
                .toList();
        return (lines.size() == 1 ? "line " : "lines ")
                + lines.stream().limit(LINES_TOLD).collect(Collectors.joining(", "))
                + (lines.size() > LINES_TOLD ? " …" : "");
    }

    private void problem(AnswerRow row, YamlPlace place, String message) {
        problems.add(file, row.path(), place, message);
    }
}
