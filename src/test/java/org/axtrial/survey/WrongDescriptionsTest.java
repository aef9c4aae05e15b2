package org.axtrial.survey;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.UnaryOperator;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.axtrial.link.ModbusTcpLink;
import org.axtrial.link.RegisterLink;
import org.axtrial.sim.InProcessLink;
import org.axtrial.sim.SimulatedDrive;
import org.axtrial.sim.SimulatedServer;
import org.axtrial.site.KeyLines;
import org.axtrial.site.SiteAxis;
import org.axtrial.site.SiteFile;
import org.axtrial.time.SystemTime;
import org.axtrial.time.VirtualTime;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Twenty-four descriptions with one mistake each, held against a simulated drive that has the right one. Every mistake is
 * named as the likeliest, with the line to change, and nothing is written.
 */
@Timeout(60)
class WrongDescriptionsTest {

    /** Values beside those of the demonstration, so that every kind of mistake has a value to show on. */
    private static final String MORE_C = """
              userOffset:          { address: 1040, type: int32, unit: count, plausible: [-100000, 100000] }
              trim:                { address: 1042, type: int16, plausible: [-500, 500] }
              notchWidth:          { address: 1043, type: float32, unit: Hz, plausible: [1, 100] }
              loadInertia:         { address: 1045, type: uint32, scale: 0.001, unit: Nm, plausible: [0.5, 5] }
            """;

    private static final String MORE_D = """
              userOffset:          { reference: 40120, type: int32, unit: count, plausible: [-100000, 100000] }
              trim:                { reference: 40122, type: int16, plausible: [-500, 500] }
              notchWidth:          { reference: 40123, type: float32, unit: Hz, plausible: [1, 100] }
              loadInertia:         { reference: 40125, type: uint32, scale: 0.001, unit: Nm, plausible: [0.5, 5] }
            """;

    private static final Map<String, Double> SHOWN =
            Map.of("userOffset", -41_523.0, "trim", -123.0, "notchWidth", 12.7, "loadInertia", 1.273);

    @TempDir
    Path folder;

    /**
     * A mistake.
     *
     * @param title what is wrong
     * @param drive file of the demonstration
     * @param spoil makes the mistake
     * @param changes what the diagnosis must name
     * @param line a line to change that it must print, without the file and its line
     */
    private record Mistake(String title, String drive, UnaryOperator<String> spoil, Set<Change> changes, String line) {
        @Override
        public String toString() {
            return drive + ": " + title;
        }
    }

    private static Mistake c(String title, String from, String to, String line, Change... changes) {
        return new Mistake(title, "type-c.yaml", text -> once(text, from, to), Set.of(changes), line);
    }

    private static Mistake d(String title, String from, String to, String line, Change... changes) {
        return new Mistake(title, "type-d.yaml", text -> once(text, from, to), Set.of(changes), line);
    }

    private static String once(String text, String from, String to) {
        assertThat(text).contains(from);
        return text.replace(from, to);
    }

    private static String shifted(String text, String pattern, String replacement, int by) {
        Matcher matcher = Pattern.compile(pattern).matcher(text);
        return matcher.replaceAll(found -> replacement + (Integer.parseInt(found.group(1)) + by));
    }

    static Stream<Mistake> mistakes() {
        return Stream.of(
                c(
                        "product code one higher",
                        "productCode:         { address: 0",
                        "productCode:         { address: 1",
                        "identity.productCode.address: 1 → 0",
                        Change.ADDRESS),
                c(
                        "firmware one lower",
                        "firmware:            { address: 8",
                        "firmware:            { address: 7",
                        "identity.firmware.address: 7 → 8",
                        Change.ADDRESS),
                c(
                        "word order",
                        "wordOrder: high-first",
                        "wordOrder: low-first",
                        "wordOrder: low-first → high-first",
                        Change.WORD_ORDER),
                c(
                        "byte order",
                        "wordOrder: high-first",
                        "wordOrder: high-first\nbyteOrder: low-first",
                        "byteOrder: low-first → high-first",
                        Change.BYTE_ORDER),
                c(
                        "sign of 32 bits",
                        "userOffset:          { address: 1040, type: int32",
                        "userOffset:          { address: 1040, type: uint32",
                        "parameters.userOffset.type: uint32 → int32",
                        Change.SIGN),
                c(
                        "sign of 16 bits",
                        "trim:                { address: 1042, type: int16",
                        "trim:                { address: 1042, type: uint16",
                        "parameters.trim.type: uint16 → int16",
                        Change.SIGN),
                c(
                        "width",
                        "firmware:            { address: 8, type: uint16",
                        "firmware:            { address: 8, type: uint32",
                        "identity.firmware.type: uint32 → uint16",
                        Change.WIDTH),
                c(
                        "integer for float",
                        "notchWidth:          { address: 1043, type: float32",
                        "notchWidth:          { address: 1043, type: uint32",
                        "parameters.notchWidth.type: uint32 → float32",
                        Change.FLOAT),
                c(
                        "scale ten times",
                        "loadInertia:         { address: 1045, type: uint32, scale: 0.001",
                        "loadInertia:         { address: 1045, type: uint32, scale: 0.01",
                        "parameters.loadInertia.scale: 0.01 → 0.001",
                        Change.SCALE),
                c(
                        "table",
                        "productCode:         { address: 0,",
                        "productCode:         { address: 0, table: input,",
                        "identity.productCode.table: input → holding",
                        Change.TABLE),
                new Mistake(
                        "one-based numbers as addresses",
                        "type-c.yaml",
                        text -> shifted(text, "address: (\\d+)", "address: ", 1),
                        Set.of(Change.ADDRESS),
                        "identity.productCode.address: 1 → 0"),
                c(
                        "words and address",
                        "productCode:         { address: 0,",
                        "productCode:         { address: 1, wordOrder: low-first,",
                        "identity.productCode.wordOrder: low-first → high-first",
                        Change.ADDRESS,
                        Change.WORD_ORDER),
                d(
                        "model code one higher",
                        "modelCode:           { reference: 30101",
                        "modelCode:           { reference: 30102",
                        "identity.modelCode.reference: 30102 → 30101",
                        Change.ADDRESS),
                d(
                        "model code one lower",
                        "modelCode:           { reference: 30101",
                        "modelCode:           { reference: 30100",
                        "identity.modelCode.reference: 30100 → 30101",
                        Change.ADDRESS),
                d(
                        "word order",
                        "wordOrder: low-first",
                        "wordOrder: high-first",
                        "wordOrder: high-first → low-first",
                        Change.WORD_ORDER),
                d(
                        "byte order",
                        "wordOrder: low-first",
                        "wordOrder: low-first\nbyteOrder: low-first",
                        "byteOrder: low-first → high-first",
                        Change.BYTE_ORDER),
                d(
                        "sign of 32 bits",
                        "userOffset:          { reference: 40120, type: int32",
                        "userOffset:          { reference: 40120, type: uint32",
                        "parameters.userOffset.type: uint32 → int32",
                        Change.SIGN),
                d(
                        "sign of 16 bits",
                        "trim:                { reference: 40122, type: int16",
                        "trim:                { reference: 40122, type: uint16",
                        "parameters.trim.type: uint16 → int16",
                        Change.SIGN),
                d(
                        "width",
                        "firmware:            { reference: 30107, type: uint16",
                        "firmware:            { reference: 30107, type: uint32",
                        "identity.firmware.type: uint32 → uint16",
                        Change.WIDTH),
                d(
                        "integer for float",
                        "notchWidth:          { reference: 40123, type: float32",
                        "notchWidth:          { reference: 40123, type: int32",
                        "parameters.notchWidth.type: int32 → float32",
                        Change.FLOAT),
                d(
                        "scale a tenth",
                        "loadInertia:         { reference: 40125, type: uint32, scale: 0.001",
                        "loadInertia:         { reference: 40125, type: uint32, scale: 0.0001",
                        "parameters.loadInertia.scale: 0.0001 → 0.001",
                        Change.SCALE),
                d(
                        "table",
                        "modelCode:           { reference: 30101",
                        "modelCode:           { reference: 40101",
                        "identity.modelCode.reference: 40101 → 30101",
                        Change.TABLE),
                new Mistake(
                        "one-based numbers as addresses",
                        "type-d.yaml",
                        text -> shifted(
                                shifted(text, "reference: 40(\\d\\d\\d)", "address: ", 0),
                                "reference: 30(\\d\\d\\d)",
                                "table: input, address: ",
                                0),
                        Set.of(Change.ADDRESS),
                        "identity.modelCode.address: 101 → 100"),
                d(
                        "bytes and address",
                        "modelCode:           { reference: 30101,",
                        "modelCode:           { reference: 30102, byteOrder: low-first,",
                        "identity.modelCode.byteOrder: low-first → high-first",
                        Change.ADDRESS,
                        Change.BYTE_ORDER));
    }

    @ParameterizedTest
    @MethodSource("mistakes")
    void isNamedWithItsLineAndNothingIsWritten(Mistake mistake) throws Exception {
        SiteAxis right = axis(mistake, UnaryOperator.identity());
        SiteAxis wrong = axis(mistake, mistake.spoil());
        SimulatedDrive drive =
                new SimulatedDrive("DRIVE", right.drive(), right.simulation().orElseThrow(), SHOWN);
        try (RegisterLink link = new InProcessLink(drive, new VirtualTime(Instant.EPOCH))) {
            check(mistake, wrong, link);
        }
        try (SimulatedServer server = SimulatedServer.start("127.0.0.1", 0, Map.of(1, drive));
                RegisterLink link =
                        ModbusTcpLink.open("127.0.0.1", server.port(), 1, Duration.ofSeconds(5), SystemTime.INSTANCE)) {
            check(mistake, wrong, link);
        }
        assertThat(drive.writes()).as("writes on the wire").isZero();
    }

    private void check(Mistake mistake, SiteAxis axis, RegisterLink link) throws Exception {
        MapCheck map = MapCheck.read(link, axis.drive());
        List<String> lines = new ArrayList<>();
        KeyLines keys = KeyLines.read(axis.driveFile());
        KeyPlaces places = path -> keys.line(path)
                .map(line ->
                        new KeyPlaces.Written(axis.driveFile().getFileName().toString(), line, keys.text(path)));
        assertThat(map.wrong()).isNotEmpty().allSatisfy(wrong -> {
            assertThat(map.best(wrong)).as(wrong.told()).isPresent();
            assertThat(map.best(wrong).orElseThrow().changes()).as(wrong.told()).isEqualTo(mistake.changes());
            map.corrections(wrong, places).forEach(correction -> lines.add(correction.printed()));
        });
        assertThat(lines).anySatisfy(line -> assertThat(line).endsWith(mistake.line()));
        assertThat(lines).allSatisfy(line -> assertThat(line).matches("type-[cd]\\.yaml:\\d+: .*"));
        assertThat(map.isAnotherDrive()).isFalse();
    }

    @ParameterizedTest
    @MethodSource("mistakes")
    void theRightDescriptionHasNothingToSay(Mistake mistake) throws Exception {
        SiteAxis right = axis(mistake, UnaryOperator.identity());
        SimulatedDrive drive =
                new SimulatedDrive("DRIVE", right.drive(), right.simulation().orElseThrow(), SHOWN);
        MapCheck map = MapCheck.read(new InProcessLink(drive, new VirtualTime(Instant.EPOCH)), right.drive());
        assertThat(map.wrong()).isEmpty();
        assertThat(map.proof()).isEqualTo(Proof.ALL);
        assertThat(map.checks()).hasSizeGreaterThan(4);
    }

    /** The first axis of the demonstration, on a description with some more values and maybe a mistake. */
    private SiteAxis axis(Mistake mistake, UnaryOperator<String> spoil) throws Exception {
        String more = mistake.drive().equals("type-c.yaml") ? MORE_C : MORE_D;
        String text = Files.readString(Path.of("test-scripts/drives").resolve(mistake.drive())) + more;
        // Away from the code, so that a value one register further does not run into it; the loader would say so first.
        text = text.replace("firmware:            { address: 2,", "firmware:            { address: 8,")
                .replace("firmware:            { reference: 30103,", "firmware:            { reference: 30107,");
        Path file = folder.resolve(mistake.drive());
        Files.writeString(file, spoil.apply(text));
        Path site = folder.resolve("site.yaml");
        Files.writeString(site, """
                job: { id: J, title: Test }
                axes:
                  - name: TABLE
                    drive: %s
                    endpoint: { host: 192.0.2.1 }
                    scale: { countsPerRevolution: 65536 }
                    envelope: { travel: ["-2 rev", "2 rev"], speed: 600 rpm, acceleration: 3000 rpm/s }
                    simulate:
                      motor: { ratedTorque: 2 Nm, inertia: 3 kgcm2, maxSpeed: 3000 rpm }
                      load: { inertia: 1 kgcm2 }
                """.formatted(mistake.drive()));
        return SiteFile.load(site).axes().get(0);
    }

    /** The table counts what it says. */
    @Test
    void thereAreTwentyFour() {
        assertThat(mistakes()).hasSize(24).extracting(Mistake::toString).doesNotHaveDuplicates();
    }
}
