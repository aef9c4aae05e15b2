package org.axtrial.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.util.Objects;
import org.apache.fontbox.ttf.TTFParser;
import org.apache.fontbox.ttf.TrueTypeFont;
import org.apache.fontbox.ttf.model.GsubData;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.io.RandomAccessReadBuffer;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;

class PrintFontsTest {

    private static TrueTypeFont read(byte[] font) throws IOException {
        return new TTFParser().parse(new RandomAccessReadBuffer(font));
    }

    private static byte[] font() throws IOException {
        try (InputStream in =
                PrintFonts.class.getResourceAsStream("/net/sf/jasperreports/fonts/dejavu/DejaVuSansCondensed.ttf")) {
            return Objects.requireNonNull(in).readAllBytes();
        }
    }

    @Test
    void aFontLosesItsLigaturesAndNothingElse() throws IOException {
        byte[] before = font();
        try (TrueTypeFont whole = read(before);
                TrueTypeFont plain = read(PrintFonts.plain(before))) {
            assertThat(whole.getTableMap()).containsKeys("GSUB", "kern");
            assertThat(plain.getTableMap()).doesNotContainKeys("GSUB", "kern");
            assertThat(plain.getGsubData()).isSameAs(GsubData.NO_DATA_FOUND);
            assertThat(plain.getNumberOfGlyphs()).isEqualTo(whole.getNumberOfGlyphs());
            for (int glyph = 0; glyph < whole.getNumberOfGlyphs(); glyph++) {
                assertThat(plain.getAdvanceWidth(glyph)).isEqualTo(whole.getAdvanceWidth(glyph));
            }
        }
    }

    @Test
    void theFontGivenStaysAsItIs() throws IOException {
        byte[] font = font();
        PrintFonts.plain(font);
        assertThat(font).isEqualTo(font());
    }

    @Test
    void lettersThatTheFontWouldJoinAreFoundOneByOne() throws IOException {
        try (PDDocument document = Loader.loadPDF(FirstPrint.make("<p>Office, offset, fluffy, ffi</p>"))) {
            assertThat(new PDFTextStripper().getText(document)).contains("Office, offset, fluffy, ffi");
        }
    }

    @Test
    void theFirstPrintIsOneThatCanBeMade() throws IOException {
        try (PDDocument document = Loader.loadPDF(FirstPrint.make(FirstPrint.BODY))) {
            assertThat(new PDFTextStripper().getText(document))
                    .contains("A heading", "Text with", "code", "a link", "Value");
        }
    }
}
