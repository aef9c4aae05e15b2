package org.axtrial.cli;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.axtrial.axis.Axis;

/**
 * The operator's word that real axes may move now. It is given anew in every run, axis by axis, by name. An axis that is
 * not armed is not moved, and its trials come out as BLOCKED.
 */
final class Arming {

    private static final List<String> CAUTIONS = List.of(
            "Before any axis moves:",
            "  - Nobody is inside the reach of the axes, and guards are closed.",
            "    An axis may start without warning.",
            "  - The emergency stop is within reach and has been tried.",
            "    This program and the network are no safety function.",
            "  - Hanging loads are held or propped; a brake has been proven",
            "    before the torque is taken away.",
            "  - A wrong direction or scale makes a runaway: the first motion is short,",
            "    slow and watched.",
            "  - Nobody else commands these drives.",
            "    Local rules, permits and licensed practice come first.");

    private final Terminal terminal;
    private final List<String> named;

    /**
     * Arming by the command line, or by asking.
     *
     * @param named axes armed on the command line; empty to ask
     */
    Arming(Terminal terminal, List<String> named) {
        this.terminal = terminal;
        this.named = named;
    }

    /**
     * Refuses what cannot be armed before anything is opened, so that no pack is begun for it.
     *
     * @param names the axes on trial, which are the only ones that may move
     * @throws WrongUseException if another axis is named, or nobody can be asked
     */
    void check(List<String> names) {
        if (named.isEmpty() && !terminal.isInteractive()) {
            throw new WrongUseException("Real axes must be armed in this run, and there is nobody to ask. Run it at a"
                    + " terminal, or name the axes: --arm " + String.join(",", names) + ". Nothing has moved.");
        }
        unknown(named, names).ifPresent(problem -> {
            throw new WrongUseException(problem + ". Nothing has moved.");
        });
    }

    private static Optional<String> unknown(List<String> typed, List<String> names) {
        List<String> strangers =
                typed.stream().filter(name -> !names.contains(name)).toList();
        return strangers.isEmpty()
                ? Optional.empty()
                : Optional.of("This run has no axis " + String.join(", ", strangers) + "; it has "
                        + String.join(", ", names));
    }

    /**
     * Shows the cautions and arms what the operator names.
     *
     * @param locked axes that may not move whatever the operator says, with the reason
     */
    void arm(List<Axis> axes, Map<String, String> locked) {
        CAUTIONS.forEach(terminal::line);
        terminal.line("");
        List<String> names = axes.stream().map(axis -> axis.setup().name()).toList();
        Set<String> armed = new LinkedHashSet<>(named.isEmpty() ? ask(names) : named);
        armed.removeAll(locked.keySet());
        axes.stream().filter(axis -> armed.contains(axis.setup().name())).forEach(Axis::arm);
        terminal.line(
                "Armed: " + (armed.isEmpty() ? "none; trials that move will be BLOCKED" : String.join(", ", armed)));
        terminal.line("");
    }

    /** Asks until every name is one of the site; a slip arms nothing and does not end the run. */
    private List<String> ask(List<String> names) {
        terminal.line("Type the names of the axes that may move now, separated by blanks.");
        terminal.line("Enter alone arms none.");
        while (true) {
            Optional<String> answer = terminal.ask("May move now (" + String.join(" ", names) + "): ");
            List<String> typed = Stream.of(answer.orElse("").split("[\\s,]+"))
                    .filter(name -> !name.isEmpty())
                    .toList();
            Optional<String> problem = unknown(typed, names);
            if (problem.isEmpty()) {
                return typed;
            }
            terminal.line("  Not taken: " + problem.get() + ".");
        }
    }
}
