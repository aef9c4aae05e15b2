package org.axtrial.peer;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** The C programs in {@code src/test/c}: a server and a client on libmodbus, which somebody else wrote. */
public final class Libmodbus implements AutoCloseable {

    private static final Path HEADERS = Path.of("/usr/include/modbus");
    private static final Path SOURCES = Path.of("src/test/c");
    private static final Path BUILT = Path.of("target/peers");

    private final Outside process;
    private final int port;

    private Libmodbus(Outside process, int port) {
        this.process = process;
        this.port = port;
    }

    /** A server on a free loopback port. */
    public static Libmodbus tcpServer() throws IOException, InterruptedException {
        Outside process = new Outside(List.of(built("register_server"), "tcp"));
        int port = Integer.parseInt(process.await("port ").substring("port ".length()));
        process.await("ready");
        return new Libmodbus(process, port);
    }

    /** A server at a serial device, 19200 baud, even parity. */
    public static Libmodbus serialServer(Path device, int unit) throws IOException, InterruptedException {
        Outside process =
                new Outside(List.of(built("register_server"), "rtu", device.toString(), String.valueOf(unit)));
        process.await("ready");
        return new Libmodbus(process, 0);
    }

    /** Runs the client and returns what it printed, one line for each order. */
    public static List<String> client(int port, int unit, String... orders) throws IOException, InterruptedException {
        List<String> command =
                new ArrayList<>(List.of(built("register_client"), String.valueOf(port), String.valueOf(unit)));
        command.addAll(List.of(orders));
        try (Outside process = new Outside(command)) {
            return process.rest();
        }
    }

    public int port() {
        return port;
    }

    /** Compiles a program unless the one of this source is there. */
    private static synchronized String built(String name) throws IOException, InterruptedException {
        if (!Files.isRegularFile(HEADERS.resolve("modbus.h")) || !Files.isExecutable(Path.of("/usr/bin/cc"))) {
            Peers.absent("no C compiler or no libmodbus; install gcc and libmodbus-dev");
        }
        Path source = SOURCES.resolve(name + ".c");
        Path program = BUILT.resolve(name);
        if (!Files.exists(program)
                || Files.getLastModifiedTime(program).compareTo(Files.getLastModifiedTime(source)) < 0) {
            Files.createDirectories(BUILT);
            List<String> command = List.of(
                    "cc",
                    "-std=gnu11",
                    "-Wall",
                    "-Wextra",
                    "-Werror",
                    "-I" + HEADERS,
                    "-o",
                    program.toString(),
                    source.toString(),
                    "-lmodbus",
                    "-lpthread");
            try (Outside compiler = new Outside(command)) {
                compiler.rest();
            }
        }
        return program.toAbsolutePath().toString();
    }

    @Override
    public void close() {
        process.close();
    }
}
