package org.axtrial.site;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.regex.Pattern;
import org.axtrial.quantity.Unit;
import org.axtrial.registers.ByteOrder;
import org.axtrial.registers.RegisterTable;
import org.axtrial.registers.SignalSpec;
import org.axtrial.registers.ValueType;
import org.axtrial.registers.WordOrder;

/** Reads one value of a drive description: where it stands and what its raw number means. */
final class SignalReader {

    private static final Pattern NAME = Pattern.compile("[A-Za-z][A-Za-z0-9]*");

    private static final List<String> UNITS =
            Arrays.stream(Unit.values()).map(Unit::symbol).toList();

    private final WordOrder wordOrder;
    private final ByteOrder byteOrder;

    /**
     * @param top the whole description, whose word and byte order hold where a signal names none
     */
    SignalReader(YamlMap top) {
        // The schema demands the key; without it the description is refused, whatever is assumed until then.
        wordOrder = top.text("wordOrder").map(SignalReader::wordOrder).orElse(WordOrder.HIGH_FIRST);
        byteOrder = top.text("byteOrder").map(SignalReader::byteOrder).orElse(ByteOrder.HIGH_FIRST);
    }

    /** Empty if something is wrong with it, which has then been told. */
    Optional<SignalSpec> read(YamlMap map) {
        String name = map.name();
        if (!NAME.matcher(name).matches()) {
            map.document()
                    .keyProblem(map.path(), "a name is a letter, then letters and digits; found \"" + name + "\"");
        }
        Optional<ValueType> type = map.text("type").flatMap(ValueType::of);
        Optional<Place> place = place(map);
        Optional<Unit> unit = map.has("unit") ? QuantityReader.unit(map, "unit", UNITS) : Optional.of(Unit.ONE);
        WordOrder words = map.text("wordOrder").map(SignalReader::wordOrder).orElse(wordOrder);
        ByteOrder bytes = map.text("byteOrder").map(SignalReader::byteOrder).orElse(byteOrder);
        double scale = map.number("scale").orElse(1);
        if (scale == 0) {
            map.problem("scale", "expected a scale that is not 0, found 0: every value would read as the offset");
        }
        double offset = map.number("offset").orElse(0);
        boolean writable = map.text("access").orElse("read").equals("write");
        place.filter(where -> writable && where.table == RegisterTable.INPUT)
                .ifPresent(where -> map.problem(
                        "access", "input registers cannot be written; give a holding register or access: read"));
        OptionalLong function = map.integer("writeFunction");
        if (type.isPresent() && function.orElse(16) == 6 && type.get().registers() > 1) {
            map.problem(
                    "writeFunction",
                    "function 6 writes one register, but " + type.get().spelling() + " needs "
                            + type.get().registers() + "; use 16");
        }
        boolean fits = place.isPresent() && type.isPresent() && fits(map, place.get(), type.get());
        if (!fits || unit.isEmpty() || map.document().complainedWithin(map.path())) {
            return Optional.empty();
        }
        int writeFunction = (int) function.orElse(type.get().registers() == 1 ? 6 : 16);
        Place where = place.get();
        return Optional.of(new SignalSpec(
                name,
                where.table,
                where.address,
                type.get(),
                words,
                bytes,
                scale,
                offset,
                unit.get(),
                writable,
                writeFunction));
    }

    private static boolean fits(YamlMap map, Place place, ValueType type) {
        boolean fits = place.address + type.registers() <= 65_536;
        if (!fits) {
            map.problem(
                    place.key,
                    type.spelling() + " needs " + type.registers() + " registers; from address " + place.address
                            + " it would end beyond 65535");
        }
        return fits;
    }

    /** Where a value stands, and the key that says so. */
    private record Place(RegisterTable table, int address, String key) {}

    /** The place by address or by reference; both, none, or a reference that is no register are told. */
    private static boolean placeIsPlain(YamlMap map) {
        if (map.has("address") && map.has("reference")) {
            map.keyProblem("reference", "give address (zero-based) or reference (one-based), not both");
            return false;
        }
        if (!map.has("address") && !map.has("reference")) {
            map.missing(
                    "address",
                    "missing: give address (zero-based, as on the wire) or reference (one-based, 40001"
                            + " is the first holding register)");
            return false;
        }
        return true;
    }

    private static Optional<Place> place(YamlMap map) {
        OptionalLong address = map.integer("address");
        OptionalLong reference = map.integer("reference");
        Optional<RegisterTable> table =
                map.text("table").map(text -> RegisterTable.valueOf(text.toUpperCase(Locale.ROOT)));
        if (!placeIsPlain(map)) {
            return Optional.empty();
        }
        if (address.isPresent()) {
            return Optional.of(new Place(table.orElse(RegisterTable.HOLDING), (int) address.getAsLong(), "address"));
        }
        return reference.isPresent() ? byReference(map, reference.getAsLong(), table) : Optional.empty();
    }

    private static Optional<Place> byReference(YamlMap map, long reference, Optional<RegisterTable> table) {
        RegisterTable own;
        long address;
        if (isIn(reference, 40_001, 49_999) || isIn(reference, 400_001, 465_536)) {
            own = RegisterTable.HOLDING;
            address = reference > 400_000 ? reference - 400_001 : reference - 40_001;
        } else if (isIn(reference, 30_001, 39_999) || isIn(reference, 300_001, 365_536)) {
            own = RegisterTable.INPUT;
            address = reference > 300_000 ? reference - 300_001 : reference - 30_001;
        } else {
            map.problem(
                    "reference",
                    "expected 40001 … 49999 or 400001 … 465536 for holding registers, 30001 … 39999 or"
                            + " 300001 … 365536 for input registers, found " + reference
                            + hint(reference));
            return Optional.empty();
        }
        if (table.isPresent() && table.get() != own) {
            map.problem(
                    "table",
                    "reference " + reference + " is in the " + own.name().toLowerCase(Locale.ROOT)
                            + " registers; leave table out or correct the reference");
            return Optional.empty();
        }
        return Optional.of(new Place(own, (int) address, "reference"));
    }

    private static String hint(long reference) {
        if (isIn(reference, 10_001, 19_999)) {
            return "; 1xxxx are discrete inputs, which hold bits and no registers";
        }
        return isIn(reference, 0, 9_999) ? "; a zero-based number goes into address" : "";
    }

    private static boolean isIn(long value, long least, long most) {
        return value >= least && value <= most;
    }

    private static WordOrder wordOrder(String text) {
        return text.equals("low-first") ? WordOrder.LOW_FIRST : WordOrder.HIGH_FIRST;
    }

    private static ByteOrder byteOrder(String text) {
        return text.equals("low-first") ? ByteOrder.LOW_FIRST : ByteOrder.HIGH_FIRST;
    }
}
