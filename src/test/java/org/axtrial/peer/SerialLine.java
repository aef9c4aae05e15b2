package org.axtrial.peer;

import java.io.FileInputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/** A serial line without a wire: two pseudo-terminals that socat joins. */
public final class SerialLine implements AutoCloseable {

    private static final Path SOCAT = Path.of("/usr/bin/socat");

    private final Outside process;
    private final Path near;
    private final Path far;

    /** Keeps the near end open: a pseudo-terminal that nobody holds open ends, which no serial port does. */
    private final FileInputStream held;

    private SerialLine(Outside process, Path near, Path far) throws IOException {
        this.process = process;
        this.held = new FileInputStream(near.toFile());
        this.near = near;
        this.far = far;
    }

    /** Lays a line; gives the test up where socat is absent. */
    public static SerialLine lay() throws IOException {
        requireSocat();
        Outside process = new Outside(List.of(SOCAT.toString(), "-d", "-d", "pty,raw,echo=0", "pty,raw,echo=0"));
        Path near = device(process);
        Path far = device(process);
        process.await("starting data transfer loop");
        return new SerialLine(process, near, far);
    }

    private static Path device(Outside process) throws IOException {
        String line = process.await("PTY is ");
        return Path.of(line.substring(line.indexOf("PTY is ") + "PTY is ".length()));
    }

    private static void requireSocat() {
        if (!Files.isExecutable(SOCAT)) {
            Peers.absent("no " + SOCAT + "; install socat");
        }
    }

    /** The end for the program under test. */
    public Path near() {
        return near;
    }

    /** The end for the drive. */
    public Path far() {
        return far;
    }

    /** A gateway that passes bytes on between TCP connections and the near end of this line. */
    public Gateway gateway() throws IOException {
        Outside gateway = new Outside(List.of(
                SOCAT.toString(),
                "-d",
                "-d",
                "TCP-LISTEN:0,bind=127.0.0.1,reuseaddr,fork",
                "OPEN:" + near + ",raw,echo=0"));
        String line = gateway.await("listening on");
        return new Gateway(gateway, Integer.parseInt(line.substring(line.lastIndexOf(':') + 1)));
    }

    @Override
    public void close() throws IOException {
        held.close();
        process.close();
    }

    /** A gateway while it runs. */
    public static final class Gateway implements AutoCloseable {

        private final Outside process;
        private final int port;

        private Gateway(Outside process, int port) {
            this.process = process;
            this.port = port;
        }

        public int port() {
            return port;
        }

        @Override
        public void close() {
            process.close();
        }
    }
}
