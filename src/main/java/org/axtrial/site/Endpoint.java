package org.axtrial.site;

import java.time.Duration;

/**
 * Where a drive answers on Modbus TCP.
 *
 * @param host IP address or host name
 * @param port TCP port, 1 … 65535
 * @param unit unit identifier, 0 … 255
 * @param deadline longest time for one whole exchange
 */
public record Endpoint(String host, int port, int unit, Duration deadline) {

    public Endpoint {
        if (host.isBlank() || port < 1 || port > 65_535 || unit < 0 || unit > 255) {
            throw new IllegalArgumentException(
                    "expected a host, a port 1 … 65535 and a unit 0 … 255, got " + host + ":" + port + " unit " + unit);
        }
        if (deadline.isNegative() || deadline.isZero()) {
            throw new IllegalArgumentException("the deadline must be positive, got " + deadline);
        }
    }
}
