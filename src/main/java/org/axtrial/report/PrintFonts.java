package org.axtrial.report;

import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FSFontUseCase;
import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FontStyle;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.util.EnumSet;
import java.util.Set;

/**
 * The fonts of all prints, as the printer gets them: without the tables that would have it look for ligatures in every
 * text. Letters stand as they were written, which is also how they are searched and copied.
 *
 * <p>Layout of a font file: ISO/IEC 14496-22 (OpenType), 4.5: a head of 12 bytes with the number of tables at byte 4, then
 * for each table its tag, check sum, offset and length, four bytes each.
 */
final class PrintFonts {

    private static final String FOLDER = "/net/sf/jasperreports/fonts/dejavu/";
    private static final int HEAD = 12;
    private static final int ENTRY = 16;
    private static final Set<Integer> UNWANTED = Set.of(tag('G', 'S', 'U', 'B'), tag('k', 'e', 'r', 'n'));

    private PrintFonts() {}

    static void addTo(PdfRendererBuilder builder) {
        add(builder, "DejaVuSansCondensed.ttf", "print", 400, FontStyle.NORMAL);
        add(builder, "DejaVuSansCondensed-Bold.ttf", "print", 700, FontStyle.NORMAL);
        add(builder, "DejaVuSansCondensed-Oblique.ttf", "print", 400, FontStyle.ITALIC);
        add(builder, "DejaVuSansMono.ttf", "code", 400, FontStyle.NORMAL);
    }

    private static void add(PdfRendererBuilder builder, String file, String family, int weight, FontStyle style) {
        builder.useFont(
                () -> new ByteArrayInputStream(plain(read(FOLDER + file))),
                family,
                weight,
                style,
                true,
                EnumSet.of(FSFontUseCase.DOCUMENT));
    }

    private static byte[] read(String resource) {
        try (InputStream in = PrintFonts.class.getResourceAsStream(resource)) {
            if (in == null) {
                throw new IOException("the program is incomplete: " + resource + " is missing");
            }
            return in.readAllBytes();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** The font with tags that no reader knows in place of those of the unwanted tables; unknown tables are passed over. */
    static byte[] plain(byte[] font) {
        ByteBuffer tables = ByteBuffer.wrap(font.clone());
        int count = Short.toUnsignedInt(tables.getShort(4));
        for (int at = HEAD; at < HEAD + count * ENTRY; at += ENTRY) {
            if (UNWANTED.contains(tables.getInt(at))) {
                tables.putInt(at, tag('n', 'o', 'n', 'e'));
            }
        }
        return tables.array();
    }

    private static int tag(char first, char second, char third, char fourth) {
        return first << 24 | second << 16 | third << 8 | fourth;
    }
}
