package org.axtrial.survey;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.axtrial.evidence.Snapshot;
import org.axtrial.evidence.SnapshotRecord.Difference;
import org.axtrial.evidence.SnapshotRecord.Kind;
import org.axtrial.link.DriveRefusedException;
import org.axtrial.link.LinkException;
import org.axtrial.link.RegisterLink;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.axtrial.registers.DriveDescription;
import org.axtrial.registers.RegisterCodec;
import org.axtrial.registers.SignalSpec;

/** Reads the declared parameters of drives and holds them against others. Writes nothing. */
public final class ParameterSurvey {

    /** Values are printed and read back in decimals; a 32-bit float keeps seven digits. */
    private static final double ROUNDING = 1e-6;

    private ParameterSurvey() {}

    /**
     * Reads the parameters of one drive. What cannot be read is kept with the reason.
     *
     * @throws LinkException if the link is lost
     */
    public static Snapshot.AxisValues read(String axis, DriveDescription drive, RegisterLink link)
            throws LinkException {
        List<Snapshot.Value> values = new ArrayList<>();
        for (SignalSpec parameter : drive.parameters()) {
            values.add(read(parameter, link));
        }
        return new Snapshot.AxisValues(axis, drive.type(), link.peer(), values);
    }

    private static Snapshot.Value read(SignalSpec parameter, RegisterLink link) throws LinkException {
        try {
            int[] words = link.read(parameter.table().readFunction(), parameter.address(), parameter.registers())
                    .words();
            double value = RegisterCodec.decode(parameter, words);
            boolean number = Double.isFinite(value);
            return new Snapshot.Value(
                    parameter.name(),
                    number ? OptionalDouble.of(value) : OptionalDouble.empty(),
                    parameter.unit(),
                    Surroundings.hex(words),
                    number ? "" : "holds no number");
        } catch (DriveRefusedException e) {
            return new Snapshot.Value(
                    parameter.name(), OptionalDouble.empty(), parameter.unit(), "", String.valueOf(e.getMessage()));
        }
    }

    /** The parameters of a drive that could not be reached, each with the reason. */
    public static Snapshot.AxisValues unreachable(String axis, DriveDescription drive, String peer, String why) {
        return new Snapshot.AxisValues(
                axis,
                drive.type(),
                peer,
                drive.parameters().stream()
                        .map(parameter ->
                                new Snapshot.Value(parameter.name(), OptionalDouble.empty(), parameter.unit(), "", why))
                        .toList());
    }

    /** What a snapshot holds, by axis and parameter; what could not be read is left out. */
    public static Map<String, Map<String, Quantity>> values(Snapshot snapshot) {
        Map<String, Map<String, Quantity>> all = new LinkedHashMap<>();
        for (Snapshot.AxisValues axis : snapshot.axes()) {
            Map<String, Quantity> values = new LinkedHashMap<>();
            axis.values()
                    .forEach(value -> value.value()
                            .ifPresent(number -> values.put(value.name(), new Quantity(number, value.unit()))));
            all.put(axis.axis(), values);
        }
        return all;
    }

    /**
     * Where two sets of parameters differ.
     *
     * @param is what was read
     * @param was what it is held against, an earlier snapshot or an approved set
     */
    public static List<Difference> compare(
            Map<String, Map<String, Quantity>> is, Map<String, Map<String, Quantity>> was) {
        List<Difference> differences = new ArrayList<>();
        is.forEach((axis, values) -> {
            Map<String, Quantity> before = was.getOrDefault(axis, Map.of());
            values.forEach((name, value) -> compare(axis, name, Optional.ofNullable(before.get(name)), value)
                    .ifPresent(differences::add));
        });
        was.forEach((axis, values) -> values.forEach((name, value) -> {
            if (!is.getOrDefault(axis, Map.of()).containsKey(name)) {
                differences.add(new Difference(Kind.MISSING, axis, name, value.toString(), ""));
            }
        }));
        return differences;
    }

    private static Optional<Difference> compare(String axis, String name, Optional<Quantity> was, Quantity is) {
        if (was.isEmpty()) {
            return Optional.of(new Difference(Kind.ADDED, axis, name, "", is.toString()));
        }
        return same(was.get(), is)
                ? Optional.empty()
                : Optional.of(new Difference(Kind.CHANGED, axis, name, was.get().toString(), is.toString()));
    }

    private static boolean same(Quantity was, Quantity is) {
        if (was.unit().dimension() != is.unit().dimension() || (was.unit() == Unit.ONE) != (is.unit() == Unit.ONE)) {
            return false;
        }
        double before = was.in(is.unit());
        return Math.abs(before - is.value()) <= ROUNDING * Math.max(Math.abs(before), Math.abs(is.value()));
    }
}
