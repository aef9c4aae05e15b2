package org.axtrial.measure;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Objects;
import java.util.stream.DoubleStream;

/** Data sets of the NIST Statistical Reference Datasets, as the test archive of commons-math carries them. */
final class Strd {

    // Source: NIST StRD, linear regression, Norris: calibration of ozone monitors.
    static final double[] NORRIS_Y = {
        0.1, 338.8, 118.1, 888.0, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3, 0.1, 778.1, 668.8, 339.3, 448.9,
        10.8, 557.7, 228.3, 998.0, 888.8, 119.6, 0.3, 0.6, 557.6, 339.3, 888.0, 998.5, 778.9, 10.2, 117.6, 228.9, 668.4,
        449.2, 0.2
    };

    static final double[] NORRIS_X = {
        0.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4, 0.6, 775.5, 666.9, 338.0, 447.5,
        11.6, 556.0, 228.1, 995.8, 887.6, 120.2, 0.3, 0.3, 556.8, 339.1, 887.2, 999.0, 779.0, 11.1, 118.3, 229.2, 669.1,
        448.9, 0.5
    };

    private Strd() {}

    /** The observations of a univariate data set: the last block of lines that hold one number each. */
    static double[] univariate(String name) {
        List<String> lines = lines(name);
        int first = lines.size();
        while (first > 0 && lines.get(first - 1).strip().matches("-?[0-9.]*")) {
            first--;
        }
        return lines.subList(first, lines.size()).stream()
                .map(String::strip)
                .filter(line -> !line.isEmpty())
                .flatMapToDouble(line -> DoubleStream.of(Double.parseDouble(line)))
                .toArray();
    }

    private static List<String> lines(String name) {
        String path = "/org/apache/commons/math3/stat/data/" + name + ".txt";
        try (InputStream in = Objects.requireNonNull(Strd.class.getResourceAsStream(path), path)) {
            return new String(in.readAllBytes(), StandardCharsets.US_ASCII)
                    .lines()
                    .toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
