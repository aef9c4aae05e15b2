package org.axtrial.script;

import java.time.Duration;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import org.axtrial.evidence.ScriptPlace;
import org.axtrial.quantity.Quantity;

/**
 * One trial as a script declares it.
 *
 * @param script file name under the scripts folder, with slashes
 * @param id unique in its script, fit for a file name
 * @param title what it proves
 * @param axes names of the axes it is for; empty for all
 * @param with names of the axes that move at once with the one on trial; usually none
 * @param clause requirement it answers; empty string if none
 * @param number its number in the catalogue of acceptance trials; empty if it has none
 * @param tags words by which it can be chosen
 * @param limits named limits with their defaults, in the order of the script
 * @param proves what is taken as proven once it has passed
 * @param limit longest time the trial may take
 * @param place where it is declared
 */
public record TrialDefinition(
        String script,
        String id,
        String title,
        Optional<List<String>> axes,
        List<String> with,
        String clause,
        OptionalInt number,
        List<String> tags,
        Map<String, Quantity> limits,
        Optional<Proof> proves,
        Duration limit,
        ScriptPlace place) {

    /** What a trial can be declared to prove, so that more is allowed afterwards. */
    public enum Proof {
        /** That an axis goes the right way and the right distance, by a move that is small and slow. */
        SENSE_AND_SCALE("sense and scale");

        private final String spelling;

        Proof(String spelling) {
            this.spelling = spelling;
        }

        /** As scripts spell it. */
        public String spelling() {
            return spelling;
        }
    }

    public TrialDefinition {
        axes = axes.map(List::copyOf);
        with = List.copyOf(with);
        tags = List.copyOf(tags);
        limits = Collections.unmodifiableMap(new LinkedHashMap<>(limits));
    }

    /** A trial of one axis without number, tags, named limits and proof. */
    public TrialDefinition(
            String script,
            String id,
            String title,
            Optional<List<String>> axes,
            String clause,
            Duration limit,
            ScriptPlace place) {
        this(
                script,
                id,
                title,
                axes,
                List.of(),
                clause,
                OptionalInt.empty(),
                List.of(),
                Map.of(),
                Optional.empty(),
                limit,
                place);
    }

    /** The default of a named limit. */
    public Optional<Quantity> limit(String name) {
        return Optional.ofNullable(limits.get(name));
    }

    /** Whether the trial is for that axis. */
    public boolean isFor(String axis) {
        return axes.isEmpty() || axes.get().contains(axis);
    }
}
