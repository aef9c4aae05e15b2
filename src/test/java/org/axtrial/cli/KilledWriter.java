package org.axtrial.cli;

import java.nio.file.Path;
import java.util.List;
import org.axtrial.evidence.EvidencePack;
import org.axtrial.evidence.RunEvent;
import org.axtrial.evidence.SampleRun;

/** A program that records one check after another, and says so after each, until somebody kills it. */
final class KilledWriter {

    private static final int MOST = 100_000;

    private KilledWriter() {}

    public static void main(String[] arguments) {
        List<RunEvent> events = SampleRun.small();
        EvidencePack pack = EvidencePack.create(Path.of(arguments[0]), SampleRun.RUN_ID, List.of());
        events.subList(0, 4).forEach(pack::accept);
        for (int i = 1; i <= MOST; i++) {
            pack.accept(events.get(4));
            System.out.println(i);
        }
    }
}
