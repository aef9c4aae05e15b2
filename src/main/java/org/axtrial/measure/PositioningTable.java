package org.axtrial.measure;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

/** The per-position table of a positioning test as text. */
final class PositioningTable {

    private static final List<String> HEADS =
            List.of("i", "target", "mean up", "mean down", "mean", "B", "s up", "s down", "R");

    private PositioningTable() {}

    static String text(Positioning positioning) {
        List<List<String>> lines = new ArrayList<>();
        lines.add(HEADS);
        List<PositioningPoint> points = positioning.points();
        for (int i = 0; i < points.size(); i++) {
            PositioningPoint p = points.get(i);
            lines.add(List.of(
                    Integer.toString(i + 1),
                    Printed.brief(p.target(), positioning.unit(), 9),
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

    private static String known(OptionalDouble value) {
        return value.isPresent() ? Printed.brief(value.getAsDouble()) : "—";
    }
}
