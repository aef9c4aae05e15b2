package org.axtrial.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.axtrial.engine.SiteSession;
import org.axtrial.evidence.EarlierRun;
import org.axtrial.evidence.EvidencePack;
import org.axtrial.evidence.RunEvent;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.RunSelection;
import org.axtrial.evidence.Sha256;
import org.axtrial.evidence.TrialRecord;
import org.axtrial.measure.Verdict;
import org.axtrial.quantity.NearMiss;
import org.axtrial.site.Site;
import org.axtrial.site.SiteAxis;
import picocli.CommandLine.Option;

/** Trials of an earlier run that are tried again in a run of their own. The earlier pack is only read. */
final class RetestOf {

    @Option(
            names = "--retest-of",
            paramLabel = "RUN-FOLDER",
            description =
                    "Try again what did not pass in that run; its pack stays as it is. Needs --reason, the same site file"
                            + " and the same scripts; what changed in them is recorded")
    private Optional<Path> folder = Optional.empty();

    @Option(names = "--reason", paramLabel = "TEXT", description = "Why the trials of --retest-of are tried again")
    private String reason = "";

    @Option(
            names = "--only",
            split = ",",
            paramLabel = "TRIAL",
            description = "Of --retest-of only these trials, by id, whether they passed or not; several with commas")
    private List<String> only = List.of();

    private Optional<EarlierRun> earlier = Optional.empty();

    /**
     * Chooses the trials that are tried again.
     *
     * @throws WrongUseException if the reason is missing, the folder holds no finished run or a trial is not there any more
     * @throws ZeroTrialsException if every trial of the earlier run had passed
     */
    SiteSession.Scripts of(SiteSession.Scripts scripts, Site site) {
        if (folder.isEmpty()) {
            if (!reason.isEmpty() || !only.isEmpty()) {
                throw new WrongUseException("--reason and --only belong to --retest-of, which names the earlier run."
                        + " Nothing has moved.");
            }
            return scripts;
        }
        if (reason.isBlank()) {
            throw new WrongUseException("A trial is not tried again without a reason: say with --reason what was found"
                    + " and mended. Nothing has moved.");
        }
        if (scripts.selection().isPresent()) {
            throw new WrongUseException("--retest-of chooses the trials itself; name some with --only, and leave out"
                    + " --after, --axis, --tag and --clause. Nothing has moved.");
        }
        Path record = folder.get().resolve("record.json");
        if (!Files.isRegularFile(record)) {
            throw new WrongUseException(
                    folder.get() + " holds no record.json, so it is not the folder of a finished run;"
                            + " if the run was cut off, finish it first: axtrial report " + folder.get());
        }
        RunRecord before = RunRecord.read(folder.get());
        List<TrialRecord> again = again(before);
        List<RunSelection.Picked> picked = new ArrayList<>();
        List<EarlierRun.Tried> tried = new ArrayList<>();
        List<String> gone = new ArrayList<>();
        for (TrialRecord trial : again) {
            if (scripts.trials().stream()
                            .noneMatch(now -> now.script().equals(trial.script())
                                    && now.id().equals(trial.trial())
                                    && now.isFor(trial.axis()))
                    || site.axes().stream().noneMatch(axis -> axis.name().equals(trial.axis()))) {
                gone.add(trial.trial() + " on " + trial.axis() + " (" + trial.script() + ")");
                continue;
            }
            int attempts = trial.attempts().size()
                    + before.setup()
                            .earlier()
                            .flatMap(first -> first.of(trial))
                            .map(EarlierRun.Tried::attempts)
                            .orElse(0);
            EarlierRun.Tried one = new EarlierRun.Tried(
                    trial.script(), trial.trial(), trial.axis(), attempts, trial.verdict(), trial.reason());
            tried.add(one);
            picked.add(new RunSelection.Picked(
                    trial.script(),
                    trial.trial(),
                    trial.axis(),
                    "re-test, was " + trial.verdict().printed() + " in run "
                            + before.stamps().runId()));
        }
        if (!gone.isEmpty()) {
            throw new WrongUseException(
                    "Not to be tried again here, because site or scripts no longer have it: " + String.join("; ", gone)
                            + ". Name the site file and scripts of the earlier run. Nothing has moved.");
        }
        earlier = Optional.of(
                new EarlierRun(before.stamps().runId(), hash(record), reason, tried, changes(before, site, scripts)));
        return scripts.chosen(selection(scripts, site, before, picked)).retesting(earlier);
    }

    private List<TrialRecord> again(RunRecord before) {
        List<String> ids =
                before.trials().stream().map(TrialRecord::trial).distinct().toList();
        List<String> unknown = only.stream().filter(id -> !ids.contains(id)).toList();
        if (!unknown.isEmpty()) {
            throw new WrongUseException("--only: run " + before.stamps().runId() + " has no trial "
                    + String.join(
                            "; no trial ",
                            unknown.stream()
                                    .map(id -> "\"" + id + "\"" + NearMiss.hint(id, ids))
                                    .toList())
                    + "; it has " + String.join(", ", ids) + ". Nothing has moved.");
        }
        List<TrialRecord> again = before.trials().stream()
                .filter(trial -> only.isEmpty()
                        ? trial.verdict() != Verdict.PASS && trial.verdict() != Verdict.NOT_APPLICABLE
                        : only.contains(trial.trial()))
                .toList();
        if (again.isEmpty()) {
            throw new ZeroTrialsException(
                    "Zero trials: nothing in run " + before.stamps().runId()
                            + " is left to be tried again; name trials with --only to try them all the same. Nothing has"
                            + " moved, and no pack is left",
                    List.of());
        }
        return again;
    }

    private static RunSelection selection(
            SiteSession.Scripts scripts, Site site, RunRecord before, List<RunSelection.Picked> picked) {
        List<RunSelection.LeftOut> leftOut = new ArrayList<>();
        scripts.trials()
                .forEach(trial -> site.axes().stream()
                        .map(SiteAxis::name)
                        .filter(trial::isFor)
                        .filter(axis -> picked.stream()
                                .noneMatch(one -> one.script().equals(trial.script())
                                        && one.trial().equals(trial.id())
                                        && one.axis().equals(axis)))
                        .forEach(axis -> leftOut.add(
                                new RunSelection.LeftOut(trial.script(), trial.id(), axis, trial.title()))));
        return new RunSelection(
                List.of("re-test of run " + before.stamps().runId()), picked, leftOut, List.of(), List.of());
    }

    /** How site file, drive descriptions and scripts differ from those that the earlier run kept. */
    private static List<String> changes(RunRecord before, Site site, SiteSession.Scripts scripts) {
        Map<String, Path> now = SiteSession.files(site, scripts);
        List<String> changes = new ArrayList<>();
        String run = "run " + before.stamps().runId();
        for (RunRecord.PackedFile file : before.files()) {
            Path path = now.remove(file.name());
            if (path == null) {
                if (!file.name().startsWith("answers/")) {
                    changes.add(file.name() + " of " + run + " is not used now");
                }
            } else if (!hash(path).equals(file.sha256())) {
                changes.add(file.name() + " has changed since " + run + ": SHA-256 " + file.sha256() + " then, "
                        + hash(path) + " now");
            }
        }
        now.keySet().forEach(name -> changes.add(name + " was not used in " + run));
        return changes;
    }

    private static String hash(Path file) {
        try {
            return Sha256.of(file);
        } catch (IOException e) {
            throw new UncheckedIOException(file + " cannot be read", e);
        }
    }

    /** The earlier run, once the trials have been chosen; empty without one. */
    Optional<EarlierRun> earlier() {
        return earlier;
    }

    /** Tells what is tried again and what has changed meanwhile. */
    void tell(Terminal terminal) {
        earlier.ifPresent(run -> {
            terminal.line("Re-test of run " + run.runId() + ", record.json SHA-256 " + run.recordSha256());
            terminal.line("  Reason: " + run.reason());
            terminal.line(run.changes().isEmpty() ? "  Site file and scripts are the same" : "  Changed since:");
            run.changes().forEach(change -> terminal.line("  " + change));
        });
    }

    /** Puts the changes into the evidence as deviations, as soon as the run has begun there. */
    void record(EvidencePack pack) {
        pack.listen(event -> {
            if (event instanceof RunEvent.RunStarted started) {
                earlier.ifPresent(run -> run.changes()
                        .forEach(change ->
                                pack.accept(new RunEvent.Noted(started.at(), "Deviation of the re-test: " + change))));
            }
        });
    }
}
