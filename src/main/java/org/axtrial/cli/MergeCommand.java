package org.axtrial.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.concurrent.Callable;
import org.axtrial.acceptance.MergedFolder;
import org.axtrial.acceptance.MergedRecord;
import org.axtrial.evidence.EvidenceLostException;
import org.axtrial.evidence.Manifest;
import org.axtrial.report.MergedPage;
import org.axtrial.signing.Trust;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Puts the packs of several runs on one machine together. */
@Command(
        name = "merge",
        mixinStandardHelpOptions = true,
        description = {
            "Puts the packs of several runs on one machine into one folder, from several computers too. Each pack stays whole,",
            "byte for byte, with its signatures. Tells every attempt at every trial, and how the acceptance stands by all of them.",
            "The order of the packs makes no difference. Merged folders can be merged again."
        },
        footer = {
            "",
            "Exit codes: 0 merged; 2 wrong use, or runs that do not belong together; 5 a pack does not verify, or two packs of",
            "one run differ. Nothing is left behind unless it is 0."
        })
final class MergeCommand implements Callable<Integer> {

    private final Terminal terminal;

    @Parameters(arity = "1..*", paramLabel = "FOLDER", description = "Folders of runs, or merged folders")
    private List<Path> folders = new ArrayList<>();

    @Option(
            names = {"-o", "--out"},
            required = true,
            paramLabel = "FOLDER",
            description = "New folder to write, outside of the packs")
    private Path out = Path.of("");

    MergeCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        Path target = out.toAbsolutePath().normalize();
        requireNew(target);
        List<Path> packs = new ArrayList<>();
        folders.forEach(folder -> packs.addAll(verified(folder)));
        SortedMap<String, Path> byRun = MergedFolder.byRun(packs);
        MergedRecord merged;
        try {
            merged = MergedFolder.record(List.copyOf(byRun.values()));
        } catch (IllegalArgumentException e) {
            throw new WrongUseException("These packs cannot be merged: " + e.getMessage());
        }
        write(target, byRun, merged);
        terminal.line(merged.state().printed() + (merged.simulated() ? "  SIMULATED: nothing about a machine" : ""));
        merged.because().forEach(why -> terminal.line("  " + why));
        merged.differences().forEach(each -> terminal.line("  " + each));
        terminal.line("Merged " + byRun.size() + (byRun.size() == 1 ? " run: " : " runs: ") + out);
        return ExitCode.PASSED.code();
    }

    private void requireNew(Path target) {
        if (Files.exists(target, LinkOption.NOFOLLOW_LINKS)) {
            throw new WrongUseException("--out " + out + " is already there; give a new name");
        }
        for (Path folder : folders) {
            if (target.startsWith(folder.toAbsolutePath().normalize())) {
                throw new WrongUseException(
                        "--out " + out + " lies inside " + folder + ", which would no longer verify");
            }
        }
    }

    private static List<Path> verified(Path folder) {
        if (MergedFolder.is(folder)) {
            MergedVerification found = MergedVerification.of(folder, Trust.NONE);
            if (!found.verifies()) {
                throw broken(folder);
            }
            return MergedFolder.sources(folder);
        }
        RunFolder.require(folder);
        if (!PackVerification.of(folder, Trust.NONE).verifies()) {
            throw broken(folder);
        }
        return List.of(folder);
    }

    private static EvidenceLostException broken(Path folder) {
        return new EvidenceLostException(
                folder + " does not verify, so nothing was merged; \"axtrial verify " + folder + "\" tells why", null);
    }

    /** Everything is written beside the place and then moved, so that no half of it is ever taken for the whole. */
    private void write(Path target, SortedMap<String, Path> byRun, MergedRecord merged) {
        Path fresh = target.resolveSibling(target.getFileName() + ".part");
        if (Files.exists(fresh, LinkOption.NOFOLLOW_LINKS)) {
            throw new WrongUseException(fresh + " is left from a merge that was cut off; take it away first");
        }
        try {
            Files.createDirectories(fresh);
            MergedFolder.copy(byRun, fresh);
            Files.write(fresh.resolve(MergedRecord.FILE), merged.json());
            Files.write(fresh.resolve(MergedPage.FILE), MergedPage.html(merged));
            Files.write(fresh.resolve(MergedPage.PDF), MergedPage.pdf(merged));
            Manifest.write(fresh);
            Files.move(fresh, target);
        } catch (IOException e) {
            throw new EvidenceLostException(
                    "--out " + out + " cannot be written: " + e + ". Take " + fresh + " away before the next try", e);
        }
    }
}
