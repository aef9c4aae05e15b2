package org.axtrial.site;

import java.util.List;
import java.util.function.Predicate;
import org.axtrial.quantity.AxisScale;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.axtrial.registers.SignalNames;
import org.axtrial.sim.SimulatedDrive;
import org.axtrial.sim.SimulatedServer;
import org.axtrial.sim.StepLag;
import org.axtrial.sim.WireFault;

/**
 * One axis that is served: what it is doing, in the units of the axis, and a hand on its drive and wire. Safe for several
 * threads.
 */
public final class ServedAxis {

    private final SiteAxis axis;
    private final int unit;
    private final SimulatedDrive drive;
    private final SimulatedServer server;

    ServedAxis(SiteAxis axis, int unit, SimulatedDrive drive, SimulatedServer server) {
        this.axis = axis;
        this.unit = unit;
        this.drive = drive;
        this.server = server;
    }

    public String name() {
        return axis.name();
    }

    public String driveType() {
        return axis.driveType();
    }

    /** TCP port. */
    public int port() {
        return server.port();
    }

    /** Unit identifier. */
    public int unit() {
        return unit;
    }

    SimulatedDrive drive() {
        return drive;
    }

    /** State in words, for example {@code enabled, moving}. */
    public String state() {
        return drive.state();
    }

    /** What the position register tells, in the unit of the axis, counted from the zero of the drive. */
    public Quantity position() {
        Unit counted = axis.drive().signal(SignalNames.POSITION).unit();
        return Quantity.of(
                scale().fromDrive(drive.value(SignalNames.POSITION), counted, positionUnit()), positionUnit());
    }

    /** True speed in the unit of the axis per second. */
    public Quantity speed() {
        Unit perSecond = positionUnit().perSecond();
        return Quantity.of(scale().fromDrive(drive.shaftSpeed(), Unit.RADIAN_PER_SECOND, perSecond), perSecond);
    }

    /** Connections to its port now; those that share the port share them. */
    public int connections() {
        return server.connections();
    }

    /** Requests that have come in for it, whatever became of them. */
    public long requests() {
        return server.requests(unit);
    }

    /** Faults of its wire that may strike now or later, the one armed first in front. */
    public List<WireFault> faults() {
        return server.faults(unit);
    }

    /** How well the simulation keeps up with the clock. */
    public StepLag lag() {
        return server.lag(unit);
    }

    /** Arms a fault of the wire behind those that are armed already. */
    public void fault(WireFault fault) {
        server.fault(unit, fault);
    }

    /** Lifts the faults of its wire that are chosen. */
    public void lift(Predicate<WireFault> chosen) {
        server.disarm(unit, chosen);
    }

    /** Lifts every fault of its wire, those of the site file, too. A tripped drive stays tripped. */
    public void clear() {
        server.clearFaults(unit);
    }

    /**
     * Trips the drive; a fault that already stands remains.
     *
     * @param faultCode 1 … 65535
     * @throws IllegalArgumentException for any other code
     */
    public void trip(int faultCode) {
        drive.trip(faultCode);
    }

    /**
     * Turns the axis by hand.
     *
     * @param by angle, travel or counts at the load, in the sense of the axis
     * @throws IllegalArgumentException if the axis has no such unit
     * @throws IllegalStateException if the drive gives torque
     */
    public void turnByHand(Quantity by) {
        double load = scale().convert(by.value(), by.unit(), Unit.REVOLUTION);
        drive.turnByHand(scale().direction() * load * scale().motorPerLoad() * 2 * Math.PI);
    }

    private AxisScale scale() {
        return axis.setup().scale();
    }

    /** The unit of the axis, or where no speed is told in it, arc minutes for one, the one natural to the axis. */
    private Unit positionUnit() {
        return switch (axis.setup().unit()) {
            case ARC_MINUTE, ARC_SECOND, MICROMETRE -> scale().naturalUnit();
            default -> axis.setup().unit();
        };
    }
}
