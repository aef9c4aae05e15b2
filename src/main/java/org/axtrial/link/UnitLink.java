package org.axtrial.link;

import java.time.Duration;

/** The registers of one unit over a connection that it may share with others. */
final class UnitLink implements RegisterLink {

    private final SharedConnection connection;
    private final int unit;
    private final Duration deadline;
    private volatile boolean closed;
    /** The connection that this link knows of; set in the turn of the shared connection. */
    private volatile int generation;

    UnitLink(SharedConnection connection, int unit, Duration deadline) {
        this.connection = connection;
        this.unit = unit;
        this.deadline = deadline;
    }

    @Override
    public Reply read(int readFunction, int address, int count) throws LinkException {
        return exchange(new Request.Read(readFunction, address, count));
    }

    @Override
    public Reply writeSingle(int address, int word) throws LinkException {
        return exchange(new Request.WriteSingle(address, word));
    }

    @Override
    public Reply writeBlock(int address, int[] words) throws LinkException {
        return exchange(new Request.WriteBlock(address, words));
    }

    private Reply exchange(Request request) throws LinkException {
        return connection.exchange(this, request, (answer, sent, replied) -> new Reply(answer.words(), sent, replied));
    }

    @Override
    public DeviceIdentification identify() throws LinkException {
        return new Identification(request -> connection.exchange(
                        this, request, (answer, sent, replied) -> IdentificationReply.parse(request, answer.bytes())))
                .read();
    }

    @Override
    public void reconnect() throws LinkLostException {
        connection.reconnect(this);
    }

    @Override
    public void drop() {
        connection.drop();
    }

    @Override
    public long connectionNumber() {
        return generation;
    }

    @Override
    public String peer() {
        return connection.place() + " unit " + unit;
    }

    @Override
    public void close() {
        closed = true;
        connection.release(this);
    }

    boolean isClosed() {
        return closed;
    }

    int unit() {
        return unit;
    }

    Duration deadline() {
        return deadline;
    }

    void speakOn(int connectionNumber) {
        generation = connectionNumber;
    }

    boolean speaksOn(int connectionNumber) {
        return generation == connectionNumber;
    }
}
