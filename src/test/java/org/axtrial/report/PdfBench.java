package org.axtrial.report;

import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import org.axtrial.evidence.EvidencePack;
import org.axtrial.evidence.RunRecord;

/**
 * How long {@code report.pdf} and {@code report.html} of a long run take, and how large they are. Arguments: trials for each
 * of three axes, repetitions. The first repetition is what a user waits for, since the program then does nothing twice.
 */
public final class PdfBench {

    private PdfBench() {}

    public static void main(String[] arguments) throws Exception {
        int trials = arguments.length > 0 ? Integer.parseInt(arguments[0]) : 17;
        int times = arguments.length > 1 ? Integer.parseInt(arguments[1]) : 4;
        Path pack = SamplePack.large(Files.createTempDirectory("axtrial-bench"), trials);
        RunRecord record = EvidencePack.recover(pack);
        System.out.printf(Locale.ROOT, "%d results on three axes, a plot and two checks each%n", 3 * trials);
        for (int i = 1; i <= times; i++) {
            measured("report.html", pack, () -> HtmlReport.write(pack, record));
            measured("report.pdf", pack, () -> PdfReport.write(pack, record, PdfPrinter.Paper.A4));
        }
    }

    private static void measured(String name, Path pack, Runnable work) throws Exception {
        long cpu = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
        long wall = System.nanoTime();
        work.run();
        System.out.printf(
                Locale.ROOT,
                "%-12s %6.2f s of which %6.2f s of processor time, %9d bytes%n",
                name,
                (System.nanoTime() - wall) * 1e-9,
                (ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() - cpu) * 1e-9,
                Files.size(pack.resolve(name)));
    }
}
