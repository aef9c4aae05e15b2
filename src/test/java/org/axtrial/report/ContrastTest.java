package org.axtrial.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Every colour of text can be read on its ground, on paper that is printed in grey too. Source: WCAG 2.1, 1.4.3 (4.5 : 1) and
 * the definitions of relative luminance and contrast ratio there; from memory. A ratio is one of luminances, which is what is
 * left of a colour in grey.
 */
class ContrastTest {

    private static final double LEAST = 4.5;

    private static final List<String> TEXTS =
            List.of("ink", "soft", "pass", "fail", "error", "inconclusive", "blocked", "idle");
    private static final Pattern VARIABLE = Pattern.compile("--([a-z]+): *(#[0-9a-fA-F]{3,6})");

    record Pair(String where, String text, String ground) {}

    static List<Pair> pairs() throws IOException {
        List<Pair> pairs = new ArrayList<>();
        String print = Templates.resource("print.css");
        colours(print).forEach(colour -> {
            pairs.add(new Pair("print.css on paper", colour, "#ffffff"));
            pairs.add(new Pair("print.css on cautions", colour, "#f0f0f0"));
        });
        String screen = Templates.resource("report.css");
        List<Map<String, String>> schemes = new ArrayList<>();
        Matcher roots = Pattern.compile(":root \\{(.*?)\\}", Pattern.DOTALL).matcher(screen);
        while (roots.find()) {
            // Each scheme takes from the first what it does not set itself.
            Map<String, String> scheme = new HashMap<>(schemes.isEmpty() ? Map.of() : schemes.get(0));
            VARIABLE.matcher(roots.group(1)).results().forEach(set -> scheme.put(set.group(1), set.group(2)));
            schemes.add(scheme);
        }
        assertThat(schemes).as("light, dark, print").hasSize(3);
        for (int i = 0; i < schemes.size(); i++) {
            Map<String, String> scheme = schemes.get(i);
            for (String name : TEXTS) {
                for (String ground : List.of("paper", "wash")) {
                    pairs.add(new Pair(
                            List.of("light", "dark", "print").get(i) + ", " + name + " on " + ground,
                            Objects.requireNonNull(scheme.get(name), name),
                            Objects.requireNonNull(scheme.get(ground), ground)));
                }
            }
        }
        return pairs;
    }

    private static List<String> colours(String css) {
        return Pattern.compile("[;{ ]color: *(#[0-9a-fA-F]{3,6})")
                .matcher(css)
                .results()
                .map(found -> found.group(1))
                .distinct()
                .toList();
    }

    @ParameterizedTest
    @MethodSource("pairs")
    void textStandsOutFromItsGround(Pair pair) {
        assertThat(contrast(pair.text, pair.ground)).isGreaterThanOrEqualTo(LEAST);
    }

    static double contrast(String one, String other) {
        double a = luminance(one);
        double b = luminance(other);
        return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
    }

    private static double luminance(String colour) {
        String hex = colour.length() == 4
                ? "" + colour.charAt(1) + colour.charAt(1) + colour.charAt(2) + colour.charAt(2) + colour.charAt(3)
                        + colour.charAt(3)
                : colour.substring(1);
        return 0.2126 * linear(hex, 0) + 0.7152 * linear(hex, 2) + 0.0722 * linear(hex, 4);
    }

    private static double linear(String hex, int at) {
        double value = Integer.parseInt(hex.substring(at, at + 2), 16) / 255.0;
        return value <= 0.04045 ? value / 12.92 : Math.pow((value + 0.055) / 1.055, 2.4);
    }
}
