package org.axtrial.sim;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.axtrial.plant.Cogging;
import org.axtrial.plant.Coupling;
import org.axtrial.plant.Friction;
import org.axtrial.plant.Plant;
import org.axtrial.plant.PlantDetails;
import org.axtrial.plant.PlantSpec;
import org.axtrial.plant.Stribeck;
import org.hipparchus.ode.ODEState;
import org.hipparchus.ode.OrdinaryDifferentialEquation;
import org.hipparchus.ode.nonstiff.DormandPrince853Integrator;

/**
 * The plant beside an independent adaptive integrator, Hipparchus' Dormand-Prince 8(5,3), on equations written down anew.
 * The torque is constant for 50 ms at a time.
 */
final class IntegratorChecks {

    private static final List<Double> TORQUES = List.of(1.0, -0.5, 0.8, 0.2, -1.2, 0.9, 0.3, 0.6);
    private static final List<Double> PUSHES = List.of(1.0, 0.5, 0.8, 0.2, 0.3, 0.9, 0.3, 0.6);
    private static final double HOLD = 0.05;
    private static final double STEP = 125e-6;
    private static final double FINEST = STEP / 128;
    private static final String SOURCE = "Hipparchus 4.0.3, DormandPrince853Integrator, tolerance 1e-11";
    private static final Friction VISCOUS = Friction.of(1e-3, 0);

    private IntegratorChecks() {}

    /** Mechanics beside their equations: state is motor angle, motor speed, load angle, load speed. */
    private record Case(String name, PlantSpec spec, List<Double> torques, double bound) {}

    static List<SimulationCheck> all() {
        List<SimulationCheck> all = new ArrayList<>();
        for (Case each : cases()) {
            double[] reference = reference(each);
            double[] found = found(each, STEP);
            all.add(new SimulationCheck(
                    each.name + ": motor angle after 0.4 s", "rad", reference[0], found[0], each.bound, SOURCE));
            all.add(new SimulationCheck(
                    each.name + ": load angle after 0.4 s", "rad", reference[2], found[2], each.bound, SOURCE));
            all.add(new SimulationCheck(
                    each.name + ": motor speed after 0.4 s", "rad/s", reference[1], found[1], each.bound, SOURCE));
        }
        Case smooth = cases().get(1);
        double[] reference = reference(smooth);
        double wide = Math.abs(found(smooth, STEP / 2)[0] - reference[0]);
        double half = Math.abs(found(smooth, STEP / 4)[0] - reference[0]);
        all.add(new SimulationCheck(
                "order of convergence when the step is halved, two masses, 62.5 to 31.25 µs",
                "",
                2,
                StrictMath.log(wide / half) / StrictMath.log(2),
                0.05,
                "leapfrog is of second order, textbook; error against " + SOURCE));
        return all;
    }

    private static List<Case> cases() {
        PlantDetails cogging = PlantDetails.PLAIN.withCogging(new Cogging(0.05, 12));
        Coupling spring = Coupling.damped(TwoMassChecks.STIFFNESS, 0.05, TwoMassChecks.MOTOR, TwoMassChecks.LOAD);
        PlantDetails elastic = cogging.withCoupling(spring);
        PlantDetails gap = PlantDetails.PLAIN.withCoupling(spring.withBacklash(0.01));
        PlantDetails dry = elastic.withMotorFriction(new Friction(2e-4, 0.02, Optional.of(new Stribeck(0.04, 20))))
                .withStribeck(new Stribeck(0.09, 30));
        return List.of(
                new Case("one mass, viscous, cogging", spec(VISCOUS, cogging), TORQUES, 2e-5),
                new Case("two masses, damped, viscous, cogging", spec(VISCOUS, elastic), TORQUES, 2e-5),
                new Case(
                        "two masses, Stribeck and Coulomb in motion", spec(Friction.of(1e-3, 0.05), dry), PUSHES, 2e-5),
                new Case("two masses, backlash 0.01 rad", spec(VISCOUS, gap), TORQUES, 2e-4));
    }

    private static PlantSpec spec(Friction load, PlantDetails details) {
        return new PlantSpec(TwoMassChecks.MOTOR, TwoMassChecks.LOAD, load, 0.1, 2.4, details);
    }

    private static double[] found(Case each, double step) {
        Plant plant = started(each, step);
        for (int i = 1; i < each.torques.size(); i++) {
            hold(plant, each.torques.get(i), step);
        }
        return state(plant);
    }

    private static Plant started(Case each, double step) {
        Plant plant = new Plant(each.spec, step);
        hold(plant, each.torques.get(0), step);
        return plant;
    }

    private static void hold(Plant plant, double torque, double step) {
        for (long i = 0; i < Math.round(HOLD / step); i++) {
            plant.step(torque, false);
        }
    }

    private static double[] state(Plant plant) {
        return new double[] {plant.motorAngle(), plant.motorSpeed(), plant.loadAngle(), plant.loadSpeed()};
    }

    private static double[] reference(Case each) {
        // From a state in motion, because equations with sign(ω) do not know standstill.
        double[] state = state(started(each, FINEST));
        double time = 0;
        DormandPrince853Integrator integrator = new DormandPrince853Integrator(1e-16, 1e-3, 1e-11, 1e-11);
        integrator.setMaxEvaluations(1_000_000);
        for (int i = 1; i < each.torques.size(); i++) {
            state = integrator
                    .integrate(new Equations(each.spec, each.torques.get(i)), new ODEState(time, state), time + HOLD)
                    .getPrimaryState();
            time += HOLD;
        }
        return state;
    }

    private record Equations(PlantSpec spec, double torque) implements OrdinaryDifferentialEquation {

        @Override
        public int getDimension() {
            return 4;
        }

        @Override
        public double[] computeDerivatives(double time, double[] y) {
            PlantDetails details = spec.details();
            Friction load = details.stribeck().map(spec.loadFriction()::with).orElse(spec.loadFriction());
            double periods = details.cogging().periods();
            double onMotor = torque
                    - details.cogging().amplitude() * StrictMath.sin(periods * y[0])
                    - friction(details.motorFriction(), y[1]);
            double onLoad = spec.gravity() - friction(load, y[3]);
            if (details.coupling().isEmpty()) {
                double acceleration = (onMotor + onLoad) / (spec.motorInertia() + spec.loadInertia());
                return new double[] {y[1], acceleration, y[3], acceleration};
            }
            double spring = spring(details.coupling().get(), y[0] - y[2], y[1] - y[3]);
            return new double[] {
                y[1], (onMotor - spring) / spec.motorInertia(), y[3], (onLoad + spring) / spec.loadInertia()
            };
        }

        private static double friction(Friction friction, double speed) {
            double excess = friction.stribeck()
                    .map(it -> (it.breakaway() - friction.coulomb()) / (1 + Math.pow(speed / it.speed(), 2)))
                    .orElse(0.0);
            return friction.viscous() * speed + Math.signum(speed) * (friction.coulomb() + excess);
        }

        private static double spring(Coupling coupling, double twist, double speed) {
            double half = coupling.backlash() / 2;
            double beyond = Math.abs(twist) - half;
            if (beyond <= 0 && half > 0) {
                return 0;
            }
            double torque = coupling.stiffness() * Math.copySign(beyond, twist) + coupling.damping() * speed;
            return half > 0 && torque * twist < 0 ? 0 : torque;
        }
    }
}
