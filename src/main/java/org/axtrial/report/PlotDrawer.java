package org.axtrial.report;

import com.openhtmltopdf.css.sheet.FontFaceRule;
import com.openhtmltopdf.css.style.CssContext;
import com.openhtmltopdf.extend.OutputDevice;
import com.openhtmltopdf.extend.SVGDrawer;
import com.openhtmltopdf.layout.SharedContext;
import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FontStyle;
import com.openhtmltopdf.render.Box;
import com.openhtmltopdf.render.RenderingContext;
import java.io.File;
import java.util.List;
import org.w3c.dom.Element;

/**
 * Draws the SVG of {@link Plot} into a PDF: lines, paths, rectangles and texts, with real text in the fonts of the page. A
 * general SVG library would go through the fonts and the rasterizer of the Java at hand, and give other bytes on each.
 */
final class PlotDrawer implements SVGDrawer {

    @Override
    public SVGImage buildSVGImage(
            Element svg, Box box, CssContext css, double cssWidth, double cssHeight, double dotsPerPixel) {
        String[] viewBox = svg.getAttribute("viewBox").split(" ", -1);
        double width = Double.parseDouble(viewBox[2]);
        double height = Double.parseDouble(viewBox[3]);
        double drawn = cssWidth > 0 ? cssWidth : width * dotsPerPixel;
        return new Drawing(svg, drawn, drawn * height / width, drawn / width);
    }

    /** @param scale dots of the page for one unit of the drawing */
    private record Drawing(Element svg, double width, double height, double scale) implements SVGImage {

        @Override
        public int getIntrinsicWidth() {
            return (int) Math.round(width);
        }

        @Override
        public int getIntrinsicHeight() {
            return (int) Math.round(height);
        }

        @Override
        public void drawSVG(OutputDevice device, RenderingContext context, double x, double y) {
            new PlotPen(device, context, x, y, scale).draw(svg);
        }
    }

    @Override
    public void importFontFaceRules(List<FontFaceRule> fontFaces, SharedContext shared) {
        // The fonts of the page serve the drawings too.
    }

    @Override
    public void addFontFile(File fontFile, String family, Integer weight, FontStyle style) {
        // The fonts of the page serve the drawings too.
    }

    @Override
    public void close() {
        // Nothing is held open.
    }
}
