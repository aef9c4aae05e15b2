package org.axtrial.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.axtrial.evidence.EvidenceLostException;
import org.axtrial.evidence.Snapshot;
import org.axtrial.evidence.SnapshotRecord.Difference;
import org.axtrial.quantity.Quantity;
import org.axtrial.site.ApprovedParameters;
import org.axtrial.site.SiteProblemsException;
import org.axtrial.survey.ParameterSurvey;
import picocli.CommandLine.Option;

/** The parameters that those of the drives are held against: an earlier snapshot or an approved set. */
final class ParameterBaseline {

    @Option(
            names = "--against",
            paramLabel = "FILE",
            description = "Hold the parameters against this snapshot or approved set (YAML or JSON)")
    private Optional<Path> file = Optional.empty();

    private Map<String, Map<String, Quantity>> values = Map.of();

    boolean isGiven() {
        return file.isPresent();
    }

    /** The file as it was named; empty if nothing is held against anything. */
    Optional<String> name() {
        return file.map(Path::toString);
    }

    /**
     * Reads the file, before any drive is contacted.
     *
     * @throws WrongUseException if it is not there
     * @throws SiteProblemsException with every problem of an approved set
     */
    void read() throws SiteProblemsException {
        if (file.isPresent()) {
            values = read(file.get());
        }
    }

    private static Map<String, Map<String, Quantity>> read(Path from) throws SiteProblemsException {
        if (!Files.isRegularFile(from)) {
            throw new WrongUseException(
                    "--against " + from + ": there is no such file. Name a snapshot of a pack, such as"
                            + " snapshot-as-found.json, or a file with approved parameters. Nothing has moved.");
        }
        try {
            return ParameterSurvey.values(Snapshot.read(from));
        } catch (EvidenceLostException notASnapshot) {
            return ApprovedParameters.read(from);
        }
    }

    /** Where a snapshot differs from the file; empty list without one. */
    List<Difference> differences(Snapshot snapshot) {
        return isGiven() ? ParameterSurvey.compare(ParameterSurvey.values(snapshot), values) : List.of();
    }

    /** Tells each difference in a line of its own. */
    static void tell(Terminal terminal, List<Difference> differences) {
        differences.forEach(difference -> terminal.line(String.format(
                "  %-8s %s.%s  %s",
                difference.kind(),
                difference.axis(),
                difference.parameter(),
                switch (difference.kind()) {
                    case CHANGED -> difference.was() + " → " + difference.is();
                    case ADDED -> difference.is();
                    case MISSING -> difference.was();
                })));
    }
}
