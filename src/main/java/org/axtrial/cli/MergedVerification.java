package org.axtrial.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.axtrial.acceptance.MergedFolder;
import org.axtrial.acceptance.MergedRecord;
import org.axtrial.evidence.EvidenceLostException;
import org.axtrial.evidence.Manifest;
import org.axtrial.evidence.PackFolder;
import org.axtrial.evidence.PackProblem;
import org.axtrial.report.MergedPage;
import org.axtrial.signing.Trust;

/**
 * Everything that can be checked of a merged folder: its manifest, every pack inside with its own signatures, and that
 * record and reports follow from the packs.
 *
 * @param sources what was found of each pack, by name; a pack that cannot be looked at at all is only a problem
 * @param problems of the merged folder itself, and of packs that cannot be looked at
 */
record MergedVerification(Map<String, PackVerification> sources, List<PackProblem> problems) {

    static MergedVerification of(Path folder, Trust trust) {
        List<PackProblem> problems = new ArrayList<>();
        outer(folder, problems);
        Map<String, PackVerification> sources = new LinkedHashMap<>();
        List<Path> packs = MergedFolder.sources(folder);
        for (Path pack : packs) {
            String name = String.valueOf(pack.getFileName());
            try {
                PackVerification found = PackVerification.of(pack, trust);
                sources.put(name, found);
                found.pack()
                        .record()
                        .filter(record -> !record.stamps().runId().equals(name))
                        .ifPresent(record -> problems.add(new PackProblem(
                                MergedFolder.SOURCES + "/" + name,
                                "is run " + record.stamps().runId())));
            } catch (EvidenceLostException e) {
                problems.add(new PackProblem(MergedFolder.SOURCES + "/" + name, String.valueOf(e.getMessage())));
            }
        }
        follows(folder, packs, problems);
        return new MergedVerification(sources, problems);
    }

    private static void outer(Path folder, List<PackProblem> problems) {
        try {
            Manifest.verify(folder)
                    .forEach(each -> problems.add(new PackProblem(each.file(), each.kind() + ": " + each.detail())));
            // The manifest leaves these out, and nothing of a merged folder belongs there.
            PackFolder.list(folder).keySet().stream()
                    .filter(name -> name.startsWith(Manifest.SIGNATURES) || name.startsWith(Manifest.AFTER))
                    .forEach(name -> problems.add(new PackProblem(name, "ADDED: does not belong to merged runs")));
        } catch (EvidenceLostException | IOException e) {
            problems.add(new PackProblem(Manifest.FILE, String.valueOf(e.getMessage())));
        }
    }

    private static void follows(Path folder, List<Path> packs, List<PackProblem> problems) {
        try {
            MergedRecord merged = MergedFolder.record(packs);
            remade(folder, MergedRecord.FILE, merged.json(), problems);
            remade(folder, MergedPage.FILE, MergedPage.html(merged), problems);
            remade(folder, MergedPage.PDF, MergedPage.pdf(merged), problems);
        } catch (EvidenceLostException | IllegalArgumentException e) {
            problems.add(new PackProblem(MergedRecord.FILE, "cannot be made again: " + e.getMessage()));
        }
    }

    private static void remade(Path folder, String file, byte[] expected, List<PackProblem> problems) {
        try {
            PackProblem.remade(file, expected, PackFolder.read(folder, file)).ifPresent(problems::add);
        } catch (IOException e) {
            problems.add(new PackProblem(file, "cannot be checked: " + e.getMessage()));
        }
    }

    boolean verifies() {
        return problems.isEmpty() && sources.values().stream().allMatch(PackVerification::verifies);
    }

    /** What was found, the verdict in the last line. */
    List<String> lines(Path folder) {
        List<String> lines = new ArrayList<>();
        sources.forEach((name, found) -> {
            lines.addAll(
                    VerificationText.of(folder.resolve(MergedFolder.SOURCES).resolve(name), found));
            lines.add("");
        });
        lines.add("Merged folder " + folder + " with " + sources.size() + (sources.size() == 1 ? " run" : " runs"));
        problems.forEach(problem -> lines.add("  " + problem));
        sources.keySet().stream()
                .filter(name -> !Objects.requireNonNull(sources.get(name)).verifies())
                .forEach(name -> lines.add("  " + MergedFolder.SOURCES + "/" + name + ": does not verify, see above"));
        lines.add(verifies() ? "The merged folder VERIFIES." : "The merged folder DOES NOT VERIFY.");
        return lines;
    }
}
