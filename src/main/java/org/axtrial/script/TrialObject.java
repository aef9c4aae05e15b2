package org.axtrial.script;

import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.axtrial.axis.AxisSetup;
import org.axtrial.evidence.PunchClass;
import org.axtrial.evidence.ScriptPlace;
import org.axtrial.measure.Contribution;
import org.axtrial.measure.Criterion;
import org.axtrial.measure.DecisionRule;
import org.axtrial.measure.Judge;
import org.axtrial.measure.Judgement;
import org.axtrial.measure.Mark;
import org.axtrial.measure.Measurement;
import org.axtrial.measure.Printed;
import org.axtrial.measure.Source;
import org.axtrial.measure.Verdict;
import org.axtrial.quantity.Conversion;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.graalvm.polyglot.Value;
import org.jspecify.annotations.Nullable;

/** The trial as a script holds it, by convention {@code t}: checks, notes and computed values. */
final class TrialObject extends WordObject {

    private static final String COMPUTED_USAGE =
            "t.computed(3.2, \"mm\", { from: [out.travel()], uncertainty: [0.01, \"mm\"] })";

    private static final String PUNCH_USAGE =
            "t.punch(\"Tighten the clamp of the coupling\", { class: \"B\", owner: \"Fitter\", due: \"2027-01-31\" })";

    private final AxisObject axis;
    private final Conversion conversion;
    private final TrialEvents events;
    private final DecisionRule rule;
    private final LimitWords limits;
    private final List<Verdict> verdicts = new ArrayList<>();
    private String worstReason = "";

    TrialObject(
            WordHost host,
            AxisObject axis,
            AxisSetup setup,
            TrialEvents events,
            DecisionRule rule,
            List<LimitInForce> limits) {
        super(host, "the trial");
        this.axis = axis;
        this.conversion = setup.scale();
        this.events = events;
        this.rule = rule;
        this.limits = new LimitWords(host, limits, conversion);
        word("check", this::check);
        word("computed", this::computed);
        word("limit", (values, place) -> this.limits.limit(values));
        word("note", (values, place) -> say("note", "Note: ", values, place));
        word("step", (values, place) -> say("step", "", values, place));
        word("punch", this::punch);
        new SeriesWords(this, setup, events).offer();
        new FrictionWords(this, setup).offer();
        new PoseWords(this, setup, events).offer();
    }

    /** Verdicts of the checks made so far. */
    List<Verdict> verdicts() {
        return List.copyOf(verdicts);
    }

    /** What the worst check said; empty if all passed. */
    String worstReason() {
        return worstReason;
    }

    private @Nullable Object say(String word, String prefix, List<Value> values, Optional<ScriptPlace> place) {
        String text = new Arguments(word, "t." + word + "(\"text\")", values)
                .count(1, 1)
                .text(0, "text");
        events.step(prefix + text, place);
        return null;
    }

    /** Something is still to be done on the machine. The result of the trial is not touched by it. */
    private @Nullable Object punch(List<Value> values, Optional<ScriptPlace> place) {
        Arguments arguments = new Arguments("punch", PUNCH_USAGE, values).count(2, 2);
        String text = arguments.text(0, "what is to be done");
        Options options = arguments.options(1, "class", "owner", "due");
        String letter = options.text("class")
                .orElseThrow(() -> new ScriptMistake("punch: option class is missing; write " + PUNCH_USAGE));
        PunchClass grade = PunchClass.of(letter)
                .orElseThrow(() -> new ScriptMistake("punch: there is no class \"" + letter
                        + "\"; A bars acceptance until closed, B has a date, C is minor"));
        events.punch(
                text,
                grade,
                options.text("owner").orElse(""),
                options.text("due").map(TrialObject::day),
                place);
        return null;
    }

    private static LocalDate day(String text) {
        try {
            return LocalDate.parse(text);
        } catch (DateTimeParseException e) {
            throw new ScriptMistake("punch: due is \"" + text + "\"; write a date as 2027-01-31");
        }
    }

    private Object check(List<Value> values, Optional<ScriptPlace> place) {
        String usage = "t.check(\"Position change\", out.travel(), atMost(1, \"mm\"))";
        Arguments arguments = new Arguments("check", usage, values).count(3, 3);
        String name = arguments.text(0, "name");
        MeasurementObject measured = measurement(arguments.value(1));
        CriterionObject against = criterion(arguments.value(2));
        Criterion criterion = against.on(measured.conversion());
        Measurement measurement = measured.measurement();
        if (!CriterionObject.sameKind(measurement.unit(), criterion.unit())) {
            throw new ScriptMistake("check: " + measurement.name() + " is in "
                    + measurement.unit().symbol() + ", a unit of " + Arguments.kindOf(measurement.unit())
                    + ", but the criterion \"" + criterion.printed() + "\" is in "
                    + criterion.unit().symbol() + ", a unit of " + Arguments.kindOf(criterion.unit()));
        }
        Judgement judgement = Judge.judge(measurement, criterion, measured.conversion(), rule);
        remember(name, judgement);
        events.check(name, judgement, measured.trace(), measurement.marks(), limits.usedIn(against), place);
        return judgement.verdict() == Verdict.PASS;
    }

    private void remember(String name, Judgement judgement) {
        Verdict before = Verdict.worst(verdicts);
        verdicts.add(judgement.verdict());
        if (judgement.verdict() != Verdict.PASS
                && (worstReason.isEmpty() || judgement.verdict().compareTo(before) < 0)) {
            worstReason = name + ": " + Printed.comparison(judgement)
                    + (judgement.reason().isEmpty() ? "" : " (" + judgement.reason() + ")");
        }
    }

    private static MeasurementObject measurement(Value value) {
        if (value.isProxyObject() && value.asProxyObject() instanceof MeasurementObject object) {
            return object;
        }
        if (value.isNumber()) {
            throw new ScriptMistake("check: the measured value is the bare number " + value
                    + ", which has neither unit nor uncertainty; pass a measurement such as out.travel(), or state both"
                    + " with " + COMPUTED_USAGE);
        }
        throw new ScriptMistake("check: the second argument must be a measurement such as out.travel() but is "
                + Arguments.shown(value));
    }

    private static CriterionObject criterion(Value value) {
        if (value.isProxyObject() && value.asProxyObject() instanceof CriterionObject object) {
            return object;
        }
        throw new ScriptMistake("check: the third argument must be a criterion such as"
                + " nominal(1, \"rev\").plusMinus(0.5, \"deg\"), atMost, atLeast or between, but is "
                + Arguments.shown(value));
    }

    /** A number that the script has computed becomes a measurement only with its origin and its uncertainty. */
    private Object computed(List<Value> values, Optional<ScriptPlace> place) {
        Arguments arguments = new Arguments("computed", COMPUTED_USAGE, values).count(1, 3);
        Quantity quantity = arguments.quantity(0, "value");
        Options options = arguments.options(2, "from", "uncertainty");
        Origin origin = origin(options.required("from", COMPUTED_USAGE));
        Quantity uncertainty = arguments.positive(
                arguments.pair(options.required("uncertainty", COMPUTED_USAGE), "option uncertainty"),
                "option uncertainty");
        Unit unit = quantity.unit();
        if (!CriterionObject.sameKind(uncertainty.unit(), unit)) {
            throw new ScriptMistake("computed: the value is in " + unit.symbol() + " and its uncertainty in "
                    + uncertainty.unit().symbol() + "; give both in units of " + Arguments.kindOf(unit));
        }
        double standard = conversion.convert(uncertainty.value(), uncertainty.unit(), unit);
        Measurement measurement = new Measurement(
                        "computed value",
                        "computed by the script from " + String.join(", ", origin.names),
                        quantity.value(),
                        unit,
                        Measurement.Bound.EXACT,
                        origin.source(),
                        origin.samplePeriod,
                        origin.resolution(unit),
                        List.of(new Contribution(
                                "stated by the script",
                                Contribution.Evaluation.B,
                                "standard uncertainty " + uncertainty.printed(),
                                standard,
                                Double.POSITIVE_INFINITY)),
                        origin.marks(),
                        origin.unusable)
                .withReservation(origin.reservation);
        return new MeasurementObject(host(), measurement, origin.trace(), conversion);
    }

    private Origin origin(Value from) {
        if (!from.hasArrayElements() || from.getArraySize() == 0) {
            throw new ScriptMistake("computed: option from must list the measurements that the value comes from but is "
                    + Arguments.shown(from) + "; write " + COMPUTED_USAGE);
        }
        Origin origin = new Origin();
        for (long i = 0; i < from.getArraySize(); i++) {
            Value element = from.getArrayElement(i);
            if (element.isProxyObject() && element.asProxyObject() instanceof MeasurementObject object) {
                origin.add(object);
            } else if (element.isString() && axis.hasRead(element.asString())) {
                origin.names.add("signal " + element.asString());
                origin.sources.add(Source.DRIVE);
            } else {
                throw new ScriptMistake("computed: option from may list measurements, \"position\" and signals that the"
                        + " trial has read; " + Arguments.shown(element) + " is none of them");
            }
        }
        return origin;
    }

    /** What a computed value inherits from the measurements it comes from. */
    private final class Origin {

        private final List<String> names = new ArrayList<>();
        private final List<Source> sources = new ArrayList<>();
        private final List<Measurement> measurements = new ArrayList<>();
        private final Set<Optional<String>> traces = new HashSet<>();
        private OptionalDouble samplePeriod = OptionalDouble.empty();
        private Optional<String> unusable = Optional.empty();
        private Optional<String> reservation = Optional.empty();

        void add(MeasurementObject object) {
            Measurement measurement = object.measurement();
            names.add(measurement.name());
            sources.add(measurement.source());
            measurements.add(measurement);
            traces.add(object.trace());
            reservation = reservation.or(measurement::reservation);
            if (measurement.samplePeriod().isPresent()) {
                samplePeriod = OptionalDouble.of(Math.max(
                        samplePeriod.orElse(0), measurement.samplePeriod().getAsDouble()));
            }
            if (unusable.isEmpty() && measurement.missing().isPresent()) {
                unusable = Optional.of(measurement.name() + " has no value: "
                        + measurement.missing().get());
            } else if (unusable.isEmpty() && measurement.bound() != Measurement.Bound.EXACT) {
                unusable = Optional.of(measurement.name() + " is only known as a bound");
            }
        }

        Source source() {
            return Source.worst(sources);
        }

        /** The coarsest resolution among those that can be told in the unit of the value. */
        double resolution(Unit unit) {
            return measurements.stream()
                    .filter(measurement -> CriterionObject.sameKind(measurement.unit(), unit))
                    .mapToDouble(m -> conversion.convert(m.resolution(), m.unit(), unit))
                    .max()
                    .orElse(0);
        }

        Optional<String> trace() {
            return traces.size() == 1 ? traces.iterator().next() : Optional.empty();
        }

        List<Mark> marks() {
            return traces.size() == 1
                    ? measurements.stream().flatMap(m -> m.marks().stream()).toList()
                    : List.of();
        }
    }

    @Override
    String printed() {
        return "the trial";
    }
}
