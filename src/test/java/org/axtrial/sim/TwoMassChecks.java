package org.axtrial.sim;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import org.axtrial.plant.Coupling;
import org.axtrial.plant.Friction;
import org.axtrial.plant.HoldingBrake;
import org.axtrial.plant.Plant;
import org.axtrial.plant.PlantDetails;
import org.axtrial.plant.PlantSpec;

/** Resonance, anti-resonance and damping of motor and load on a spring. */
final class TwoMassChecks {

    static final double MOTOR = 3e-4;
    static final double LOAD = 2e-4;
    static final double STIFFNESS = 430;

    private static final double WIDE = 125e-6;
    private static final double FINE = 12.5e-6;
    private static final double RESONANCE = Math.sqrt(STIFFNESS * (MOTOR + LOAD) / (MOTOR * LOAD)) / (2 * Math.PI);
    private static final double ANTI_RESONANCE = Math.sqrt(STIFFNESS / LOAD) / (2 * Math.PI);
    private static final String RESONANCE_SOURCE = "√(k·(Jm + Jl)/(Jm·Jl))/2π, textbook two-mass system";
    private static final String ANTI_SOURCE = "√(k/Jl)/2π, textbook two-mass system";

    private static final String SWEEP_SOURCE =
            "(Jl·s² + d·s + k)/(s·(Jm·Jl·s² + (Jm + Jl)·(d·s + k))), textbook two-mass system";

    private TwoMassChecks() {}

    static List<SimulationCheck> all() {
        List<SimulationCheck> all = new ArrayList<>();
        for (double step : new double[] {WIDE, FINE}) {
            String at = ", step " + step * 1e6 + " µs";
            // The leapfrog is too fast by (ω·h)²/24: 0.24 % at 301 Hz and 125 µs, a hundredth of it at a tenth.
            double bound = step == WIDE ? 2.6e-3 : 1e-4;
            all.add(new SimulationCheck(
                    "resonance from free oscillation" + at,
                    "Hz",
                    RESONANCE,
                    freeFrequency(step),
                    bound,
                    RESONANCE_SOURCE));
            all.add(new SimulationCheck(
                    "frequency of the load with its motor held by the brake" + at,
                    "Hz",
                    ANTI_RESONANCE,
                    heldFrequency(step),
                    bound,
                    ANTI_SOURCE));
            all.add(new SimulationCheck(
                    "peak of motor speed over torque in a sweep, ζ 0.02" + at,
                    "Hz",
                    extreme(RESONANCE, frequency -> -transfer(frequency)),
                    extreme(RESONANCE, frequency -> -response(frequency, step)),
                    bound,
                    SWEEP_SOURCE));
            all.add(new SimulationCheck(
                    "notch of motor speed over torque in a sweep, ζ 0.02" + at,
                    "Hz",
                    extreme(ANTI_RESONANCE, TwoMassChecks::transfer),
                    extreme(ANTI_RESONANCE, frequency -> response(frequency, step)),
                    bound,
                    SWEEP_SOURCE));
        }
        all.add(new SimulationCheck(
                "logarithmic decrement of the free oscillation, ζ 0.05",
                "",
                2 * Math.PI * 0.05 / Math.sqrt(1 - 0.05 * 0.05),
                decrement(0.05),
                2e-3,
                "2π·ζ/√(1 − ζ²), textbook"));
        return all;
    }

    private static PlantSpec spec(double ratio) {
        return new PlantSpec(
                MOTOR,
                LOAD,
                Friction.NONE,
                0,
                2.4,
                PlantDetails.PLAIN.withCoupling(Coupling.damped(STIFFNESS, ratio, MOTOR, LOAD)));
    }

    /** Under a constant torque the twist swings about its mean; its speed crosses zero once a half period. */
    private static double freeFrequency(double step) {
        Plant plant = new Plant(spec(0), step);
        return frequency(plant, step, 1, false);
    }

    private static double heldFrequency(double step) {
        PlantDetails held =
                spec(0).details().withBrake(HoldingBrake.immediate(100)).withCounterbalance(0.5);
        Plant plant = new Plant(spec(0).with(held), step);
        plant.counterbalanceFactor(0);
        return frequency(plant, step, 0, true);
    }

    private static double frequency(Plant plant, double step, double torque, boolean braked) {
        double first = 0;
        double last = 0;
        int crossings = 0;
        double before = 0;
        for (long i = 1; crossings < 201; i++) {
            plant.step(torque, braked);
            double speed = plant.motorSpeed() - plant.loadSpeed();
            if (before < 0 && speed >= 0) {
                last = (i - speed / (speed - before)) * step;
                first = crossings == 0 ? last : first;
                crossings++;
            }
            before = speed;
        }
        return (crossings - 1) / (last - first);
    }

    private static double decrement(double ratio) {
        Plant plant = new Plant(spec(ratio), 2e-6);
        List<Double> peaks = new ArrayList<>();
        double highest = 0;
        double before = 0;
        while (peaks.size() < 12) {
            plant.step(1, false);
            double speed = plant.motorSpeed() - plant.loadSpeed();
            highest = Math.max(highest, speed);
            if (before >= 0 && speed < 0) {
                peaks.add(highest);
                highest = 0;
            }
            before = speed;
        }
        return StrictMath.log(peaks.get(1) / peaks.get(11)) / 10;
    }

    /** Motor speed over torque by the transfer function. */
    private static double transfer(double frequency) {
        double omega = 2 * Math.PI * frequency;
        double damping = spec(0.02).details().coupling().orElseThrow().damping();
        double ofLoad = Math.hypot(STIFFNESS - LOAD * omega * omega, damping * omega);
        double whole = MOTOR + LOAD;
        double ofBoth = Math.hypot(whole * STIFFNESS - MOTOR * LOAD * omega * omega, whole * damping * omega);
        return ofLoad / (omega * ofBoth);
    }

    /** Amplitude of motor speed under a torque of 1 N·m at a frequency in Hz, after the start has died away. */
    private static double response(double frequency, double step) {
        Plant plant = new Plant(spec(0.02), step);
        long steps = Math.round(0.5 / step);
        double real = 0;
        double imaginary = 0;
        for (long i = 0; i < 2 * steps; i++) {
            double phase = 2 * Math.PI * frequency * i * step;
            plant.step(StrictMath.cos(phase), false);
            if (i >= steps) {
                // Von Hann's window, so that parts of a period at the ends do not count.
                double weight = 1 - StrictMath.cos(2 * Math.PI * (i - steps) / steps);
                real += weight * plant.motorSpeed() * StrictMath.cos(phase);
                imaginary += weight * plant.motorSpeed() * StrictMath.sin(phase);
            }
        }
        return Math.hypot(real, imaginary) / steps;
    }

    /** Golden-section search for the least value within 3 % of a frequency. */
    private static double extreme(double about, DoubleUnaryOperator value) {
        double golden = (Math.sqrt(5) - 1) / 2;
        double low = 0.97 * about;
        double high = 1.03 * about;
        while (high - low > 1e-5 * about) {
            double left = high - golden * (high - low);
            double right = low + golden * (high - low);
            if (value.applyAsDouble(left) < value.applyAsDouble(right)) {
                high = right;
            } else {
                low = left;
            }
        }
        return (low + high) / 2;
    }
}
