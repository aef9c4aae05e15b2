package org.axtrial.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.axtrial.engine.SiteSession;
import org.axtrial.evidence.EvidenceLostException;
import org.axtrial.evidence.PackFolder;
import org.axtrial.evidence.PackProblem;
import org.axtrial.evidence.RunRecord;
import org.axtrial.report.HtmlReport;
import org.axtrial.report.PdfPrinter.Paper;
import org.axtrial.report.PdfReport;

/** The reports of a pack held against what this program makes of its record and traces. */
final class RemadeReports {

    /** @param isProblem false if another version made the pack, so that the difference proves nothing */
    record Difference(boolean isProblem, PackProblem what) {}

    private interface Maker {
        Optional<PackProblem> compare() throws IOException;
    }

    private RemadeReports() {}

    /** What differs, for each report. */
    static List<Difference> differences(Path folder, RunRecord record) {
        List<Difference> differences = new ArrayList<>();
        // The print takes longest to make, so its printer is loaded while the page is made.
        PdfReport.prepare();
        differences.addAll(page(folder, record));
        // A pack whose manifest names no print has none that could differ.
        if (Files.exists(folder.resolve(PdfReport.FILE))) {
            difference(record, PdfReport.FILE, () -> pdf(folder, record)).ifPresent(differences::add);
        }
        return differences;
    }

    /** What differs of the page alone. */
    static List<Difference> page(Path folder, RunRecord record) {
        return difference(record, HtmlReport.FILE, () -> html(folder, record)).stream()
                .toList();
    }

    private static Optional<Difference> difference(RunRecord record, String file, Maker maker) {
        try {
            return maker.compare()
                    .map(problem -> record.setup().tool().equals(SiteSession.TOOL)
                            ? new Difference(true, problem)
                            : new Difference(
                                    false,
                                    PackProblem.otherVersion(
                                            file, record.setup().tool())));
        } catch (IOException | EvidenceLostException e) {
            return Optional.of(new Difference(true, new PackProblem(file, "cannot be checked: " + e.getMessage())));
        }
    }

    private static Optional<PackProblem> html(Path folder, RunRecord record) throws IOException {
        byte[] found = PackFolder.read(folder, HtmlReport.FILE);
        return PackProblem.remade(HtmlReport.FILE, HtmlReport.bytes(folder, record), found);
    }

    /** Whoever made the report anew may have asked for another paper than the run did; either is what the record says. */
    private static Optional<PackProblem> pdf(Path folder, RunRecord record) throws IOException {
        byte[] found = PackFolder.read(folder, PdfReport.FILE);
        Paper asked = PdfReport.paper(record);
        Optional<PackProblem> difference =
                PackProblem.remade(PdfReport.FILE, PdfReport.bytes(folder, record, asked), found);
        boolean onOther = difference.isPresent()
                && Arrays.stream(Paper.values())
                        .filter(paper -> paper != asked)
                        .anyMatch(paper -> Arrays.equals(PdfReport.bytes(folder, record, paper), found));
        return onOther ? Optional.empty() : difference;
    }
}
