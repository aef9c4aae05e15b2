package org.axtrial.site;

import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import org.axtrial.link.LinkLostException;
import org.axtrial.link.RegisterLink;
import org.axtrial.link.SharedConnection;
import org.axtrial.link.Transport;
import org.axtrial.sim.SimulatedDrive;
import org.axtrial.time.SystemTime;

/**
 * Bare links to the drives of a site, one axis at a time, for looking without an axis that could move. An axis that cannot
 * be reached does not keep the others from being looked at. Owns the simulated drives that it starts.
 */
public final class SiteLinks implements AutoCloseable {

    private static final String LOOPBACK = "127.0.0.1";

    private final Optional<SimulatedSite> simulated;
    /** A serial line can be opened once only, so that its links share it. */
    private final Map<Transport, SharedConnection> lines = new HashMap<>();

    private SiteLinks(Optional<SimulatedSite> simulated) {
        this.simulated = simulated;
    }

    /**
     * Makes the drives reachable; contacts none.
     *
     * @param how {@code REAL} for the endpoints of the site file, anything else for simulated drives on this computer
     * @throws RigException if a drive cannot be simulated; nothing stays open
     */
    public static SiteLinks of(Site site, How how) throws RigException {
        return new SiteLinks(how == How.REAL ? Optional.empty() : Optional.of(SimulatedSite.start(site, LOOPBACK, 0)));
    }

    private Transport transport(SiteAxis axis) {
        return simulated
                .<Transport>map(site ->
                        new Transport.Tcp(LOOPBACK, site.served(axis.name()).port()))
                .orElse(axis.endpoint().transport());
    }

    /**
     * Opens one connection to the device of an axis; on a serial line, one more link over the line.
     *
     * @param unit unit id to speak to, usually the one of the axis
     * @throws LinkLostException if it cannot be made, or nothing can have that unit id there
     */
    public RegisterLink open(SiteAxis axis, int unit) throws LinkLostException {
        Transport to = transport(axis);
        if (unit < to.lowestUnit() || unit > to.highestUnit()) {
            throw new LinkLostException(to.place() + " has no unit " + unit);
        }
        SharedConnection connection = to instanceof Transport.Serial
                ? lines.computeIfAbsent(to, line -> SharedConnection.to(line, SystemTime.INSTANCE))
                : SharedConnection.to(to, SystemTime.INSTANCE);
        return connection.open(unit, axis.endpoint().deadline());
    }

    /** Place and unit that an axis is looked for at. */
    public String peer(SiteAxis axis) {
        return transport(axis).place() + " unit " + axis.endpoint().unit();
    }

    /** The simulated drive of an axis; empty for a real one. */
    public Optional<SimulatedDrive> simulated(String axis) {
        return simulated.map(site -> site.simulated(axis));
    }

    @Override
    public void close() {
        lines.values().forEach(SharedConnection::close);
        simulated.ifPresent(SimulatedSite::close);
    }
}
