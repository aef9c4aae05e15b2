package org.axtrial.report;

import com.openhtmltopdf.css.constants.IdentValue;
import com.openhtmltopdf.css.style.CalculatedStyle;
import com.openhtmltopdf.css.value.FontSpecification;
import com.openhtmltopdf.extend.OutputDevice;
import com.openhtmltopdf.pdfboxout.PdfBoxFSFont;
import com.openhtmltopdf.pdfboxout.PdfBoxOutputDevice;
import com.openhtmltopdf.pdfboxout.PdfContentStreamAdapter;
import com.openhtmltopdf.render.RenderingContext;
import java.awt.Color;
import java.awt.geom.AffineTransform;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Map;
import java.util.Optional;
import java.util.Scanner;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import org.apache.pdfbox.pdmodel.font.PDFont;
import org.w3c.dom.Element;
import org.w3c.dom.Node;

/** Draws one drawing onto one page. Lengths are those of the drawing, y downwards. */
final class PlotPen {

    /** How a class of the drawing looks on paper. Colours keep apart in grey too. */
    private record Look(Optional<Color> fill, Optional<Color> stroke, double width, double dash, double gap) {}

    private static final Color INK = new Color(0x11, 0x11, 0x11);
    private static final Color SOFT = new Color(0x44, 0x44, 0x44);
    private static final Color RULE = new Color(0xb8, 0xb8, 0xb8);
    private static final Color BAND = new Color(0x14, 0x60, 0x6b);
    private static final Color DEMAND = new Color(0x8a, 0x5a, 0x00);
    /** The band at a sixth of its strength on white: a PDF for archives needs no transparency then. */
    private static final Color PALE_BAND = new Color(0xd9, 0xe6, 0xe7);

    private static final Map<String, Look> LOOKS = Map.of(
            "grid", line(RULE, 0.5, 0, 0),
            "zero", line(SOFT, 0.6, 0, 0),
            "axis", line(INK, 0.8, 0, 0),
            "mark", line(INK, 0.7, 1.5, 2),
            "actual", line(INK, 1.3, 0, 0),
            "demand", line(DEMAND, 1.2, 4, 3),
            "unseen", line(INK, 0.8, 1, 2.5),
            "band", new Look(Optional.of(PALE_BAND), Optional.of(BAND), 0.6, 0, 0),
            "dot", new Look(Optional.of(INK), Optional.of(INK), 0.8, 0, 0),
            "dot-aside", new Look(Optional.of(Color.WHITE), Optional.of(INK), 0.8, 0, 0));

    private static final double TEXT_SIZE = 10.5;
    private static final double MARK_SIZE = 10;
    private static final Pattern STEP = Pattern.compile("([MLVH])(-?[\\d.]+)(?: (-?[\\d.]+))?");
    private static final Pattern MOVED = Pattern.compile("translate\\(([\\d.-]+) ([\\d.-]+)\\) rotate\\(-90\\)");

    private final PdfContentStreamAdapter page;
    private final AffineTransform toPage;
    private final PDFont font;

    /**
     * @param x left edge in dots of the device
     * @param scale dots for one unit of the drawing
     */
    PlotPen(OutputDevice device, RenderingContext context, double x, double y, double scale) {
        PdfBoxOutputDevice pdf = (PdfBoxOutputDevice) device;
        page = pdf.getCurrentPage();
        // The device keeps to itself where it stands, so it is reckoned from the page: dots to points, down to up.
        var sheet = context.getPage();
        AffineTransform matrix =
                new AffineTransform(1, 0, 0, -1, 0, pdf.getPage().getMediaBox().getHeight());
        matrix.scale(1 / pdf.getDotsPerPoint(), 1 / pdf.getDotsPerPoint());
        matrix.translate(
                x + sheet.getMarginBorderPadding(context, CalculatedStyle.LEFT),
                y + sheet.getMarginBorderPadding(context, CalculatedStyle.TOP) - sheet.getPaintingTop());
        matrix.scale(scale, scale);
        toPage = matrix;
        font = font(pdf);
    }

    private static PDFont font(PdfBoxOutputDevice device) {
        FontSpecification wanted = new FontSpecification();
        wanted.families = new String[] {"print"};
        wanted.fontStyle = IdentValue.NORMAL;
        wanted.fontWeight = IdentValue.NORMAL;
        wanted.variant = IdentValue.NORMAL;
        wanted.size = 10;
        var shared = device.getSharedContext();
        PdfBoxFSFont found = (PdfBoxFSFont) shared.getFontResolver().resolveFont(shared, wanted);
        return found.getFontDescriptions().get(0).getFont();
    }

    private static Look line(Color colour, double width, double dash, double gap) {
        return new Look(Optional.empty(), Optional.of(colour), width, dash, gap);
    }

    void draw(Element svg) {
        page.saveGraphics();
        page.applyPdfMatrix(toPage);
        for (Node node = svg.getFirstChild(); node != null; node = node.getNextSibling()) {
            if (node instanceof Element element) {
                page.saveGraphics();
                element(svg, element);
                page.restoreGraphics();
            }
        }
        page.restoreGraphics();
    }

    private void element(Element svg, Element element) {
        switch (element.getNodeName()) {
            case "title", "desc", "clipPath" -> {
                // Read aloud, or named by what it cuts.
            }
            case "line" -> {
                pen(element);
                page.moveTo(number(element, "x1"), number(element, "y1"));
                page.lineTo(number(element, "x2"), number(element, "y2"));
                page.stroke();
            }
            case "rect" -> {
                pen(element);
                page.fillRect(
                        number(element, "x"),
                        number(element, "y"),
                        number(element, "width"),
                        number(element, "height"));
                edges(element);
            }
            case "path" -> {
                cut(svg, element);
                pen(element);
                path(element.getAttribute("d"));
                page.stroke();
            }
            case "text" -> text(element);
            default -> throw new IllegalArgumentException("a plot for paper holds no <" + element.getNodeName() + ">");
        }
    }

    private void edges(Element rect) {
        float x = number(rect, "x");
        float y = number(rect, "y");
        page.addRect(x, y, number(rect, "width"), number(rect, "height"));
        page.stroke();
    }

    private void pen(Element element) {
        String style = element.getAttribute("class");
        Look look = LOOKS.get(style);
        if (look == null) {
            throw new IllegalArgumentException("a plot for paper knows no class \"" + style + "\"");
        }
        look.fill().ifPresent(c -> page.setFillColor(c.getRed(), c.getGreen(), c.getBlue()));
        look.stroke().ifPresent(c -> page.setStrokingColor(c.getRed(), c.getGreen(), c.getBlue()));
        page.setLineWidth((float) look.width());
        page.setLineDash(look.dash() > 0 ? new float[] {(float) look.dash(), (float) look.gap()} : new float[0], 0);
        page.setLineJoin(1);
    }

    /** Nothing outside the rectangle that the element names is drawn. */
    private void cut(Element svg, Element element) {
        String name = element.getAttribute("clip-path");
        if (name.isEmpty()) {
            return;
        }
        String id = name.substring("url(#".length(), name.length() - 1);
        for (Node node = svg.getFirstChild(); node != null; node = node.getNextSibling()) {
            if (node instanceof Element clip && clip.getAttribute("id").equals(id)) {
                Element rect = (Element) clip.getFirstChild();
                page.addRect(number(rect, "x"), number(rect, "y"), number(rect, "width"), number(rect, "height"));
                page.clipNonZero();
                page.newPath();
            }
        }
    }

    private void path(String data) {
        float x = 0;
        float y = 0;
        try (Scanner steps = new Scanner(data)) {
            for (MatchResult step : steps.findAll(STEP).toList()) {
                float first = Float.parseFloat(step.group(2));
                switch (step.group(1)) {
                    case "V" -> y = first;
                    case "H" -> x = first;
                    default -> {
                        x = first;
                        y = Float.parseFloat(step.group(3));
                    }
                }
                if (step.group(1).equals("M")) {
                    page.moveTo(x, y);
                } else {
                    page.lineTo(x, y);
                }
            }
        }
    }

    private void text(Element element) {
        String text = writable(element.getTextContent());
        double size = element.getAttribute("class").equals("mark-label") ? MARK_SIZE : TEXT_SIZE;
        Color colour = element.getAttribute("class").equals("tick") ? SOFT : INK;
        AffineTransform place = new AffineTransform();
        var moved = MOVED.matcher(element.getAttribute("transform"));
        if (moved.matches()) {
            place.translate(Double.parseDouble(moved.group(1)), Double.parseDouble(moved.group(2)));
            place.rotate(0, -1);
        } else {
            place.translate(number(element, "x"), number(element, "y"));
        }
        double before = switch (element.getAttribute("text-anchor")) {
            case "end" -> 1;
            case "middle" -> 0.5;
            default -> 0;
        };
        place.translate(-before * width(text) * size, 0);
        // Letters stand upright although y goes down.
        place.scale(1, -1);
        page.beginText();
        page.setFillColor(colour.getRed(), colour.getGreen(), colour.getBlue());
        page.setFont(font, (float) size);
        page.setTextMatrix(
                (float) place.getScaleX(),
                (float) place.getShearY(),
                (float) place.getShearX(),
                (float) place.getScaleY(),
                (float) place.getTranslateX(),
                (float) place.getTranslateY());
        page.drawString(text);
        page.endText();
    }

    /** A width in multiples of the size of the font. */
    private double width(String text) {
        try {
            return font.getStringWidth(text) / 1000;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** A text in which every character has a shape in the font. */
    private String writable(String text) {
        return text.codePoints()
                .map(c -> hasShape(c) ? c : 0xFFFD)
                .collect(StringBuilder::new, StringBuilder::appendCodePoint, StringBuilder::append)
                .toString();
    }

    private boolean hasShape(int c) {
        try {
            font.encode(Character.toString(c));
            return true;
        } catch (IllegalArgumentException e) {
            return false;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static float number(Element element, String attribute) {
        return Float.parseFloat(element.getAttribute(attribute));
    }
}
