package org.axtrial.link;

import java.time.Duration;
import org.axtrial.time.TimeSource;

/** Registers of one unit over a Modbus TCP connection of its own. Guarantees as in {@link SharedConnection}. */
public final class ModbusTcpLink implements RegisterLink {

    private final UnitLink link;

    private ModbusTcpLink(UnitLink link) {
        this.link = link;
    }

    /**
     * Connects to a drive or to the gateway before it.
     *
     * @param host name or address
     * @param port 1 … 65535, usually 502
     * @param unit 0 … 255; 255 for a drive with its own network port (MODBUS Messaging on TCP/IP V1.0b, 4.4.1.2)
     * @param deadline for connecting, and for each whole exchange from sending to the last byte of the reply, 1 ms … 1 h
     * @param time the clock that the deadline and the replies are told on
     * @throws LinkLostException if the connection cannot be made within the deadline
     */
    public static ModbusTcpLink open(String host, int port, int unit, Duration deadline, TimeSource time)
            throws LinkLostException {
        return new ModbusTcpLink(
                SharedConnection.to(new Transport.Tcp(host, port), time).openUnit(unit, deadline));
    }

    @Override
    public Reply read(int readFunction, int address, int count) throws LinkException {
        return link.read(readFunction, address, count);
    }

    @Override
    public Reply writeSingle(int address, int word) throws LinkException {
        return link.writeSingle(address, word);
    }

    @Override
    public Reply writeBlock(int address, int[] words) throws LinkException {
        return link.writeBlock(address, words);
    }

    @Override
    public DeviceIdentification identify() throws LinkException {
        return link.identify();
    }

    @Override
    public void reconnect() throws LinkLostException {
        link.reconnect();
    }

    @Override
    public long connectionNumber() {
        return link.connectionNumber();
    }

    @Override
    public String peer() {
        return link.peer();
    }

    @Override
    public void drop() {
        link.drop();
    }

    @Override
    public void close() {
        link.close();
    }
}
