package org.axtrial.link;

import java.time.Duration;

/** How drives are reached: what one connection goes to. Two that are equal are one connection. */
public sealed interface Transport {

    /** Where it goes, for messages, such as {@code 192.0.2.11:502} or {@code /dev/ttyUSB0}. */
    String place();

    /** The smallest unit id that one device can have here. */
    int lowestUnit();

    /** The largest unit id that one device can have here. */
    int highestUnit();

    /**
     * Modbus TCP.
     *
     * @param host name or address
     * @param port 1 … 65535, usually 502
     */
    record Tcp(String host, int port) implements Transport {

        public Tcp {
            checkHostAndPort(host, port);
        }

        @Override
        public String place() {
            return host + ":" + port;
        }

        @Override
        public int lowestUnit() {
            return 0;
        }

        @Override
        public int highestUnit() {
            return 255;
        }
    }

    /**
     * Serial frames with their check sum over a TCP connection, to a gateway that passes bytes on to a serial line.
     *
     * @param host name or address of the gateway
     * @param port 1 … 65535
     */
    record RtuOverTcp(String host, int port) implements Transport {

        public RtuOverTcp {
            checkHostAndPort(host, port);
        }

        @Override
        public String place() {
            return host + ":" + port + " (RTU)";
        }

        @Override
        public int lowestUnit() {
            return Serial.LOWEST_UNIT;
        }

        @Override
        public int highestUnit() {
            return Serial.HIGHEST_UNIT;
        }
    }

    /**
     * A serial line at a port of this computer, eight data bits.
     *
     * @param port name of the port, such as {@code /dev/ttyUSB0} or {@code COM3}
     * @param baudRate 300 … 4000000
     * @param parity even unless the drives say otherwise (MODBUS over Serial Line V1.02, 2.5.1)
     * @param stopBits 1 or 2
     */
    record Serial(String port, int baudRate, Parity parity, int stopBits) implements Transport {

        static final int LOWEST_UNIT = 1;
        static final int HIGHEST_UNIT = 247;

        public Serial {
            if (port.isBlank()) {
                throw new IllegalArgumentException("a serial port has a name");
            }
            if (baudRate < 300 || baudRate > 4_000_000) {
                throw new IllegalArgumentException("a baud rate is 300 … 4000000, got " + baudRate);
            }
            if (stopBits < 1 || stopBits > 2) {
                throw new IllegalArgumentException("stop bits are 1 or 2, got " + stopBits);
            }
        }

        /**
         * The silence between two frames: 3.5 characters of 11 bits, and 1.75 ms above 19200 baud. Source: MODBUS over
         * Serial Line V1.02, 2.5.1.1.
         */
        static Duration silence(int baudRate) {
            return baudRate > 19_200 ? Duration.ofNanos(1_750_000) : Duration.ofNanos(38_500_000_000L / baudRate);
        }

        @Override
        public String place() {
            return port;
        }

        /** Unit 0 is a broadcast, which nobody answers (MODBUS over Serial Line V1.02, 2.2). */
        @Override
        public int lowestUnit() {
            return LOWEST_UNIT;
        }

        @Override
        public int highestUnit() {
            return HIGHEST_UNIT;
        }
    }

    /** Parity of a serial line. */
    enum Parity {
        NONE,
        EVEN,
        ODD
    }

    private static void checkHostAndPort(String host, int port) {
        if (host.isBlank()) {
            throw new IllegalArgumentException("a host has a name or an address");
        }
        if (port < 1 || port > 65_535) {
            throw new IllegalArgumentException("a TCP port is 1 … 65535, got " + port);
        }
    }
}
