package org.axtrial.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.axtrial.acceptance.MergedFolder;
import org.axtrial.evidence.EvidenceLostException;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.RunTrend.LeftOut;
import org.axtrial.evidence.Sha256;
import org.axtrial.evidence.Trending;
import org.axtrial.signing.Trust;

/**
 * The runs in some folders.
 *
 * @param runs those that verify
 * @param leftOut folders that do not count, with the reason
 * @param broken whether one of them does not verify
 */
record FoundRuns(List<Trending.Given> runs, List<LeftOut> leftOut, boolean broken) {

    FoundRuns {
        runs = List.copyOf(runs);
        leftOut = List.copyOf(leftOut);
    }

    /**
     * Looks for runs: folders of runs, merged folders, and folders that hold such ones.
     *
     * @throws WrongUseException if a folder is none of these
     */
    static FoundRuns in(List<Path> folders) {
        Search search = new Search();
        folders.forEach(search::take);
        return new FoundRuns(search.runs, search.leftOut, search.broken);
    }

    private static final class Search {

        private final List<Trending.Given> runs = new ArrayList<>();
        private final List<LeftOut> leftOut = new ArrayList<>();
        private boolean broken;

        private void take(Path folder) {
            if (isEvidence(folder)) {
                evidence(folder);
                return;
            }
            if (!Files.isDirectory(folder)) {
                RunFolder.require(folder);
            }
            List<Path> inside = inside(folder);
            if (inside.isEmpty()) {
                throw new WrongUseException(folder + " holds no folder of a run; name the folder of a run, a merged"
                        + " folder, or one that holds such folders, for example reports");
            }
            inside.forEach(this::evidence);
        }

        private static boolean isEvidence(Path folder) {
            return Files.isDirectory(folder)
                    && (Files.exists(folder.resolve("journal.jsonl")) || MergedFolder.is(folder));
        }

        private static List<Path> inside(Path folder) {
            try (Stream<Path> all = Files.list(folder)) {
                return all.filter(Search::isEvidence).sorted().toList();
            } catch (IOException e) {
                throw new EvidenceLostException(folder + " cannot be read: " + e, e);
            }
        }

        private void evidence(Path folder) {
            try {
                if (MergedFolder.is(folder)) {
                    if (MergedVerification.of(folder, Trust.NONE).verifies()) {
                        for (Path source : MergedFolder.sources(folder)) {
                            keep(source);
                        }
                    } else {
                        refuse(folder, "does not verify; \"axtrial verify " + folder + "\" tells why");
                    }
                } else if (!Files.isRegularFile(folder.resolve("record.json"))) {
                    refuse(folder, "is not finished; \"axtrial report " + folder + "\" finishes it");
                } else if (PackVerification.ofValues(folder, Trust.NONE).verifies()) {
                    keep(folder);
                } else {
                    refuse(folder, "does not verify; \"axtrial verify " + folder + "\" tells why");
                }
            } catch (IOException | EvidenceLostException e) {
                refuse(folder, "cannot be read: " + e.getMessage());
            }
        }

        private void keep(Path pack) throws IOException {
            runs.add(new Trending.Given(pack.toString(), RunRecord.read(pack), Sha256.of(pack.resolve("record.json"))));
        }

        private void refuse(Path folder, String reason) {
            leftOut.add(new LeftOut(folder.toString(), reason));
            broken = true;
        }
    }
}
