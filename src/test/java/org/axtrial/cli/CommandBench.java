package org.axtrial.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.Sha256;
import org.axtrial.evidence.TrialRecord;
import org.axtrial.quantity.Quantity;
import org.axtrial.registers.DriveDescription;
import org.axtrial.sim.SimulatedDrive;
import org.axtrial.sim.SimulatedServer;
import org.axtrial.site.Site;
import org.axtrial.site.SiteAxis;
import org.axtrial.site.SiteFile;

/**
 * The command line before a simulated drive that the program takes for a real one: the site's target is real and its
 * endpoint is the server of this bench, so that a test can look at what came over the wire.
 */
final class CommandBench implements AutoCloseable {

    private static final String SITE = """
            job: { id: BENCH, title: Bench }
            target: real
            axes:
              - name: TABLE
                drive: %s
                endpoint: { host: 127.0.0.1, port: %d }
                linkDeadline: 300 ms
                scale: { countsPerRevolution: 65536 }
                envelope: { travel: ["-2 rev", "2 rev"], speed: 600 rpm, acceleration: 6000 rpm/s, time: 20 s }
                speed: 120 rpm
                acceleration: 1200 rpm/s
                samplePeriod: 5 ms
                standstill: { window: 0.001 rev, time: 50 ms }
                stopTime: 2 s
                afterTrial: disable
                firstMotion: { travel: 4 rev, speed: 600 rpm }
                simulate:
                  motor: { ratedTorque: 2.4 Nm, inertia: 3.2 kgcm2, maxSpeed: 3000 rpm }
                  load: { inertia: 0.001 kgm2, viscousFriction: 0.0005 Nms/rad, coulombFriction: 0.05 Nm }
                  loops: { positionGain: 80 1/s, inPositionWindow: 0.001 rev, followingErrorTrip: 2 rev }
            """;

    /** A second drive of the same type behind the same endpoint. */
    private static final int NEIGHBOUR_UNIT = 7;

    final Path folder;
    final Path site;
    final SimulatedDrive drive;
    final SimulatedServer server;
    String output = "";
    String errors = "";

    private CommandBench(Path folder, SimulatedDrive drive, SimulatedServer server) throws IOException {
        this.folder = folder;
        this.drive = drive;
        this.server = server;
        this.site = writeSite(folder, server.port());
    }

    static CommandBench start(Path folder) throws Exception {
        Site plan = SiteFile.load(writeSite(folder, 502));
        SiteAxis axis = plan.axes().get(0);
        SimulatedDrive drive =
                new SimulatedDrive(axis.name(), axis.drive(), axis.simulation().orElseThrow());
        SimulatedDrive neighbour =
                new SimulatedDrive("NEIGHBOUR", axis.drive(), axis.simulation().orElseThrow());
        SimulatedServer server =
                SimulatedServer.start("127.0.0.1", 0, Map.of(axis.endpoint().unit(), drive, NEIGHBOUR_UNIT, neighbour));
        return new CommandBench(folder, drive, server);
    }

    private static Path writeSite(Path folder, int port) throws IOException {
        Path description = Path.of("test-scripts/drives/type-d.yaml").toAbsolutePath();
        return Files.writeString(
                folder.resolve("site.yaml"),
                SITE.formatted(description.toString().replace('\\', '/'), port));
    }

    /** Adds instruments to the site file. */
    CommandBench instruments(String yaml) throws IOException {
        Files.writeString(site, yaml + Files.readString(site));
        return this;
    }

    /** Puts a second axis, {@code NEIGHBOUR}, before the one of the bench. */
    CommandBench behindNeighbour() throws IOException {
        String text = Files.readString(site);
        int first = text.indexOf("  - name: TABLE");
        String neighbour = text.substring(first)
                .replace("name: TABLE", "name: NEIGHBOUR")
                .replace("host: 127.0.0.1,", "host: 127.0.0.1, unit: " + NEIGHBOUR_UNIT + ",");
        Files.writeString(site, text.substring(0, first) + neighbour + text.substring(first));
        return this;
    }

    /** Writes a script with one trial. */
    CommandBench script(String body) throws IOException {
        return scriptText("import { trial, nominal, atMost } from \"axtrial\";\n"
                + "trial(\"A trial\", { id: \"T-1\", axes: \"all\", limit: [10, \"s\"] }, (axis, t) => {\n"
                + body + "\n});\n");
    }

    CommandBench scriptText(String text) throws IOException {
        Files.writeString(folder.resolve("t.js"), text);
        return this;
    }

    /** Runs {@code axtrial run} on the site with the axis armed and returns the exit code. */
    int run() {
        return command(
                "run", site.toString(), "--arm", "TABLE", "--reports", reports().toString());
    }

    /** One run of a script, its pack moved to a folder of that name, as from another computer; its id ends in the name. */
    Path runAs(String name, String body, int code) throws IOException {
        String text = Files.readString(site);
        Files.writeString(site, text.replaceFirst("id: [\\w-]+,", "id: " + name.toUpperCase(Locale.ROOT) + ","));
        assertThat(script(body).run()).as(errors).isEqualTo(code);
        return Files.move(pack(), folder.resolve(name));
    }

    /** Copies a folder to a new place. */
    static void copy(Path from, Path to) throws IOException {
        try (Stream<Path> all = Files.walk(from)) {
            for (Path each : all.toList()) {
                Files.copy(each, to.resolve(from.relativize(each).toString()));
            }
        }
    }

    /** The files below a folder, with their hashes. */
    static Map<String, String> files(Path of) throws IOException {
        Map<String, String> all = new TreeMap<>();
        try (Stream<Path> found = Files.walk(of)) {
            for (Path file : found.filter(Files::isRegularFile).toList()) {
                all.put(of.relativize(file).toString(), Sha256.of(file));
            }
        }
        return all;
    }

    int command(String... words) {
        return command(Optional.empty(), words);
    }

    /** As {@link #command}, before a person who types. */
    int typing(String typed, String... words) {
        return command(Optional.of(typed), words);
    }

    private int command(Optional<String> typed, String... words) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        ByteArrayOutputStream err = new ByteArrayOutputStream();
        PrintStream screen = new PrintStream(out, true, StandardCharsets.UTF_8);
        PrintStream errors = new PrintStream(err, true, StandardCharsets.UTF_8);
        Terminal terminal = typed.map(text -> Terminal.screen(
                        new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8)), screen, errors))
                .orElseGet(() -> Terminal.on(screen, errors));
        int code = Main.run(terminal, words);
        output = out.toString(StandardCharsets.UTF_8);
        this.errors = err.toString(StandardCharsets.UTF_8);
        return code;
    }

    Path reports() {
        return folder.resolve("reports");
    }

    /** The only pack under the reports folder. */
    Path pack() {
        return pack(reports());
    }

    static Path pack(Path reports) {
        try (Stream<Path> packs = Files.list(reports)) {
            List<Path> all = packs.toList();
            if (all.size() != 1) {
                throw new AssertionError("expected one pack, found " + all);
            }
            return all.get(0);
        } catch (IOException e) {
            throw new AssertionError(e);
        }
    }

    RunRecord record() {
        return RunRecord.read(pack());
    }

    TrialRecord.Attempt onlyAttempt() {
        return record().trials().get(0).attempts().get(0);
    }

    /** What a parameter of the drive reads now, scaled. */
    double parameter(String name) {
        return drive.value(name);
    }

    /** Writes that reached the first register of a signal. */
    int writes(String signal) {
        DriveDescription description = drive.description();
        return drive.writes(description.value(signal).orElseThrow().address());
    }

    /** Whether the shaft turns by less than a quantum of speed. */
    boolean stands() {
        return Math.abs(drive.shaftSpeed()) < Quantity.parse("0.1 rpm").in(org.axtrial.quantity.Unit.RADIAN_PER_SECOND);
    }

    @Override
    public void close() {
        server.close();
    }
}
