package org.axtrial.survey;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.axtrial.registers.ByteOrder;
import org.axtrial.registers.RegisterTable;
import org.axtrial.registers.SignalSpec;
import org.axtrial.registers.WordOrder;

/** Turns a reading into the lines of the drive description that would have to say so. */
final class Corrections {

    private final KeyPlaces places;

    Corrections(KeyPlaces places) {
        this.places = places;
    }

    /**
     * The lines for one value.
     *
     * @param path path of its block, for example {@code identity.productCode}
     * @param wholeMap whether an order of words or bytes holds for the whole map, so that the top line is the one
     */
    List<Correction> of(String path, SignalSpec declared, Reading reading, boolean wholeMap) {
        Set<Change> changes = reading.changes();
        SignalSpec layout = reading.layout();
        List<Correction> lines = new ArrayList<>();
        if (changes.contains(Change.ADDRESS) || changes.contains(Change.TABLE)) {
            place(path, declared, layout, lines);
        }
        if (layout.type() != declared.type()) {
            lines.add(at(path, "type", declared.type().spelling(), layout.type().spelling()));
        }
        if (changes.contains(Change.WORD_ORDER)) {
            lines.add(order(path, "wordOrder", name(declared.wordOrder()), name(layout.wordOrder()), wholeMap));
        }
        if (changes.contains(Change.BYTE_ORDER)) {
            lines.add(order(path, "byteOrder", name(declared.byteOrder()), name(layout.byteOrder()), wholeMap));
        }
        if (changes.contains(Change.SCALE)) {
            lines.add(at(path, "scale", Printing.plain(declared.scale()), Printing.plain(layout.scale())));
        }
        return lines;
    }

    private void place(String path, SignalSpec declared, SignalSpec layout, List<Correction> lines) {
        Optional<KeyPlaces.Written> reference = places.at(path + ".reference");
        if (reference.isPresent()) {
            boolean long6 = reference.get().text().length() > 5;
            lines.add(at(path, "reference", reference.get().text(), Long.toString(reference(layout, long6))));
            return;
        }
        if (layout.address() != declared.address()) {
            lines.add(at(path, "address", Integer.toString(declared.address()), Integer.toString(layout.address())));
        }
        if (layout.table() != declared.table()) {
            lines.add(at(path, "table", name(declared.table()), name(layout.table())));
        }
    }

    private static long reference(SignalSpec layout, boolean sixDigits) {
        long base = layout.table() == RegisterTable.HOLDING ? 4 : 3;
        return base * (sixDigits ? 100_000 : 10_000) + 1 + layout.address();
    }

    /** An order stands at the value itself or, for all values, at the top. */
    private Correction order(String path, String key, String was, String becomes, boolean wholeMap) {
        Optional<KeyPlaces.Written> own = places.at(path + "." + key);
        if (own.isEmpty() && wholeMap) {
            Optional<KeyPlaces.Written> top = places.at(key);
            KeyPlaces.Written file = top.or(() -> places.at("type")).orElse(new KeyPlaces.Written("", 0, ""));
            return new Correction(file.file(), file.line(), key, top.isPresent() ? was : "", becomes);
        }
        return at(path, key, was, becomes);
    }

    private Correction at(String path, String key, String was, String becomes) {
        Optional<KeyPlaces.Written> written = places.at(path + "." + key);
        KeyPlaces.Written place = written.or(() -> places.at(path)).orElse(new KeyPlaces.Written("", 0, ""));
        boolean unknown = place.file().isEmpty();
        return new Correction(
                place.file(), place.line(), path + "." + key, written.isPresent() || unknown ? was : "", becomes);
    }

    private static String name(WordOrder order) {
        return order == WordOrder.HIGH_FIRST ? "high-first" : "low-first";
    }

    private static String name(ByteOrder order) {
        return order == ByteOrder.HIGH_FIRST ? "high-first" : "low-first";
    }

    static String name(RegisterTable table) {
        return table.name().toLowerCase(Locale.ROOT);
    }
}
