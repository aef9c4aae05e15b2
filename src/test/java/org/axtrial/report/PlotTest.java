package org.axtrial.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.axtrial.measure.Mark;
import org.jsoup.Jsoup;
import org.jsoup.nodes.Element;
import org.jsoup.parser.Parser;
import org.junit.jupiter.api.Test;

class PlotTest {

    private static Plot plot() {
        return new Plot("p", "Title", "Description", "Position / rev", 0, 10);
    }

    private static Element svg(Plot plot) {
        return Jsoup.parse(plot.svg(), "", Parser.xmlParser()).expectFirst("svg");
    }

    @Test
    void thinningKeepsEveryPeakAndStaysSmall() {
        double[] x = new double[100_000];
        double[] y = new double[x.length];
        Arrays.setAll(x, i -> i * 1e-4);
        y[12_345] = 7;
        y[99_998] = -3;
        List<double[]> points = Line.of("actual", x, y).points();
        assertThat(points).hasSizeLessThanOrEqualTo(Line.MOST_POINTS);
        assertThat(points).anyMatch(p -> p[0] == x[12_345] && p[1] == 7);
        assertThat(points).anyMatch(p -> p[0] == x[99_998] && p[1] == -3);
        assertThat(points.stream().mapToDouble(p -> p[0]).toArray()).isSorted();
    }

    @Test
    void straightPartsNeedNoPointsAndNothingMovesFartherThanAHair() {
        List<double[]> points = new ArrayList<>();
        for (int i = 0; i < 400; i++) {
            points.add(new double[] {i, i < 200 ? 0.5 * i : 100 + 3 * Math.sin(i * 0.05)});
        }
        List<double[]> drawn = Line.straightened(points, 0.1);
        assertThat(drawn).hasSizeLessThan(80).contains(points.get(0), points.get(399));
        for (double[] point : points) {
            assertThat(interpolated(drawn, point[0])).isCloseTo(point[1], within(0.12));
        }
        assertThat(Line.straightened(points.subList(0, 200), 0.1)).hasSize(2);
    }

    private static double interpolated(List<double[]> line, double x) {
        for (int i = 1; i < line.size(); i++) {
            double[] a = line.get(i - 1);
            double[] b = line.get(i);
            if (x <= b[0]) {
                return a[1] + (b[1] - a[1]) * (x - a[0]) / (b[0] - a[0]);
            }
        }
        throw new AssertionError("not on the line: " + x);
    }

    @Test
    void lastStepOfAnEncoderDoesNotLookLikeAMotion() {
        Element svg = svg(
                plot().leastHeight(0.01).line(Line.of("actual", new double[] {0, 5, 10}, new double[] {0, 0.001, 0})));
        List<String> ticks = svg.select("text.tick[text-anchor=end]").eachText();
        assertThat(ticks).containsExactly("\u22120.005", "0.000", "0.005");
    }

    @Test
    void namesOfOneInstantShareALine() {
        Element svg = svg(plot().line(Line.of("actual", new double[] {0, 10}, new double[] {0, 1}))
                .marks(List.of(new Mark("speed from", 2), new Mark("ripple from", 2))));
        assertThat(svg.select(".mark-label").eachText()).containsExactly("speed from, ripple from");
    }

    @Test
    void shortCurvesKeepEverySample() {
        double[] x = {0, 1, 2};
        assertThat(Line.of("actual", x, x).points()).hasSize(3);
    }

    // Common practice, no source: steps of 1, 2 or 5 times a power of ten.
    @Test
    void ticksAreRound() {
        assertThat(new Ticks(0.13, 0.97, 5).values()).containsExactly(0.2, 0.4, 0.6000000000000001, 0.8);
        Ticks ticks = new Ticks(-0.0011, 0.0011, 5);
        assertThat(ticks.values().stream().map(ticks::text))
                .containsExactly("\u22120.0010", "\u22120.0005", "0.0000", "0.0005", "0.0010");
        assertThat(new Ticks(599.9, 600.1, 4).values()).hasSizeBetween(3, 6);
    }

    @Test
    void labelsOfMarksDoNotTouch() {
        Element svg = svg(plot().line(Line.of("actual", new double[] {0, 10}, new double[] {0, 1}))
                .marks(List.of(
                        new Mark("arrived", 5),
                        new Mark("settled in the window", 5.05),
                        new Mark("at rest", 5.1),
                        new Mark("end", 9.9),
                        new Mark("outside", 11))));
        List<Element> labels = svg.select(".mark-label");
        assertThat(labels.stream().map(Element::text))
                .containsExactly("arrived", "settled in the window", "at rest", "end");
        assertThat(labels.subList(0, 3).stream().map(l -> l.attr("y"))).doesNotHaveDuplicates();
        assertThat(labels.get(3).attr("text-anchor")).isEqualTo("end");
    }

    @Test
    void standingCurveAndEmptyCurveStillDraw() {
        assertThat(svg(plot().line(Line.of("actual", new double[] {0, 10}, new double[] {5, 5})))
                        .outerHtml())
                .doesNotContain("NaN", "Infinity");
        assertThat(svg(plot()).outerHtml()).doesNotContain("NaN", "Infinity");
    }

    @Test
    void bandThinnerThanAHairIsStillDrawn() {
        Element band = svg(plot().line(Line.of("actual", new double[] {0, 10}, new double[] {0, 1e6}))
                        .band(Optional.of(new Plot.Band(10, 10.001))))
                .expectFirst(".band");
        assertThat(Double.parseDouble(band.attr("height"))).isPositive();
    }

    @Test
    void hostileTitleStaysText() {
        Element svg = svg(new Plot("p", "</title><script>\u0000\u202e", "\"&'", "y", 0, 1));
        assertThat(svg.select("script")).isEmpty();
        assertThat(svg.expectFirst("title").text()).isEqualTo("</title><script>\ufffd\ufffd");
    }
}
