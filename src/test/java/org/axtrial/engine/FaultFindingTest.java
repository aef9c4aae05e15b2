package org.axtrial.engine;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.Collectors;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.TrialRecord;
import org.axtrial.measure.Verdict;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * The proof that the acceptance trials work: each fault of a simulated machine is found by at least one of them, and a
 * sound machine passes all. Makes the table of docs/fault-finding.md anew and holds the committed one against it; with
 * {@code -Dfaults.write=true} it writes the table instead.
 */
@Timeout(600)
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class FaultFindingTest {

    private static final Path DOCUMENT = Path.of("docs/fault-finding.md");
    private static final String BEGIN = "<!-- table begins -->\n";
    private static final String END = "<!-- table ends -->\n";
    private static final String SOUND = "none";

    /** The faults as the site file takes them, each on all three axes. */
    private static final List<String> FAULTS = List.of(
            "kind: wrong gear, factor: 10",
            "kind: wrong sign",
            "kind: detuned gains, positionGain: 30 %, speedGain: 100 %",
            "kind: detuned gains, positionGain: 100 %, speedGain: 15 %",
            "kind: noisy encoder, counts: 150",
            "kind: loose coupling, resonance: 12 Hz",
            "kind: backlash, angle: 3 deg",
            "kind: worn brake, holds: 20 %",
            "kind: more friction, factor: 2",
            "kind: encoder slip, angle: 4 deg, torque: 30 %",
            "kind: stuck switch, input: positive limit, active: true",
            "kind: stuck switch, input: positive limit, active: false",
            "kind: stuck switch, input: home, active: false",
            "kind: drive trip, code: 8976, after: 60 s",
            "kind: lost zero, counts: 10000");

    /**
     * The part of the library that looks at the machine; trials of paper, of people and of long work would find no more of
     * these faults and take long.
     */
    private static final String[] SCRIPTS = {
        "before-motion/inputs.js",
        "reference/enable.js",
        "reference/sense-and-scale.js",
        "reference/creep.js",
        "reference/homing.js",
        "reference/travel.js",
        "reference/hardware-limits.js",
        "positioning/lost-motion.js",
        "positioning/smallest-step.js",
        "dynamic/following.js",
        "dynamic/settling.js",
        "dynamic/speed.js",
        "dynamic/ripple.js",
        "stops/brake.js",
        "stops/enable-sequence.js",
        "endurance/friction.js"
    };

    private final Map<String, RunRecord> records = new LinkedHashMap<>();

    @BeforeAll
    void rehearse(@TempDir Path folder) throws Exception {
        ExecutorService workers =
                Executors.newFixedThreadPool(Runtime.getRuntime().availableProcessors());
        try {
            Map<String, Future<RunRecord>> runs = new LinkedHashMap<>();
            List<String> faults = new ArrayList<>(List.of(SOUND));
            faults.addAll(FAULTS);
            for (String fault : faults) {
                Path own = Files.createDirectory(folder.resolve("f" + runs.size()));
                runs.put(fault, workers.submit((Callable<RunRecord>) () -> rehearsal(own, fault)));
            }
            for (Map.Entry<String, Future<RunRecord>> run : runs.entrySet()) {
                records.put(run.getKey(), run.getValue().get());
            }
        } finally {
            workers.shutdownNow();
        }
    }

    private static RunRecord rehearsal(Path folder, String fault) throws Exception {
        String simulate = "    simulate:\n";
        return LibraryRun.rehearse(
                folder,
                site -> fault.equals(SOUND)
                        ? site
                        : site.replace(simulate, simulate + "      machineFaults: [{ " + fault + " }]\n"),
                SCRIPTS);
    }

    @Test
    void aSoundMachinePassesEveryTrial() {
        assertThat(record(SOUND).trials()).extracting(TrialRecord::verdict).containsOnly(Verdict.PASS);
    }

    @Test
    void everyFaultIsFound() {
        for (String fault : FAULTS) {
            assertThat(record(fault).verdict()).as(fault).isNotEqualTo(Verdict.PASS);
            assertThat(record(fault).exitCode()).as(fault).isNotZero();
        }
    }

    @Test
    void theCommittedTableIsThisOne() throws IOException {
        String document = Files.readString(DOCUMENT);
        int begin = document.indexOf(BEGIN) + BEGIN.length();
        int end = document.indexOf(END);
        if (Boolean.getBoolean("faults.write")) {
            Files.writeString(DOCUMENT, document.substring(0, begin) + table() + document.substring(end));
            return;
        }
        assertThat(document.substring(begin, end)).isEqualTo(table());
    }

    private RunRecord record(String fault) {
        RunRecord record = records.get(fault);
        if (record == null) {
            throw new AssertionError("not rehearsed: " + fault);
        }
        return record;
    }

    private String table() {
        Set<String> trials = record(SOUND).trials().stream()
                .map(TrialRecord::trial)
                .collect(Collectors.toCollection(LinkedHashSet::new));
        StringBuilder table = new StringBuilder("| fault | ")
                .append(String.join(" | ", trials))
                .append(" |\n|---|")
                .append("---|".repeat(trials.size()))
                .append('\n');
        records.forEach((fault, record) -> {
            Map<String, Verdict> worst = new TreeMap<>();
            record.trials().forEach(trial -> worst.merge(trial.trial(), trial.verdict(), Verdict::worse));
            table.append("| ").append(fault.replace("kind: ", "")).append(" | ");
            table.append(trials.stream()
                            .map(trial -> worst.getOrDefault(trial, Verdict.NOT_RUN))
                            .map(verdict -> verdict == Verdict.PASS ? "–" : verdict.printed())
                            .collect(Collectors.joining(" | ")))
                    .append(" |\n");
        });
        return table.toString();
    }
}
