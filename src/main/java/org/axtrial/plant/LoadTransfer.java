package org.axtrial.plant;

/**
 * A load that is carried by the first axis and handed to the second once. The hand-over is a wholly inelastic blow: m keeps
 * its speed v until it has that of the second axis,
 *
 * <pre>
 * v' = (m2·v2 + m·v)/(m2 + m),   lost: ½·m2·m/(m2 + m)·(v2 − v)²
 * </pre>
 *
 * <p>with m2 what the blow meets of the second axis, {@link Plant#inertiaAtLoad} over r². The first axis keeps its speed.
 * Source: conservation of momentum.
 *
 * @param mass m in kg, on rotary axes the inertia in kg·m²; positive
 * @param forceBefore force of gravity on it along the first axis in N, on rotary axes torque in N·m; positive pulls towards
 *     positive positions
 * @param forceAfter the same along the second axis
 * @param moment when it is handed over
 */
public record LoadTransfer(double mass, double forceBefore, double forceAfter, Moment moment) implements LoadCoupling {

    public LoadTransfer {
        Require.positive("mass that is handed over", mass);
        Require.finite("force before the hand-over", forceBefore);
        Require.finite("force after the hand-over", forceAfter);
    }

    /** When a load is handed over. */
    public sealed interface Moment {}

    /**
     * When the load of the first axis gets to a place for the first time.
     *
     * @param place in m or rad from where it stands at the start, not 0
     */
    public record AtPlace(double place) implements Moment {

        public AtPlace {
            Require.finite("place of the hand-over", place);
            if (place == 0) {
                throw new IllegalArgumentException("the first axis stands at the place of the hand-over at the start;"
                        + " tell another place, or a time");
            }
        }
    }

    /**
     * At a time.
     *
     * @param seconds from the start, not negative
     */
    public record AfterTime(double seconds) implements Moment {

        public AfterTime {
            Require.notNegative("time of the hand-over", seconds);
        }
    }
}
