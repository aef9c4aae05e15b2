package org.axtrial.measure;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import org.axtrial.quantity.Unit;

/** The per-position table of a positioning test as text, in lines or in sentences. */
final class PositioningTable {

    private static final List<String> HEADS =
            List.of("i", "target", "mean up", "mean down", "mean", "B", "s up", "s down", "R");

    /** Targets are known exactly; more digits than a reading has would only tire. */
    private static final int TARGET_DIGITS = 9;

    private PositioningTable() {}

    static String text(Positioning positioning) {
        List<List<String>> lines = new ArrayList<>();
        lines.add(HEADS);
        List<PositioningPoint> points = positioning.points();
        for (int i = 0; i < points.size(); i++) {
            PositioningPoint p = points.get(i);
            lines.add(List.of(
                    Integer.toString(i + 1),
                    Printed.brief(p.target(), positioning.unit(), TARGET_DIGITS),
                    Printed.brief(p.meanUp()),
                    Printed.brief(p.meanDown()),
                    Printed.brief(p.mean()),
                    Printed.brief(p.reversal()),
                    known(p.deviationUp()),
                    known(p.deviationDown()),
                    known(p.repeatability())));
        }
        return TextTable.aligned(lines);
    }

    static List<String> sentences(Positioning positioning) {
        List<String> sentences = new ArrayList<>();
        Unit unit = positioning.unit();
        for (PositioningPoint p : positioning.points()) {
            String spread = p.repeatability().isEmpty()
                    ? ""
                    : ", s↑ " + Printed.brief(p.deviationUp().orElseThrow(), unit) + ", s↓ "
                            + Printed.brief(p.deviationDown().orElseThrow(), unit) + ", R "
                            + Printed.brief(p.repeatability().orElseThrow(), unit);
            sentences.add("Target " + (sentences.size() + 1) + " at " + Printed.brief(p.target(), unit, TARGET_DIGITS)
                    + ": mean ↑ " + Printed.brief(p.meanUp(), unit) + ", mean ↓ " + Printed.brief(p.meanDown(), unit)
                    + ", B " + Printed.brief(p.reversal(), unit) + spread + "; deviations ↑ " + deviations(p.up())
                    + "; ↓ " + deviations(p.down()));
        }
        return sentences;
    }

    private static String deviations(List<Double> deviations) {
        return deviations.stream().map(Printed::brief).collect(Collectors.joining(", "));
    }

    private static String known(OptionalDouble value) {
        return value.isPresent() ? Printed.brief(value.getAsDouble()) : "—";
    }
}
