package org.axtrial.link;

import com.fazecast.jSerialComm.SerialPort;
import com.fazecast.jSerialComm.SerialPortInvalidPortException;
import com.ghgande.j2mod.modbus.net.AbstractSerialConnection;
import com.ghgande.j2mod.modbus.net.SerialConnection;
import com.ghgande.j2mod.modbus.util.SerialParameters;
import java.io.EOFException;
import java.io.IOException;
import java.time.Duration;

/** Bytes over a serial port, opened by the protocol library. Its frame reader is not used: it has no deadline. */
final class SerialStream implements ByteStream {

    private static final int DATA_BITS = 8;

    private final Transport.Serial settings;
    private final SerialConnection port;
    private volatile boolean ended;

    SerialStream(Transport.Serial settings) {
        this.settings = settings;
        SerialParameters parameters = new SerialParameters(
                settings.port(),
                settings.baudRate(),
                AbstractSerialConnection.FLOW_CONTROL_DISABLED,
                AbstractSerialConnection.FLOW_CONTROL_DISABLED,
                DATA_BITS,
                settings.stopBits() == 1
                        ? AbstractSerialConnection.ONE_STOP_BIT
                        : AbstractSerialConnection.TWO_STOP_BITS,
                switch (settings.parity()) {
                    case NONE -> AbstractSerialConnection.NO_PARITY;
                    case EVEN -> AbstractSerialConnection.EVEN_PARITY;
                    case ODD -> AbstractSerialConnection.ODD_PARITY;
                },
                false);
        parameters.setOpenDelay(0);
        port = new SerialConnection(parameters);
    }

    @Override
    public void open(Duration within) throws IOException {
        try {
            port.open();
        } catch (IOException | SerialPortInvalidPortException e) {
            throw new IOException(
                    "the serial port " + settings.port()
                            + " cannot be opened; it may not be there, be in use by another program, or not be allowed"
                            + " to this user",
                    e);
        }
    }

    @Override
    public int read(byte[] into, int at, int most, Duration within) throws IOException {
        if (ended) {
            throw new EOFException("the serial port has been closed");
        }
        port.setComPortTimeouts(SerialPort.TIMEOUT_READ_SEMI_BLOCKING, TcpStream.milliseconds(within), 0);
        byte[] bytes = new byte[most];
        int read = port.readBytes(bytes, most);
        if (read < 0) {
            throw new EOFException("the serial port is gone; look at its plug");
        }
        System.arraycopy(bytes, 0, into, at, read);
        return read;
    }

    @Override
    public void write(byte[] bytes) throws IOException {
        int written = ended ? -1 : port.writeBytes(bytes, bytes.length);
        if (written != bytes.length) {
            throw new IOException("the serial port took " + Math.max(0, written) + " of " + bytes.length + " bytes");
        }
    }

    @Override
    public void close() {
        ended = true;
        port.close();
    }

    @Override
    public void abort() {
        close();
    }
}
