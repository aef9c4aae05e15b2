package org.axtrial.site;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.axtrial.link.Transport;
import org.axtrial.link.Transport.Parity;

/** Reads where a drive answers: the keys that its transport needs, and no others. */
final class EndpointReader {

    private static final String TCP = "tcp";
    private static final String RTU_OVER_TCP = "rtu over tcp";
    private static final String SERIAL = "serial";

    private static final List<String> NETWORK_KEYS = List.of("host", "port");
    private static final List<String> SERIAL_KEYS = List.of("serialPort", "baudRate", "parity", "stopBits");

    private static final int MODBUS_PORT = 502;
    /** Recommended for a device reached directly. Source: MODBUS Messaging on TCP/IP V1.0b, 4.4.1.2. */
    private static final int DIRECT_UNIT = 255;
    /** Defaults of a serial device. Source: MODBUS over Serial Line V1.02, 2.5.1. */
    private static final int BAUD_RATE = 19_200;

    private final YamlMap map;

    EndpointReader(YamlMap axis) {
        map = axis.map("endpoint");
    }

    /** Empty if anything in it is wrong or missing; all of it has then been told. */
    Optional<Endpoint> read(Duration deadline) {
        if (!map.isGiven()) {
            return Optional.empty();
        }
        String kind = map.text("transport").orElse(map.has("transport") ? "" : TCP);
        if (!kind.isEmpty()) {
            outOfPlace(kind);
        }
        Optional<Transport> transport = switch (kind) {
            case TCP -> host().flatMap(host -> port(kind).map(port -> new Transport.Tcp(host, port)));
            case RTU_OVER_TCP -> host().flatMap(host -> port(kind).map(port -> new Transport.RtuOverTcp(host, port)));
            case SERIAL -> serial();
            default -> Optional.empty();
        };
        if (transport.isEmpty() && kind.equals(RTU_OVER_TCP)) {
            port(kind);
        }
        OptionalLong unit = unit(kind);
        boolean wrong = map.document().complainedWithin(map.path());
        return wrong || unit.isEmpty()
                ? Optional.empty()
                : transport.map(found -> new Endpoint(found, (int) unit.getAsLong(), deadline));
    }

    private void outOfPlace(String kind) {
        List<String> strange = kind.equals(SERIAL) ? NETWORK_KEYS : SERIAL_KEYS;
        String where = kind.equals(SERIAL)
                ? "a serial line has no address on the network; its port is told by serialPort"
                : "transport " + kind
                        + " has no serial port of this computer; leave this out, or say transport: serial";
        strange.stream().filter(map::has).forEach(key -> map.keyProblem(key, where));
        SERIAL_KEYS.forEach(map::has);
    }

    private Optional<String> host() {
        if (!map.has("host")) {
            map.missing("host", "missing: IP address or host name, for example \"192.0.2.11\"");
        }
        return map.text("host").filter(host -> !host.isBlank());
    }

    private Optional<Integer> port(String kind) {
        OptionalLong port = map.integer("port");
        if (port.isPresent()) {
            return Optional.of((int) port.getAsLong());
        }
        if (!map.has("port") && kind.equals(TCP)) {
            return Optional.of(MODBUS_PORT);
        }
        if (!map.document().complained(YamlDocument.join(map.path(), "port"))) {
            map.missing("port", "missing: TCP port of the gateway; there is no usual one for serial frames over TCP");
        }
        return Optional.empty();
    }

    private Optional<Transport> serial() {
        if (!map.has("serialPort")) {
            map.missing("serialPort", "missing: serial port of this computer, for example \"/dev/ttyUSB0\"");
        }
        Parity parity = switch (map.text("parity").orElse("even")) {
            case "none" -> Parity.NONE;
            case "odd" -> Parity.ODD;
            default -> Parity.EVEN;
        };
        // A character has 11 bits; without a parity bit a second stop bit fills its place.
        int stopBits = (int) map.integer("stopBits").orElse(parity == Parity.NONE ? 2 : 1);
        int baudRate = (int) map.integer("baudRate").orElse(BAUD_RATE);
        return map.text("serialPort")
                .filter(port -> !port.isBlank())
                .map(port -> new Transport.Serial(port, baudRate, parity, stopBits));
    }

    private OptionalLong unit(String kind) {
        OptionalLong unit = map.integer("unit");
        if (kind.equals(TCP) || kind.isEmpty()) {
            return map.has("unit") ? unit : OptionalLong.of(DIRECT_UNIT);
        }
        if (!map.has("unit")) {
            map.missing("unit", "missing: 1 … 247, the station number of the drive on its serial line");
        } else if (unit.isPresent() && (unit.getAsLong() < 1 || unit.getAsLong() > 247)) {
            map.problem("unit", "expected 1 … 247 on a serial line, found " + unit.getAsLong());
        }
        return unit;
    }
}
