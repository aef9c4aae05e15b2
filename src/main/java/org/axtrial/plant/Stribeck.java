package org.axtrial.plant;

/**
 * Friction that is higher at rest than in motion.
 *
 * <p>The level falls from {@code breakaway} to the Coulomb level as 1/(1 + (ω/ω_s)²). Source: form of Hess and Soom (1990), listed
 * beside the Gaussian form in the friction survey of Armstrong-Hélouvry, Dupont and Canudas de Wit (1994); from memory.
 * It is chosen because it needs no transcendental function.
 *
 * @param breakaway friction at standstill in N·m, not below the Coulomb friction it belongs to
 * @param speed Stribeck speed ω_s in rad/s, positive; there half of the excess is left
 */
public record Stribeck(double breakaway, double speed) {

    public Stribeck {
        Require.notNegative("breakaway friction", breakaway);
        Require.positive("Stribeck speed", speed);
    }
}
