package org.axtrial.plant;

import java.util.Optional;

/**
 * Friction of one inertia: T = B·ω + (T_C + Stribeck excess)·sign(ω), and standstill up to the breakaway level.
 *
 * @param viscous B in N·m·s/rad, not negative
 * @param coulomb T_C in N·m, not negative
 * @param stribeck the higher level at rest; without it the breakaway level is the Coulomb level
 */
public record Friction(double viscous, double coulomb, Optional<Stribeck> stribeck) {

    /** No friction at all. */
    public static final Friction NONE = new Friction(0, 0, Optional.empty());

    public Friction {
        Require.notNegative("viscous friction", viscous);
        Require.notNegative("Coulomb friction", coulomb);
        if (stribeck.isPresent() && stribeck.get().breakaway() < coulomb) {
            throw new IllegalArgumentException("breakaway friction must not be below the Coulomb friction, got "
                    + stribeck.get().breakaway() + " and " + coulomb);
        }
    }

    /** Viscous and Coulomb friction without a higher level at rest. */
    public static Friction of(double viscous, double coulomb) {
        return new Friction(viscous, coulomb, Optional.empty());
    }

    /** The same with a higher level at rest. */
    public Friction with(Stribeck higher) {
        return new Friction(viscous, coulomb, Optional.of(higher));
    }
}
