package org.axtrial.report;

import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.PageSizeUnits;
import com.openhtmltopdf.outputdevice.helper.ExternalResourceControlPriority;
import com.openhtmltopdf.pdfboxout.PdfBoxRenderer;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder.PdfAConformance;
import com.openhtmltopdf.util.XRLog;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.StringReader;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.GregorianCalendar;
import java.util.HexFormat;
import java.util.Locale;
import java.util.Optional;
import java.util.TimeZone;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.cos.COSStream;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.common.PDMetadata;
import org.apache.pdfbox.pdmodel.graphics.color.PDOutputIntent;
import org.apache.pdfbox.pdmodel.interactive.annotation.PDAnnotation;
import org.axtrial.evidence.Sha256;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.Node;
import org.xml.sax.InputSource;
import org.xml.sax.SAXException;

/**
 * Prints XHTML as a PDF for keeping: PDF/A-2a (ISO 19005-2) with embedded fonts, tagged for screen readers (PDF/UA-1, ISO
 * 14289-1), the same bytes for the same input. Styles come from {@code print.css}; nothing is fetched from anywhere.
 *
 * <p>The engine knows CSS 2.1 and the margin boxes of CSS paged media, not grids and not variables. Characters that
 * DejaVu Sans lacks, those of East Asian scripts among them, print as the replacement character.
 */
public final class PdfPrinter {

    static {
        // It would write to the standard error stream, which belongs to the command line.
        XRLog.setLoggingEnabled(false);
    }

    /** The paper that a document is laid out for. */
    public enum Paper {
        /** 210 mm × 297 mm, ISO 216. */
        A4("A4", 210, 297),
        /** 8.5 in × 11 in, ANSI/ASME Y14.1. */
        LETTER("Letter", 215.9f, 279.4f);

        private final String word;
        private final float width;
        private final float height;

        Paper(String word, float width, float height) {
            this.word = word;
            this.width = width;
            this.height = height;
        }

        /** How a record names the paper that was asked for; it is silent about A4. */
        public Optional<String> recorded() {
            return this == A4 ? Optional.empty() : Optional.of(word);
        }

        /**
         * The paper of that name, in any case.
         *
         * @throws IllegalArgumentException if there is none
         */
        public static Paper of(String name) {
            for (Paper paper : values()) {
                if (paper.name().equalsIgnoreCase(name)) {
                    return paper;
                }
            }
            throw new IllegalArgumentException("no paper \"" + name + "\": A4 and Letter are known");
        }
    }

    /**
     * What stands around the text, on every page.
     *
     * @param title of the document, for the reader's window
     * @param subject one sentence on what it is
     * @param made when what it shows was made; stands for the time of printing, so that printing again gives the same bytes
     * @param head upper left corner of each page
     * @param mark upper right corner of each page, bold; {@code SIMULATED} for what proves nothing; may be empty
     * @param identity lower left corner: what this document is one of, a run for example
     * @param hash lower middle: what it can be checked against
     */
    public record Sheet(
            String title,
            String subject,
            Instant made,
            Paper paper,
            String head,
            String mark,
            String identity,
            String hash) {

        public Sheet {
            if (title.isBlank()) {
                throw new IllegalArgumentException("a PDF needs a title; screen readers begin with it");
            }
        }
    }

    private PdfPrinter() {}

    /**
     * Lays a text out and prints it.
     *
     * @param body the inside of an XHTML body: well-formed XML without entities of its own
     * @return the file
     * @throws IllegalArgumentException if the body is not well-formed
     * @throws IOException if the program is incomplete
     */
    public static byte[] print(String body, Sheet sheet) throws IOException {
        FirstPrint.await();
        return printed(body, sheet);
    }

    /** {@link #print} without waiting for another. */
    static byte[] printed(String body, Sheet sheet) throws IOException {
        Document page = parse(page(body, sheet));
        String identity = Sha256.of((body + sheet).getBytes(StandardCharsets.UTF_8));
        try (PdfBoxRenderer renderer = builder(page, sheet.paper()).buildPdfRenderer();
                PDDocument document = renderer.createPDFKeepOpen()) {
            stamp(document, sheet, identity);
            ByteArrayOutputStream out = new ByteArrayOutputStream();
            document.save(out);
            return out.toByteArray();
        }
    }

    private static PdfRendererBuilder builder(Document page, Paper paper) {
        PdfRendererBuilder builder = new PdfRendererBuilder()
                .withW3cDocument(page, "")
                .useSVGDrawer(new PlotDrawer())
                .useFastMode()
                .useDefaultPageSize(paper.width, paper.height, PageSizeUnits.MM)
                .usePdfAConformance(PdfAConformance.PDFA_2_A)
                .usePdfUaAccessibility(true)
                .useColorProfile(SrgbProfile.bytes())
                .useReplacementText("\uFFFD")
                .useExternalResourceAccessControl(
                        (uri, type) -> false, ExternalResourceControlPriority.RUN_BEFORE_RESOLVING_URI);
        PrintFonts.addTo(builder);
        return builder;
    }

    private static String page(String body, Sheet sheet) throws IOException {
        String style = Templates.resource("print.css") + margins(sheet);
        return "<html lang=\"en\"><head><title>" + Plot.escape(sheet.title())
                + "</title><meta name=\"subject\" content=\"" + Plot.escape(sheet.subject()) + "\"/>"
                + "<meta name=\"description\" content=\"" + Plot.escape(sheet.subject()) + "\"/>"
                + "<style>" + Plot.escape(style) + "</style></head><body>" + Words.clean(body) + "</body></html>";
    }

    /** The margins of each page and what stands in them; the engine takes all of it from one rule. */
    private static String margins(Sheet sheet) {
        String below = "font-family: print; font-size: 7.5pt; color: #444; vertical-align: top; padding-top: 2.5mm;";
        return """
                @page {
                  margin: 19mm 16mm 17mm 18mm;
                  @top-left { font-family: print; font-size: 7.5pt; color: #444; vertical-align: bottom; padding-bottom: 3mm;
                    content: "%1$s"; }
                  @top-right { font-family: print; font-size: 10pt; font-weight: bold; color: #111;
                    vertical-align: bottom; padding-bottom: 3mm; content: "%2$s"; }
                  @bottom-left { %5$s content: "%3$s"; }
                  @bottom-center { %5$s content: "%4$s"; }
                  @bottom-right { %5$s content: "page " counter(page) " of " counter(pages); }
                }
                """.formatted(
                quoted(sheet.head()), quoted(sheet.mark()), quoted(sheet.identity()), quoted(sheet.hash()), below);
    }

    /** A text for a string of CSS: the signs that could end it are given by number (CSS 2.1, 4.3.7). */
    private static String quoted(String text) {
        StringBuilder out = new StringBuilder();
        text.codePoints().map(Words::printable).forEach(c -> {
            if (c == '"' || c == '\\' || c < ' ') {
                out.append(String.format(Locale.ROOT, "\\%06x", c));
            } else {
                out.appendCodePoint(c);
            }
        });
        return out.toString();
    }

    private static Document parse(String xhtml) throws IOException {
        try {
            DocumentBuilderFactory factory = DocumentBuilderFactory.newDefaultInstance();
            factory.setFeature("http://apache.org/xml/features/disallow-doctype-decl", true);
            var parser = factory.newDocumentBuilder();
            parser.setErrorHandler(null);
            Document page = parser.parse(new InputSource(new StringReader(xhtml)));
            describeDrawings(page.getDocumentElement());
            return page;
        } catch (SAXException e) {
            throw new IllegalArgumentException("the text to print is not well-formed XML: " + e.getMessage(), e);
        } catch (ParserConfigurationException e) {
            throw new IOException("the XML parser of this Java cannot be used: " + e.getMessage(), e);
        }
    }

    /** Screen readers get the title and the description of a drawing from its alternative text. */
    private static void describeDrawings(Element element) {
        if (element.getNodeName().equals("svg")) {
            element.setAttribute("alt", (child(element, "title") + ". " + child(element, "desc")).strip());
            return;
        }
        // Children one by one: a list of all elements of one name is searched anew for each of them.
        for (Node child = element.getFirstChild(); child != null; child = child.getNextSibling()) {
            if (child instanceof Element below) {
                describeDrawings(below);
            }
        }
    }

    private static String child(Element element, String name) {
        for (Node child = element.getFirstChild(); child != null; child = child.getNextSibling()) {
            if (child.getNodeName().equals(name)) {
                return child.getTextContent();
            }
        }
        return "";
    }

    /** Dates and identity that follow from the content, in place of those of this moment. */
    private static void stamp(PDDocument document, Sheet sheet, String identity) throws IOException {
        GregorianCalendar made = new GregorianCalendar(TimeZone.getTimeZone("UTC"), Locale.ROOT);
        made.setTimeInMillis(Math.floorDiv(sheet.made().toEpochMilli(), 1000L) * 1000L);
        var information = document.getDocumentInformation();
        information.getCOSObject().clear();
        information.setTitle(Words.clean(sheet.title()));
        information.setSubject(Words.clean(sheet.subject()));
        information.setProducer(Xmp.PRODUCER);
        information.setCreationDate(made);
        information.setModificationDate(made);
        byte[] packet = Xmp.packet(sheet).getBytes(StandardCharsets.UTF_8);
        PDMetadata metadata = new PDMetadata(document);
        metadata.importXMPMetadata(packet);
        document.getDocumentCatalog().setMetadata(metadata);
        nameLinks(document);
        colours(document);
        document.setDocumentId(
                ByteBuffer.wrap(HexFormat.of().parseHex(identity)).getLong());
    }

    /** The profile as it was made: on its way through the Java library some releases put their mark on it. */
    private static void colours(PDDocument document) throws IOException {
        for (PDOutputIntent intent : document.getDocumentCatalog().getOutputIntents()) {
            COSStream profile = intent.getDestOutputIntent();
            try (OutputStream out = profile.createOutputStream(COSName.FLATE_DECODE)) {
                out.write(SrgbProfile.bytes());
            }
        }
    }

    /** A screen reader says what a link is for (ISO 14289-1, 7.18.5); all links of a print lead within it. */
    private static void nameLinks(PDDocument document) throws IOException {
        for (PDPage page : document.getPages()) {
            for (PDAnnotation annotation : page.getAnnotations()) {
                annotation.setContents("goes to another place in this document");
            }
        }
    }
}
