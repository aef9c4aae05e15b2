package org.axtrial.engine;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.NavigableSet;
import java.util.Optional;
import java.util.TreeSet;
import java.util.stream.Stream;
import tools.jackson.databind.JsonNode;
import tools.jackson.dataformat.yaml.YAMLMapper;

/**
 * What to prove again after work on a machine, read from {@code after-maintenance.yaml} beside this class. Common
 * practice, no source.
 *
 * @param first what is always proven first
 * @param last what is always proven last
 * @param works kinds of work by the word of the command line, in the order of the file
 * @param catalogue the acceptance trials by their number
 */
record MaintenanceTable(Numbers first, Numbers last, Map<String, Work> works, Map<Integer, Entry> catalogue) {

    private static final String RESOURCE = "after-maintenance.yaml";

    /**
     * Numbers of the catalogue.
     *
     * @param text as the table writes them, ranges with a dash
     * @param all each of them
     */
    record Numbers(List<String> text, NavigableSet<Integer> all) {

        Numbers {
            text = List.copyOf(text);
            all = Collections.unmodifiableNavigableSet(new TreeSet<>(all));
        }

        /** Reads, for example, {@code 6-8, 11}. */
        static Numbers parse(String written) {
            List<String> parts =
                    Stream.of(written.split(",", -1)).map(String::strip).toList();
            NavigableSet<Integer> all = new TreeSet<>();
            for (String part : parts) {
                all.addAll(span(part));
            }
            return new Numbers(parts, all);
        }

        /** The part of the table that holds a number, for example {@code 6–8}; empty if none does. */
        Optional<String> part(int number) {
            return text.stream()
                    .filter(part -> span(part).contains(number))
                    .map(part -> part.replace('-', '–'))
                    .findFirst();
        }

        private static NavigableSet<Integer> span(String part) {
            String[] ends = part.split("-", 2);
            int from = Integer.parseInt(ends[0]);
            int to = ends.length == 1 ? from : Integer.parseInt(ends[1]);
            if (from < 1 || to < from) {
                throw new IllegalArgumentException("a range of numbers rises from 1 at least, got " + part);
            }
            NavigableSet<Integer> all = new TreeSet<>();
            for (int number = from; number <= to; number++) {
                all.add(number);
            }
            return all;
        }
    }

    /**
     * One kind of work.
     *
     * @param done what was done, in words
     * @param trials what is to be proven again beside what always is
     * @param note what else is to be heeded; empty string if nothing is
     */
    record Work(String done, Numbers trials, String note) {}

    /**
     * One acceptance trial of the catalogue.
     *
     * @param name what it is called
     * @param needs what it needs beside the drive; empty string if nothing
     */
    record Entry(String name, String needs) {}

    MaintenanceTable {
        works = Collections.unmodifiableMap(new LinkedHashMap<>(works));
        catalogue = Collections.unmodifiableMap(new LinkedHashMap<>(catalogue));
    }

    /** Reads the table that comes with the program. */
    static MaintenanceTable load() {
        try (InputStream in = MaintenanceTable.class.getResourceAsStream(RESOURCE)) {
            if (in == null) {
                throw new IllegalStateException(RESOURCE + " is missing in the program");
            }
            JsonNode tree = new YAMLMapper().readTree(in);
            Map<String, Work> works = new LinkedHashMap<>();
            tree.path("works")
                    .properties()
                    .forEach(entry -> works.put(
                            entry.getKey(),
                            new Work(
                                    text(entry.getValue(), "done"),
                                    Numbers.parse(text(entry.getValue(), "trials")),
                                    entry.getValue().path("note").asString(""))));
            Map<Integer, Entry> catalogue = new LinkedHashMap<>();
            tree.path("catalogue")
                    .properties()
                    .forEach(entry -> catalogue.put(
                            Integer.parseInt(entry.getKey()),
                            new Entry(
                                    text(entry.getValue(), "name"),
                                    entry.getValue().path("needs").asString(""))));
            JsonNode always = tree.path("always");
            return new MaintenanceTable(
                    Numbers.parse(text(always, "first")), Numbers.parse(text(always, "last")), works, catalogue);
        } catch (IOException e) {
            throw new UncheckedIOException(RESOURCE + " cannot be read", e);
        }
    }

    private static String text(JsonNode node, String key) {
        String text = node.path(key).asString("");
        if (text.isEmpty()) {
            throw new IllegalStateException(RESOURCE + ": " + key + " is missing");
        }
        return text;
    }
}
