package org.axtrial.sim;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.axtrial.plant.Efficiency;
import org.axtrial.plant.EndStops;
import org.axtrial.plant.Friction;
import org.axtrial.plant.Plant;
import org.axtrial.plant.PlantDetails;
import org.axtrial.plant.PlantSpec;

/** Worked numbers for one inertia: friction, screw, energy, winding, end stop. */
final class RigidChecks {

    private static final double STEP = 125e-6;
    private static final double INERTIA = 1e-3;
    private static final String SCREW = "screw formulas of public engineering pages, recomputed";
    private static final String FIRST_ORDER = "first-order step response, control textbook values";

    private RigidChecks() {}

    static List<SimulationCheck> all() {
        List<SimulationCheck> all = new ArrayList<>();
        terminalSpeed(all);
        rise(all);
        stoppingDistances(all);
        reversal(all);
        screw(all);
        inertias(all);
        kineticEnergies(all);
        winding(all);
        rebound(all);
        return all;
    }

    private static Plant plant(double viscous, double coulomb) {
        return new Plant(PlantSpec.rigid(INERTIA, 0, Friction.of(viscous, coulomb), 0, 1), STEP);
    }

    static void run(Plant plant, double seconds, double torque) {
        for (long i = 0; i < Math.round(seconds / STEP); i++) {
            plant.step(torque, false);
        }
    }

    private static void terminalSpeed(List<SimulationCheck> all) {
        Plant plant = plant(0.01, 0.2);
        run(plant, 3, 1.2);
        all.add(new SimulationCheck(
                "terminal speed, 1.2 N·m, Coulomb 0.2 N·m, viscous 0.01 N·m·s/rad",
                "rad/s",
                (1.2 - 0.2) / 0.01,
                plant.motorSpeed(),
                1e-9,
                "(T − T_C)/B, Newton's second law"));
    }

    private static void rise(List<SimulationCheck> all) {
        double[] shares = {0.632121, 0.864665, 0.950213, 0.981684, 0.993262};
        Plant plant = plant(0.01, 0);
        for (int i = 0; i < shares.length; i++) {
            run(plant, 0.1, 1);
            all.add(new SimulationCheck(
                    "speed after " + (i + 1) + " time constants J/B",
                    "",
                    shares[i],
                    plant.motorSpeed() / 100,
                    1e-6,
                    FIRST_ORDER));
        }
        all.add(new SimulationCheck(
                "rise time 10 % to 90 % over J/B", "", 2.197225, (timeTo(90) - timeTo(10)) / 0.1, 1e-5, FIRST_ORDER));
    }

    /** Time until a speed is reached, between steps by a straight line. */
    private static double timeTo(double speed) {
        Plant plant = plant(0.01, 0);
        double before = 0;
        long steps = 0;
        while (plant.motorSpeed() < speed) {
            before = plant.motorSpeed();
            plant.step(1, false);
            steps++;
        }
        return (steps - 1 + (speed - before) / (plant.motorSpeed() - before)) * STEP;
    }

    private static void stoppingDistances(List<SimulationCheck> all) {
        Plant plant = plant(0, 0.3);
        run(plant, 0.1, 1.3);
        double from = plant.motorAngle();
        run(plant, 1, 0);
        all.add(new SimulationCheck(
                "run-out from 100 rad/s on Coulomb friction of 300 rad/s²",
                "rad",
                100 * 100 / (2 * 300.0),
                plant.motorAngle() - from,
                1e-6,
                "v²/(2·a), kinematics"));
        double[][] cases = {{2, 0.1, 5, 0.6}, {1, 0.05, 2, 0.3}, {0.5, 0.02, 1, 0.135}};
        for (double[] given : cases) {
            all.add(new SimulationCheck(
                    "stopping distance from " + given[0] + " m/s, " + given[1] + " s reaction, " + given[2] + " m/s²",
                    "m",
                    given[3],
                    stoppingDistance(given[0], given[1], given[2]),
                    1e-6,
                    "v·t + v²/(2·a), kinematics"));
        }
    }

    /** On a lead of 2π m a radian is a metre; the inertia of 1 g·m² is a mass of 1 g. */
    private static double stoppingDistance(double speed, double reaction, double deceleration) {
        double friction = INERTIA * deceleration;
        Plant plant = plant(0, friction);
        run(plant, 0.5, friction + INERTIA * speed / 0.5);
        double from = plant.motorAngle();
        run(plant, reaction, friction);
        run(plant, 5, 0);
        return plant.motorAngle() - from;
    }

    /** Torque −1 N·m against 0.3 N·m of friction: 1300 rad/s² until the shaft stands, then 700 rad/s² the other way. */
    private static void reversal(List<SimulationCheck> all) {
        Plant plant = plant(0, 0.3);
        run(plant, 0.1, 1.3);
        double from = plant.motorAngle();
        run(plant, 0.2, -1);
        double standing = 100 / 1300.0;
        double left = 0.2 - standing;
        all.add(new SimulationCheck(
                "speed after a reversal under Coulomb friction",
                "rad/s",
                -700 * left,
                plant.motorSpeed(),
                1e-9,
                "piecewise constant acceleration, kinematics"));
        all.add(new SimulationCheck(
                "angle after a reversal under Coulomb friction",
                "rad",
                100 * 100 / 2600.0 - 350 * left * left,
                plant.motorAngle() - from,
                1e-5,
                "piecewise constant acceleration, kinematics"));
    }

    private static void screw(List<SimulationCheck> all) {
        double[][] lifts = {{1000, 0.010, 0.9, 1.76839}, {5000, 0.010, 0.9, 8.84194}, {2000, 0.020, 0.85, 7.48964}};
        for (double[] given : lifts) {
            all.add(new SimulationCheck(
                    "torque that just lifts " + (int) given[0] + " N, lead " + Math.round(1000 * given[1])
                            + " mm, efficiency " + given[2],
                    "N·m",
                    given[3],
                    leastThatMoves(given[0], given[1], given[2], true),
                    3e-6,
                    "F·L/(2π·η), " + SCREW));
        }
        all.add(new SimulationCheck(
                "torque under which 1000 N just sinks, lead 10 mm, back-driving efficiency 0.8",
                "N·m",
                1.27324,
                leastThatMoves(1000, 0.010, 0.8, false),
                3e-6,
                "F·L·η/(2π), " + SCREW));
    }

    private static double leastThatMoves(double force, double lead, double efficiency, boolean up) {
        SimulationSpec.Load load = new SimulationSpec.LinearLoad(100, lead, -force, 0, 0);
        PlantDetails details = PlantDetails.PLAIN.withEfficiency(new Efficiency(efficiency, efficiency));
        PlantSpec spec = InventedDrives.axis(load).with(details).plant();
        double low = 0;
        double high = 20;
        for (int i = 0; i < 50; i++) {
            double middle = (low + high) / 2;
            Plant plant = new Plant(spec, STEP);
            run(plant, 0.01, middle);
            boolean above = up ? plant.motorSpeed() > 0 : plant.motorSpeed() >= 0;
            low = above ? low : middle;
            high = above ? middle : high;
        }
        return (low + high) / 2;
    }

    private static void inertias(List<SimulationCheck> all) {
        all.add(inertia("100 kg on a lead of 10 mm", new SimulationSpec.LinearLoad(100, 0.010, 0, 0, 0), 2.53303e-4));
        all.add(inertia(
                "100 kg on a lead of 10 mm behind 2:1",
                new SimulationSpec.LinearLoad(100, 0.005, 0, 0, 0),
                6.33257e-5));
        all.add(inertia("0.25 kg·m² behind 5:1", new SimulationSpec.RotaryLoad(0.25, 5, 0, 0, 0), 0.01));
    }

    /** From the acceleration under 1 N·m, less the inertia of the motor. */
    private static SimulationCheck inertia(String what, SimulationSpec.Load load, double expected) {
        PlantSpec spec = InventedDrives.axis(load).plant();
        Plant plant = new Plant(spec, STEP);
        run(plant, 0.1, 1);
        double total = 1 * 0.1 / plant.motorSpeed();
        return new SimulationCheck(
                "inertia felt by the motor of " + what,
                "kg·m²",
                expected,
                total - spec.motorInertia(),
                2e-6,
                "m·(L/2π)² or J/N², " + SCREW);
    }

    private static void kineticEnergies(List<SimulationCheck> all) {
        Plant disc = new Plant(PlantSpec.rigid(0.01, 0, Friction.NONE, 0, 1), STEP);
        double speed = 3000 * 2 * Math.PI / 60;
        run(disc, 1, 0.01 * speed);
        all.add(new SimulationCheck(
                "kinetic energy of 0.01 kg·m² at 3000 r/min",
                "J",
                493.480,
                disc.energy().kinetic(),
                1e-6,
                "J·ω²/2"));
        all.add(new SimulationCheck(
                "work of the motor for it", "J", 493.480, disc.energy().motorWork(), 1e-6, "J·ω²/2"));
        SimulationSpec.Load carriage = new SimulationSpec.LinearLoad(200, 0.010, 0, 0, 0);
        Plant screw = new Plant(InventedDrives.axis(carriage).plant(), STEP);
        double perSecond = 1.5 / 0.010 * 2 * Math.PI;
        double motor = InventedDrives.motor().inertia();
        run(screw, 1, (motor + carriage.reflectedInertia()) * perSecond);
        all.add(new SimulationCheck(
                "kinetic energy of 200 kg at 1.5 m/s on a lead of 10 mm, less that of the motor",
                "J",
                225,
                screw.energy().kinetic() - 0.5 * motor * perSecond * perSecond,
                1e-6,
                "m·v²/2"));
    }

    private static void winding(List<SimulationCheck> all) {
        PlantDetails quick = PlantDetails.PLAIN.withThermalTime(Duration.ofSeconds(10));
        PlantSpec spec = PlantSpec.rigid(INERTIA, 0, Friction.NONE, 0, 2).with(quick);
        Plant plant = new Plant(spec, STEP);
        for (int i = 1; i <= 2; i++) {
            run(plant, 5, 4);
            all.add(new SimulationCheck(
                    "winding load after " + 0.5 * i + " time constants at twice the rated torque",
                    "",
                    4 * (1 - StrictMath.exp(-0.5 * i)),
                    plant.windingLoad(),
                    1e-9,
                    "4·(1 − exp(−t/τ)), first-order closed form"));
        }
        Plant tripping = new Plant(spec, STEP);
        long steps = 0;
        while (!tripping.windingTripped()) {
            tripping.step(4, false);
            steps++;
        }
        all.add(new SimulationCheck(
                "time to a load of 1.1 at twice the rated torque, τ 10 s",
                "s",
                10 * StrictMath.log(4 / (4 - 1.1)),
                steps * STEP,
                5e-5,
                "τ·ln(4/(4 − 1.1)), first-order closed form"));
        double[][] torques = {{3, 0.5, -2, 0}, {8, 2, -4, 0}};
        double[][] times = {{0.1, 0.3, 0.1, 0.5}, {0.2, 0.6, 0.2, 1.0}};
        double[] squares = {1.172604, 3.033150};
        for (int i = 0; i < squares.length; i++) {
            all.add(new SimulationCheck(
                    "RMS torque of cycle " + (i + 1) + " from the mean winding load",
                    "N·m",
                    squares[i],
                    rootMeanSquare(torques[i], times[i]),
                    1e-6,
                    "√(ΣT²·t/Σt), worked example, arithmetic"));
        }
    }

    /** Of a cycle repeated until it is periodic, from the mean over a cycle. */
    private static double rootMeanSquare(double[] torques, double[] times) {
        PlantDetails quick = PlantDetails.PLAIN.withThermalTime(Duration.ofSeconds(2));
        Plant plant =
                new Plant(PlantSpec.rigid(INERTIA, 0, Friction.NONE, 0, 2.4).with(quick), STEP);
        double sum = 0;
        long samples = 0;
        for (int cycle = 0; cycle < 50; cycle++) {
            sum = 0;
            samples = 0;
            for (int i = 0; i < torques.length; i++) {
                for (long k = 0; k < Math.round(times[i] / STEP); k++) {
                    plant.step(torques[i], false);
                    sum += plant.windingLoad();
                    samples++;
                }
            }
        }
        return 2.4 * Math.sqrt(sum / samples);
    }

    private static void rebound(List<SimulationCheck> all) {
        double ratio = 0.3;
        double contact = INERTIA * 600 * 600;
        PlantDetails stops = PlantDetails.PLAIN.withEndStops(new EndStops(-10, 2, contact, ratio));
        Plant plant = new Plant(PlantSpec.rigid(INERTIA, 0, Friction.NONE, 0, 1).with(stops), STEP);
        run(plant, 0.05, 1);
        double arrival = plant.motorSpeed();
        while (plant.motorSpeed() >= 0) {
            plant.step(0, false);
        }
        run(plant, 0.01, 0);
        double root = Math.sqrt(1 - ratio * ratio);
        double lasting = Math.PI - StrictMath.atan2(2 * ratio * root, 1 - 2 * ratio * ratio);
        all.add(new SimulationCheck(
                "rebound from an end stop over speed of arrival, ζ 0.3",
                "",
                StrictMath.exp(-ratio / root * lasting),
                -plant.motorSpeed() / arrival,
                0.01,
                "linear spring and dashpot that does not pull, Schwager and Pöschel 2007, from memory"));
    }
}
