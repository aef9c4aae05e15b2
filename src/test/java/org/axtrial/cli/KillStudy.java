package org.axtrial.cli;

import java.io.BufferedReader;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.PrintStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.axtrial.engine.SiteSession;
import org.axtrial.evidence.PackCheck;
import org.axtrial.evidence.RunRecord;

/**
 * Kills the demonstration run of the product at random moments, finishes each pack from its journal, and tells whether a
 * check that the terminal had told is missing in the record. It takes real time, so it is a study and no test: {@code java
 * -cp … org.axtrial.cli.KillStudy 100}, with the number of kills, from the folder of the project.
 */
final class KillStudy {

    /** A check as the terminal tells it: axis, trial, verdict, and after at least two blanks the name of the check. */
    private static final Pattern TOLD = Pattern.compile(" {2}(\\S+) +(\\S+) {4}(PASS|FAIL|INCONCLUSIVE)\\s+([^:]+):.*");

    /** What became of one killed run. */
    private record Outcome(int told, int missing, long recorded, boolean pack, boolean stopped, boolean verified) {}

    /** A kill comes at most so many ms after a line, longer than most lines are apart. */
    private static final int MOST_LATER = 400;

    private KillStudy() {}

    public static void main(String[] arguments) throws Exception {
        int kills = Integer.parseInt(arguments[0]);
        Path folder = Files.createTempDirectory("killed-runs");
        List<String> whole = Collections.synchronizedList(new ArrayList<>());
        runUntil(folder.resolve("whole"), Integer.MAX_VALUE, 0, whole);
        System.out.printf("a whole run tells %d lines; %d kills at random moments of it%n", whole.size(), kills);
        Random random = new Random(1701);
        List<Outcome> outcomes = new ArrayList<>();
        for (int i = 0; i < kills; i++) {
            int lines = random.nextInt(whole.size());
            long millis = random.nextInt(MOST_LATER);
            Path reports = folder.resolve("killed" + i);
            List<String> told = Collections.synchronizedList(new ArrayList<>());
            runUntil(reports, lines, millis, told);
            Outcome outcome = outcome(reports, told);
            System.out.printf("killed %d ms after line %d: %s%n", millis, lines, outcome);
            outcomes.add(outcome);
        }
        List<Outcome> packs = outcomes.stream().filter(Outcome::pack).toList();
        System.out.printf(
                "%d kills: %d before a pack was begun; of %d packs %d finished as STOPPED, %d verify; %d checks told, %d"
                        + " recorded, %d told checks missing%n",
                kills,
                kills - packs.size(),
                packs.size(),
                packs.stream().filter(Outcome::stopped).count(),
                packs.stream().filter(Outcome::verified).count(),
                packs.stream().mapToInt(Outcome::told).sum(),
                packs.stream().mapToLong(Outcome::recorded).sum(),
                outcomes.stream().mapToInt(Outcome::missing).sum());
    }

    /** Starts the demonstration run and kills it so many ms after it has told so many lines. */
    private static void runUntil(Path reports, int lines, long millis, List<String> told) throws Exception {
        Process program = new ProcessBuilder(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-cp",
                        System.getProperty("java.class.path"),
                        "-Dpolyglot.engine.WarnInterpreterOnly=false",
                        Main.class.getName(),
                        "run",
                        "--reports",
                        reports.toString())
                .redirectError(ProcessBuilder.Redirect.DISCARD)
                .start();
        CountDownLatch moment = new CountDownLatch(lines);
        Thread reader = new Thread(() -> {
            try (BufferedReader text =
                    new BufferedReader(new InputStreamReader(program.getInputStream(), StandardCharsets.UTF_8))) {
                for (String line = text.readLine(); line != null; line = text.readLine()) {
                    told.add(line);
                    moment.countDown();
                }
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        });
        reader.start();
        while (program.isAlive() && !moment.await(100, TimeUnit.MILLISECONDS)) {
            // The run goes on.
        }
        if (!program.waitFor(millis, TimeUnit.MILLISECONDS)) {
            // SIGKILL; nothing in the program runs after it.
            program.destroyForcibly();
        }
        program.waitFor();
        reader.join();
    }

    private static Outcome outcome(Path reports, List<String> terminal) throws IOException {
        List<String> told = terminal.stream()
                .map(TOLD::matcher)
                .filter(line -> line.matches())
                .map(line -> String.join(" | ", line.group(1), line.group(2), line.group(3), line.group(4)))
                .toList();
        Optional<Path> pack = pack(reports);
        if (pack.isEmpty()) {
            return new Outcome(told.size(), told.size(), 0, false, false, false);
        }
        PrintStream nowhere = new PrintStream(new ByteArrayOutputStream(), true, StandardCharsets.UTF_8);
        int report =
                Main.run(Terminal.on(nowhere, nowhere), "report", pack.get().toString());
        int verify =
                Main.run(Terminal.on(nowhere, nowhere), "verify", pack.get().toString());
        RunRecord record = RunRecord.read(pack.get());
        List<String> recorded = new ArrayList<>();
        record.trials()
                .forEach(trial -> trial.attempts()
                        .forEach(attempt -> attempt.checks()
                                .forEach(check -> recorded.add(String.join(
                                        " | ",
                                        trial.axis(),
                                        trial.trial(),
                                        String.valueOf(check.verdict()),
                                        check.name())))));
        long all = recorded.size();
        List<String> missing =
                told.stream().filter(check -> !recorded.remove(check)).toList();
        missing.forEach(check -> System.out.println("missing: " + check));
        boolean verified = verify != ExitCode.EVIDENCE_BROKEN.code()
                && PackCheck.of(pack.get(), SiteSession.TOOL).problems().isEmpty();
        return new Outcome(told.size(), missing.size(), all, true, report == ExitCode.STOPPED.code(), verified);
    }

    /** The pack, if the run had come as far as a journal. */
    private static Optional<Path> pack(Path reports) throws IOException {
        if (!Files.isDirectory(reports)) {
            return Optional.empty();
        }
        try (Stream<Path> packs = Files.list(reports)) {
            return packs.filter(folder -> Files.exists(folder.resolve("journal.jsonl")))
                    .findFirst();
        }
    }
}
