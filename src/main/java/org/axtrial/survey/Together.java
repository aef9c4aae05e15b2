package org.axtrial.survey;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.axtrial.evidence.LinkRecord;
import org.axtrial.evidence.LinkRecord.Finding;
import org.axtrial.evidence.LinkRecord.Grade;

/** What only shows when the axes of a site are looked at together. */
public final class Together {

    private Together() {}

    /**
     * Adds what the looks at several axes say together: axes lost behind one place, and drives that are one and the same.
     *
     * @param results one for each axis, in the order of the site file
     * @param behind for an axis of a daisy chain the axis from whose second port it is wired
     * @return the records, with the added findings
     */
    public static List<LinkRecord> of(List<LinkCheck.Result> results, Map<String, String> behind) {
        Map<String, LinkRecord> links = new LinkedHashMap<>();
        results.forEach(result -> links.put(result.link().axis(), result.link()));
        lostTogether(results, behind).forEach((axis, text) -> add(links, axis, Grade.NOT_PROVEN, text));
        sameSerials(results).forEach((axis, text) -> add(links, axis, Grade.WRONG, text));
        return List.copyOf(links.values());
    }

    private static void add(Map<String, LinkRecord> links, String axis, Grade grade, String text) {
        links.computeIfPresent(axis, (name, link) -> link.with(new Finding(grade, text, List.of(), List.of())));
    }

    /** For the first axis of each group that is lost, where to look. */
    static Map<String, String> lostTogether(List<LinkCheck.Result> results, Map<String, String> behind) {
        Map<String, Boolean> lost = new LinkedHashMap<>();
        results.forEach(result -> lost.put(result.link().axis(), result.lost()));
        Map<String, String> places = new LinkedHashMap<>();
        for (Map.Entry<String, Boolean> entry : lost.entrySet()) {
            String head = entry.getKey();
            String before = behind.get(head);
            boolean inChain = before != null || behind.containsValue(head);
            boolean first = before == null || !lost.getOrDefault(before, false);
            if (entry.getValue() && inChain && first) {
                places.put(head, place(head, Optional.ofNullable(before), downstream(head, behind), lost));
            }
        }
        return places;
    }

    private static String place(String head, Optional<String> before, List<String> after, Map<String, Boolean> lost) {
        List<String> answering =
                after.stream().filter(axis -> !lost.getOrDefault(axis, false)).toList();
        if (!answering.isEmpty()) {
            return "Only " + head + " is lost, and " + answering.get(0)
                    + " behind it answers: the cable is good. Look at " + head
                    + " itself, its address and its Modbus settings";
        }
        String where = before.map(axis -> "look at axis " + axis + " and the cable behind it")
                .orElse("look at the cable that leads to " + head + ", and at " + head + " itself");
        return after.isEmpty()
                ? "Axis " + head + " is the last of its chain: " + where + ", then at " + head
                : "Axes " + head + " to " + after.get(after.size() - 1) + " vanished together: " + where;
    }

    /** Everything wired behind an axis, the nearest first. */
    private static List<String> downstream(String head, Map<String, String> behind) {
        List<String> after = new ArrayList<>();
        List<String> next = List.of(head);
        while (!next.isEmpty()) {
            List<String> from = next;
            next = behind.entrySet().stream()
                    .filter(entry -> from.contains(entry.getValue()) && !after.contains(entry.getKey()))
                    .map(Map.Entry::getKey)
                    .toList();
            after.addAll(next);
        }
        return after;
    }

    private static Map<String, String> sameSerials(List<LinkCheck.Result> results) {
        Map<Long, List<LinkRecord>> bySerial = new HashMap<>();
        results.forEach(result -> result.serial()
                .ifPresent(serial -> bySerial.computeIfAbsent(serial, key -> new ArrayList<>())
                        .add(result.link())));
        Map<String, String> told = new LinkedHashMap<>();
        bySerial.forEach((serial, links) -> {
            if (links.size() > 1) {
                String all = links.stream()
                        .map(link -> link.axis() + " (" + link.peer() + ")")
                        .collect(Collectors.joining(" and "));
                links.forEach(
                        link -> told.put(
                                link.axis(),
                                "One drive answers for several axes: " + all + " tell the same serial number " + serial
                                        + ". Two addresses lead to one drive; a motion of one axis would move another's motor"));
            }
        });
        return told;
    }
}
