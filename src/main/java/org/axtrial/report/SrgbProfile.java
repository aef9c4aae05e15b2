package org.axtrial.report;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/**
 * The colour profile that a PDF/A file carries: sRGB as three primaries and one curve. Made here, because the profile of
 * the Java library differs from release to release and a report would with it.
 *
 * <p>Layout: ICC.1:2001-04 (version 2.4), input and display profiles of three components. Primaries, adapted to D50, and
 * curve: IEC 61966-2-1.
 */
final class SrgbProfile {

    private static final int HEADER = 128;
    private static final int CURVE_POINTS = 1024;

    /** A tag of the profile with its bytes. */
    private record Tag(String name, ByteBuffer data) {}

    private SrgbProfile() {}

    static byte[] bytes() {
        List<Tag> tags = new ArrayList<>();
        tags.add(new Tag("desc", description("sRGB IEC61966-2.1")));
        tags.add(new Tag("cprt", text("No copyright")));
        tags.add(new Tag("wtpt", xyz(0.9642, 1, 0.8249)));
        tags.add(new Tag("rXYZ", xyz(0.43607, 0.22249, 0.01392)));
        tags.add(new Tag("gXYZ", xyz(0.38515, 0.71687, 0.09708)));
        tags.add(new Tag("bXYZ", xyz(0.14307, 0.06061, 0.71410)));
        ByteBuffer curve = curve();
        List.of("rTRC", "gTRC", "bTRC").forEach(name -> tags.add(new Tag(name, curve)));
        return assemble(tags);
    }

    private static byte[] assemble(List<Tag> tags) {
        int at = HEADER + 4 + 12 * tags.size();
        // The three curves are one: they share their bytes.
        int last = tags.size() - 3;
        int size = at;
        for (Tag tag : tags.subList(0, last + 1)) {
            size += padded(tag.data().capacity());
        }
        ByteBuffer out = ByteBuffer.allocate(size);
        header(out, size);
        out.putInt(tags.size());
        int from = at;
        for (int i = 0; i < tags.size(); i++) {
            Tag tag = tags.get(i);
            out.put(ascii(tag.name())).putInt(from).putInt(tag.data().capacity());
            if (i < last) {
                from += padded(tag.data().capacity());
            }
        }
        for (Tag tag : tags.subList(0, last + 1)) {
            out.put(tag.data().array());
            out.position(
                    out.position() + padded(tag.data().capacity()) - tag.data().capacity());
        }
        return out.array();
    }

    private static void header(ByteBuffer out, int size) {
        out.putInt(size).putInt(0).putInt(0x02400000);
        out.put(ascii("mntr")).put(ascii("RGB ")).put(ascii("XYZ "));
        for (int part : new int[] {2026, 1, 1, 0, 0, 0}) {
            out.putShort((short) part);
        }
        out.put(ascii("acsp"));
        out.position(68);
        out.putInt(fixed(0.9642)).putInt(fixed(1)).putInt(fixed(0.8249));
        out.position(HEADER);
    }

    /** The curve from a stored value to light, IEC 61966-2-1. */
    private static ByteBuffer curve() {
        ByteBuffer out = ByteBuffer.allocate(12 + 2 * CURVE_POINTS);
        out.put(ascii("curv")).putInt(0).putInt(CURVE_POINTS);
        for (int i = 0; i < CURVE_POINTS; i++) {
            double stored = i / (CURVE_POINTS - 1.0);
            double light = stored <= 0.04045 ? stored / 12.92 : StrictMath.pow((stored + 0.055) / 1.055, 2.4);
            out.putShort((short) Math.round(light * 65535));
        }
        return out;
    }

    private static ByteBuffer xyz(double x, double y, double z) {
        return ByteBuffer.allocate(20)
                .put(ascii("XYZ "))
                .putInt(0)
                .putInt(fixed(x))
                .putInt(fixed(y))
                .putInt(fixed(z));
    }

    private static ByteBuffer text(String text) {
        return ByteBuffer.allocate(9 + text.length())
                .put(ascii("text"))
                .putInt(0)
                .put(ascii(text))
                .put((byte) 0);
    }

    /** A description in ASCII; its Unicode and script parts are there and empty. */
    private static ByteBuffer description(String text) {
        return ByteBuffer.allocate(12 + text.length() + 1 + 8 + 70)
                .put(ascii("desc"))
                .putInt(0)
                .putInt(text.length() + 1)
                .put(ascii(text));
    }

    private static int fixed(double value) {
        return (int) Math.round(value * 65536);
    }

    private static int padded(int size) {
        return (size + 3) / 4 * 4;
    }

    private static byte[] ascii(String text) {
        return text.getBytes(StandardCharsets.US_ASCII);
    }
}
