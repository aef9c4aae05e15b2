package org.axtrial.site;

import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import org.axtrial.axis.AxisSetup;
import org.axtrial.axis.AxisSetup.AfterTrial;
import org.axtrial.axis.AxisSetup.PositionZero;
import org.axtrial.axis.Envelope;
import org.axtrial.axis.FirstMotion;
import org.axtrial.quantity.AxisScale;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.axtrial.registers.DriveDescription;
import org.axtrial.sim.SimulationSpec;
import org.axtrial.sim.WireFault;
import org.axtrial.site.QuantityReader.Sign;

/** Reads one axis of a site file. */
final class AxisReader {

    private static final Pattern NAME = Pattern.compile("[A-Za-z][A-Za-z0-9_-]{0,31}");

    private static final Duration DEADLINE = Duration.ofMillis(500);
    private static final Duration SAMPLE_PERIOD = Duration.ofMillis(10);
    private static final Duration STANDSTILL = Duration.ofMillis(100);
    private static final Duration STOP_TIME = Duration.ofSeconds(3);

    private final YamlMap map;
    private final DriveShelf drives;
    private final long place;
    private final boolean real;
    private final ScaleReader scaleReader;
    private final QuantityReader quantities;
    private Optional<Endpoint> endpoint = Optional.empty();

    /**
     * @param place place of the axis in the file, from 1
     * @param real whether the site works with real axes, which are held to a careful first motion by default
     */
    AxisReader(YamlMap map, DriveShelf drives, long place, boolean real) {
        this.map = map;
        this.drives = drives;
        this.place = place;
        this.real = real;
        scaleReader = new ScaleReader(map, name());
        quantities = new QuantityReader(name(), scaleReader.isLinear());
    }

    /** The name in messages, also when the file gives none. */
    String name() {
        return map.text("name").orElse(map.path());
    }

    /** Where the drive answers, by which two axes on one drive are found; empty before {@link #read} or if wrong. */
    Optional<Endpoint> endpoint() {
        return endpoint;
    }

    Optional<SiteAxis> read() {
        map.text("name")
                .filter(name -> !NAME.matcher(name).matches())
                .ifPresent(name -> map.problem(
                        "name", "expected a letter, then up to 31 letters, digits, _ or -, found \"" + name + "\""));
        Optional<AxisScale> scale = scaleReader.read(quantities);
        Optional<Path> driveFile = drives.file(map);
        Optional<DriveDescription> drive = driveFile.flatMap(drives::description);
        endpoint = new EndpointReader(map)
                .read(quantities
                        .time(map, "linkDeadline", Duration.ofMillis(10), Duration.ofSeconds(60))
                        .orElse(DEADLINE));
        Optional<AxisSetup> setup = setup(scale);
        Optional<SimulationSpec> simulation = map.has("simulate")
                ? new SimulationReader(map, quantities, name(), scaleReader.isLinear(), place).read(scale)
                : Optional.empty();
        simulation = simulation.map(sound -> new MachineFaultReader(map.map("simulate"), quantities).in(sound));
        List<WireFault> faults = new FaultReader(map.map("simulate"), quantities).read();
        new AxisDriveRules(map, name(), scaleReader.isLinear()).check(scale, setup, drive, simulation);
        String description = map.text("description").orElse("");
        if (setup.isEmpty() || drive.isEmpty() || endpoint.isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(new SiteAxis(
                setup.get(), description, endpoint.get(), driveFile.orElseThrow(), drive.get(), simulation, faults));
    }

    private Optional<AxisSetup> setup(Optional<AxisScale> scale) {
        Optional<Unit> unit = positionUnit(scale);
        Optional<Envelope> envelope = new EnvelopeReader(map.map("envelope"), quantities).read(scale);
        Optional<Quantity> speed = within("speed", Sense.SPEED, scale, envelope.map(Envelope::speed), 0.1);
        Optional<Quantity> acceleration =
                within("acceleration", Sense.ACCELERATION, scale, envelope.map(Envelope::acceleration), 0.5);
        Duration period = quantities
                .time(map, "samplePeriod", Duration.ofMillis(1), Duration.ofSeconds(1))
                .orElse(SAMPLE_PERIOD);
        Duration standstill = standstillTime(period);
        Optional<Quantity> window = standstillWindow(scale);
        Optional<Duration> stopTime = stopTime(scale, envelope, acceleration, standstill);
        AfterTrial afterTrial = afterTrial();
        Optional<FirstMotion> firstMotion = firstMotion(scale, envelope);
        if (scale.isEmpty()
                || unit.isEmpty()
                || envelope.isEmpty()
                || speed.isEmpty()
                || acceleration.isEmpty()
                || window.isEmpty()
                || stopTime.isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(new AxisSetup(
                name(),
                scale.get(),
                unit.get(),
                map.text("zero").orElse("start").equals("drive") ? PositionZero.DRIVE : PositionZero.RUN_START,
                envelope.get(),
                speed.get(),
                acceleration.get(),
                period,
                window.get(),
                standstill,
                stopTime.get(),
                afterTrial,
                firstMotion));
    }

    /** What the axis is held to before its sense and scale are proven: as the file says, or with care on a real axis. */
    private Optional<FirstMotion> firstMotion(Optional<AxisScale> scale, Optional<Envelope> envelope) {
        YamlMap first = map.map("firstMotion");
        Optional<Quantity> travel = quantities.read(first, "travel", Sense.POSITION, Sign.POSITIVE);
        Optional<Quantity> speed = quantities.read(first, "speed", Sense.SPEED, Sign.POSITIVE);
        boolean held = real || map.has("firstMotion");
        if (!held || scale.isEmpty() || envelope.isEmpty()) {
            return Optional.empty();
        }
        Envelope whole = envelope.get();
        Unit unit = whole.highest().unit();
        double window = whole.highest().value()
                - scale.get().convert(whole.lowest(), unit).value();
        Quantity way = new Quantity(window, unit);
        notBeyond(first, "travel", travel, way, scale.get(), "the width of the travel window");
        notBeyond(first, "speed", speed, whole.speed(), scale.get(), "envelope.speed");
        Quantity farthest = new Quantity(window * FirstMotion.TRAVEL_SHARE, unit);
        Quantity fastest = new Quantity(
                whole.speed().value() * FirstMotion.SPEED_SHARE, whole.speed().unit());
        return Optional.of(new FirstMotion(travel.orElse(farthest), speed.orElse(fastest)));
    }

    private static void notBeyond(
            YamlMap map, String key, Optional<Quantity> value, Quantity most, AxisScale scale, String what) {
        if (value.isPresent() && scale.convert(value.get(), most.unit()).value() > most.value()) {
            map.problem(key, "\"" + value.get() + "\" is beyond " + what + ", \"" + most + "\"");
        }
    }

    private Optional<Unit> positionUnit(Optional<AxisScale> scale) {
        if (!map.has("unit")) {
            return scale.map(AxisScale::naturalUnit);
        }
        return QuantityReader.unit(map, "unit", Sense.POSITION.symbols(scaleReader.isLinear()))
                .filter(unit -> {
                    boolean linear = scaleReader.isLinear();
                    boolean good = Sense.POSITION.fits(unit) && (linear || !Sense.isLinear(unit));
                    if (!good) {
                        map.problem(
                                "unit",
                                "axis " + name() + " is " + (linear ? "linear" : "rotary") + ": expected "
                                        + Sense.POSITION.noun() + " in " + Sense.POSITION.units(linear) + ", found \""
                                        + unit.symbol()
                                        + "\"");
                    }
                    return good;
                });
    }

    /** A value that must not exceed the envelope; by default a share of it. */
    private Optional<Quantity> within(
            String key, Sense sense, Optional<AxisScale> scale, Optional<Quantity> limit, double share) {
        if (!map.has(key)) {
            return limit.map(most -> new Quantity(most.value() * share, most.unit()));
        }
        Optional<Quantity> value = quantities.read(map, key, sense, Sign.POSITIVE);
        if (value.isPresent() && limit.isPresent() && scale.isPresent()) {
            Quantity most = limit.get();
            if (scale.get().convert(value.get(), most.unit()).value() > most.value()) {
                map.problem(key, "\"" + value.get() + "\" is beyond envelope." + key + ", \"" + most + "\"");
            }
        }
        return value;
    }

    private Duration standstillTime(Duration period) {
        Duration twoSamples = period.multipliedBy(2);
        YamlMap standstill = map.map("standstill");
        Optional<Duration> given = quantities.time(standstill, "time", Duration.ofMillis(10), Duration.ofSeconds(60));
        given.filter(time -> time.compareTo(twoSamples) < 0)
                .ifPresent(time -> standstill.problem(
                        "time",
                        "expected at least two sample periods, " + QuantityReader.print(twoSamples) + ", found \""
                                + QuantityReader.print(time) + "\""));
        return given.orElse(twoSamples.compareTo(STANDSTILL) > 0 ? twoSamples : STANDSTILL);
    }

    private Optional<Quantity> standstillWindow(Optional<AxisScale> scale) {
        YamlMap standstill = map.map("standstill");
        if (standstill.has("window")) {
            return quantities.read(standstill, "window", Sense.POSITION, Sign.POSITIVE);
        }
        return scale.map(
                known -> new Quantity(SimulationReader.smallWindow(known.countsPerMotorRevolution()), Unit.COUNT));
    }

    private Optional<Duration> stopTime(
            Optional<AxisScale> scale,
            Optional<Envelope> envelope,
            Optional<Quantity> acceleration,
            Duration standing) {
        Optional<Duration> given = quantities.time(map, "stopTime", Duration.ofMillis(10), Duration.ofMinutes(10));
        if (scale.isEmpty() || envelope.isEmpty() || acceleration.isEmpty()) {
            return map.has("stopTime") ? given : Optional.empty();
        }
        double speed = scale.get()
                .convert(envelope.get().speed(), Unit.COUNT_PER_SECOND)
                .value();
        double ramp = scale.get()
                .convert(acceleration.get(), Unit.COUNT_PER_SECOND_SQUARED)
                .value();
        Duration least = Duration.ofMillis((long) Math.min(Math.ceil(1e3 * speed / ramp), 1e12))
                .plus(standing);
        given.filter(time -> time.compareTo(least) < 0)
                .ifPresent(time -> map.problem(
                        "stopTime",
                        "from envelope.speed the axis needs " + QuantityReader.print(least)
                                + " to stop at its default acceleration and to prove standstill; found \""
                                + QuantityReader.print(time) + "\""));
        Duration ample = least.plusSeconds(1);
        Duration fallback = ample.compareTo(STOP_TIME) > 0 ? ample : STOP_TIME;
        return map.has("stopTime") ? given : Optional.of(fallback);
    }

    private AfterTrial afterTrial() {
        if (!map.has("afterTrial") && map.map("simulate").map("load").has("gravity")) {
            map.missing(
                    "afterTrial",
                    "missing: gravity pulls at axis " + name() + ", so say hold (the motor keeps"
                            + " carrying the load) or disable (only if a brake holds it)");
        }
        return map.text("afterTrial").orElse("disable").equals("hold") ? AfterTrial.HOLD : AfterTrial.DISABLE;
    }
}
