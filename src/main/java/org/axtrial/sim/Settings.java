package org.axtrial.sim;

/** A group of registers that say how the drive shall act; each keeps what was written last. */
interface Settings {

    /** Whether the value belongs to this group. */
    boolean has(String name);

    /**
     * What the drive starts with, in the unit of the declared value.
     *
     * @throws IllegalArgumentException for a value of another group
     */
    double start(String name);

    /**
     * Takes a written value.
     *
     * @return false if the drive refuses it and keeps the old one
     * @throws IllegalArgumentException for a value of another group
     */
    boolean accept(String name, double value);

    /** For the switches of the groups, which {@link #has} keeps from ever coming here. */
    static IllegalArgumentException foreign(String name) {
        return new IllegalArgumentException("not a setting of this group: " + name);
    }
}
