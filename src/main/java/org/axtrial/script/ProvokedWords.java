package org.axtrial.script;

import java.time.Duration;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.axtrial.axis.Axis;
import org.axtrial.axis.LinkCut;
import org.axtrial.axis.LinkLoss;
import org.axtrial.axis.LinkTimes;
import org.axtrial.axis.Motion;
import org.axtrial.axis.MoveOptions;
import org.axtrial.axis.StopCause;
import org.axtrial.evidence.ScriptPlace;
import org.axtrial.measure.ToldTexts;
import org.axtrial.quantity.Quantity;
import org.graalvm.polyglot.Value;
import org.graalvm.polyglot.proxy.ProxyArray;

/** The words of an axis that provoke a limit, a trip or a loss of the link, and those that look at the link. */
final class ProvokedWords {

    private static final String UNTIL_STOPPED = "axis.moveUntilStopped(20, \"mm\", { by: \"limit\" })";
    private static final String STARTED_TWICE = "axis.moveStartedTwice(5, \"mm\")";
    private static final String WITHOUT_LINK =
            "axis.moveWithoutLink(100, \"mm\", { cut: \"silence\", after: [300, \"ms\"], lasts: [1, \"s\"] })";
    private static final String IDENTIFICATION =
            "axis.deviceIdentification({ productCode: \"X-100\", revision: \"2.11\" })";
    private static final int MOST_READS = 100_000;

    private final AxisObject object;
    private final Axis axis;
    private final TrialEvents events;

    ProvokedWords(AxisObject object, Axis axis, TrialEvents events) {
        this.object = object;
        this.axis = axis;
        this.events = events;
    }

    void offer() {
        object.loneWord("moveUntilStopped", this::untilStopped);
        object.loneWord("moveStartedTwice", this::startedTwice);
        object.loneWord("moveWithoutLink", this::withoutLink);
        object.loneWord("awaitRestart", (values, place) -> {
            String usage = "axis.awaitRestart({ within: [2, \"min\"] })";
            Arguments arguments = new Arguments("awaitRestart", usage, values).count(1, 1);
            Options given = arguments.options(0, "within");
            Duration within = arguments.duration(
                    arguments.pair(given.required("within", usage), "option within"), "option within");
            axis.awaitRestart(within);
            events.step("The drive was switched off and on, and answers again", place);
            return null;
        });
        object.loneWord("linkTimes", this::linkTimes);
        object.axisWord("deviceIdentification", this::deviceIdentification);
        object.axisWord("parameterNames", (values, place) -> {
            new Arguments("parameterNames", "axis.parameterNames()", values).count(0, 0);
            return ProxyArray.fromArray(axis.parameterNames().toArray());
        });
    }

    private Object untilStopped(List<Value> values, Optional<ScriptPlace> place) throws InterruptedException {
        Arguments arguments = new Arguments("moveUntilStopped", UNTIL_STOPPED, values).count(2, 3);
        Quantity distance = distance(arguments);
        Options given = arguments.options(2, "by", "speed", "acceleration", "settle");
        given.required("by", UNTIL_STOPPED);
        StopCause by = oneOf("moveUntilStopped", "by", given.text("by").orElseThrow(), StopCause.values());
        MoveOptions options = object.moveOptions(arguments, given);
        String text = "Move by " + distance.printed() + AxisObject.with(options) + " until "
                + (by == StopCause.LIMIT ? "a limit" : "the drive") + " stops it";
        return object.moved("moveUntilStopped", text, () -> axis.moveUntilStopped(distance, options, by), place);
    }

    private Object startedTwice(List<Value> values, Optional<ScriptPlace> place) throws InterruptedException {
        Arguments arguments = new Arguments("moveStartedTwice", STARTED_TWICE, values).count(2, 3);
        Quantity distance = distance(arguments);
        MoveOptions options = object.moveOptions(arguments, arguments.options(2, "speed", "acceleration", "settle"));
        String text = "Move by " + distance.printed() + AxisObject.with(options) + ", start word sent twice";
        return object.moved("moveStartedTwice", text, () -> axis.moveStartedTwice(distance, options), place);
    }

    private Object withoutLink(List<Value> values, Optional<ScriptPlace> place) throws InterruptedException {
        Arguments arguments = new Arguments("moveWithoutLink", WITHOUT_LINK, values).count(3, 3);
        Quantity distance = distance(arguments);
        Options given = arguments.options(2, "cut", "after", "lasts", "speed", "acceleration", "settle");
        given.required("cut", WITHOUT_LINK);
        LinkCut.How how = oneOf("moveWithoutLink", "cut", given.text("cut").orElseThrow(), LinkCut.How.values());
        Duration after = time(arguments, given, "after");
        Duration lasts = time(arguments, given, "lasts");
        MoveOptions options = object.moveOptions(arguments, given);
        LinkLoss loss = axis.moveWithoutLink(distance, options, new LinkCut(how, after, lasts));
        Motion motion = loss.motion();
        String text = "Move by " + distance.printed() + AxisObject.with(options) + ", link lost ("
                + how.name().toLowerCase(Locale.ROOT) + "); seen again "
                + (loss.stood() ? "at rest" : "still moving, and stopped") + ", drive: " + loss.state();
        events.step(text, place);
        return new LinkLossObject(
                object.host(),
                loss,
                events.trace("moveWithoutLink", text, motion.trace()),
                axis.setup().samplePeriod().toNanos() * 1e-9);
    }

    private Object linkTimes(List<Value> values, Optional<ScriptPlace> place) throws InterruptedException {
        String usage = "axis.linkTimes({ reads: 1000 })";
        Arguments arguments = new Arguments("linkTimes", usage, values).count(1, 1);
        Value reads = arguments.options(0, "reads").required("reads", usage);
        if (!reads.fitsInInt() || reads.asInt() < 1 || reads.asInt() > MOST_READS) {
            throw new ScriptMistake("linkTimes: option reads must be a whole number from 1 to " + MOST_READS
                    + " but is " + Arguments.shown(reads));
        }
        LinkTimes times = axis.linkTimes(reads.asInt());
        events.step(
                "Looked " + reads.asInt() + " times at the drive, " + times.errors() + " without a valid reply", place);
        return new LinkTimesObject(object.host(), times, axis.setup().scale());
    }

    private Object deviceIdentification(List<Value> values, Optional<ScriptPlace> place) {
        Arguments arguments = new Arguments("deviceIdentification", IDENTIFICATION, values).count(1, 1);
        Options given = arguments.options(0, Axis.IDENTIFICATION_OBJECTS.toArray(String[]::new));
        Map<String, String> listed = new LinkedHashMap<>();
        for (String name : Axis.IDENTIFICATION_OBJECTS) {
            given.text(name).ifPresent(text -> listed.put(name, text));
        }
        if (listed.isEmpty()) {
            throw new ScriptMistake(
                    "deviceIdentification: name at least one text of the equipment list; write " + IDENTIFICATION);
        }
        Map<String, String> told = axis.identification();
        events.step(
                told.isEmpty()
                        ? "The drive tells no device identification (function 43)"
                        : "The drive says of itself: "
                                + told.entrySet().stream()
                                        .map(text -> text.getKey() + " \"" + text.getValue() + "\"")
                                        .collect(Collectors.joining(", ")),
                place);
        return new MeasurementObject(
                object.host(),
                ToldTexts.differing(listed, told),
                Optional.empty(),
                axis.setup().scale());
    }

    private Quantity distance(Arguments arguments) {
        Quantity distance = object.positionOf(arguments, "distance");
        if (distance.value() == 0) {
            throw new ScriptMistake("the distance is 0, which moves nothing; give it a sign and a size");
        }
        return distance;
    }

    private static Duration time(Arguments arguments, Options given, String key) {
        return arguments.duration(arguments.pair(given.required(key, WITHOUT_LINK), "option " + key), "option " + key);
    }

    private static <E extends Enum<E>> E oneOf(String word, String key, String text, E[] all) {
        return Arrays.stream(all)
                .filter(each -> each.name().toLowerCase(Locale.ROOT).equals(text))
                .findFirst()
                .orElseThrow(() -> new ScriptMistake(word + ": option " + key + " is \"" + text + "\"; it is "
                        + Arrays.stream(all)
                                .map(each -> "\"" + each.name().toLowerCase(Locale.ROOT) + "\"")
                                .collect(Collectors.joining(" or "))));
    }
}
