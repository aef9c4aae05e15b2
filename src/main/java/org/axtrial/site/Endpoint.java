package org.axtrial.site;

import java.time.Duration;
import org.axtrial.link.Transport;

/**
 * Where a drive answers.
 *
 * @param transport the connection that leads to it, which other drives may share
 * @param unit unit identifier, in the range of the transport
 * @param deadline longest time for one whole exchange
 */
public record Endpoint(Transport transport, int unit, Duration deadline) {

    public Endpoint {
        if (unit < transport.lowestUnit() || unit > transport.highestUnit()) {
            throw new IllegalArgumentException("expected a unit " + transport.lowestUnit() + " … "
                    + transport.highestUnit() + " on " + transport.place() + ", got " + unit);
        }
        if (deadline.isNegative() || deadline.isZero()) {
            throw new IllegalArgumentException("the deadline must be positive, got " + deadline);
        }
    }

    /**
     * A drive on Modbus TCP.
     *
     * @param host IP address or host name
     * @param port TCP port, 1 … 65535
     */
    public Endpoint(String host, int port, int unit, Duration deadline) {
        this(new Transport.Tcp(host, port), unit, deadline);
    }

    /** Place and unit, for messages. */
    public String peer() {
        return transport.place() + " unit " + unit;
    }
}
