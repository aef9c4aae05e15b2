package org.axtrial.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.digitalpetri.modbus.client.ModbusTcpClient;
import com.digitalpetri.modbus.pdu.ReadInputRegistersRequest;
import com.digitalpetri.modbus.tcp.client.NettyTcpClientTransport;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.axtrial.evidence.Manifest;
import org.axtrial.evidence.RunRecord;
import org.axtrial.measure.Verdict;
import org.axtrial.site.SimulatedSite;
import org.axtrial.site.SiteFile;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

@Timeout(120)
class CommandsTest {

    private static final String DEMO = "test-scripts/demo/site.yaml";
    private static final String DEMO_FAULTS = "test-scripts/demo-faults/site.yaml";

    @TempDir
    private Path folder;

    private String output = "";

    private int axtrial(String... words) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        PrintStream stream = new PrintStream(out, true, StandardCharsets.UTF_8);
        int code = Main.run(Terminal.on(stream, stream), words);
        output = out.toString(StandardCharsets.UTF_8);
        return code;
    }

    private List<Path> packs() throws IOException {
        try (Stream<Path> packs = Files.list(folder)) {
            return packs.sorted().toList();
        }
    }

    @Test
    void theDemoRehearsesWithEveryTrialPassedAndTheSameRecordTwice() throws IOException {
        assertThat(axtrial("rehearse", DEMO, "--reports", folder.toString()))
                .as(output)
                .isZero();
        assertThat(axtrial("rehearse", DEMO, "--reports", folder.toString())).isZero();

        List<Path> packs = packs();
        RunRecord first = RunRecord.read(packs.get(0));
        RunRecord second = RunRecord.read(packs.get(1));
        assertThat(first.trials()).hasSizeGreaterThanOrEqualTo(8 * 3);
        assertThat(first.count(Verdict.PASS)).isEqualTo(first.trials().size());
        assertThat(first.withoutStamps()).isEqualTo(second.withoutStamps());
        assertThat(Manifest.verify(packs.get(0))).isEmpty();
    }

    @Test
    void theFaultyDemoShowsAnHonestFailAndAnHonestInconclusive() throws IOException {
        assertThat(axtrial("rehearse", DEMO_FAULTS, "--reports", folder.toString()))
                .as(output)
                .isEqualTo(1);

        RunRecord record = RunRecord.read(packs().get(0));
        assertThat(record.count(Verdict.FAIL)).isEqualTo(1);
        assertThat(record.count(Verdict.INCONCLUSIVE)).isEqualTo(1);
        assertThat(record.count(Verdict.PASS)).isPositive();
        // Nine tenths of 300 r/min: the gear of the simulated drive is 10:9 and the site says 1:1.
        assertThat(output).containsPattern("Speed from counts over time: (269\\.9|270\\.0)");
    }

    @Test
    void oneScriptCanBeNamed() throws IOException {
        assertThat(axtrial("rehearse", DEMO, "test-scripts/demo/01-at-rest.js", "--reports", folder.toString()))
                .as(output)
                .isZero();

        assertThat(RunRecord.read(packs().get(0)).trials())
                .allMatch(trial -> trial.script().equals("01-at-rest.js"));
    }

    @Test
    void aScriptOutsideTheSiteFolderIsRefused() throws IOException {
        Path stranger = Files.writeString(folder.resolve("x.js"), "");

        assertThat(axtrial("rehearse", DEMO, stranger.toString())).isEqualTo(2);
        assertThat(output).contains("x.js", "lies outside of");
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
                    test-scripts/demo           | this is a folder; name the scripts in it
                    test-scripts/demo/site.yaml | this is a YAML file, not a script
                    test-scripts/demo/nix.js    | there is no such script
                    """)
    void whatIsNoScriptIsToldAsWhatItIs(String script, String told) {
        assertThat(axtrial("rehearse", DEMO, script)).isEqualTo(2);
        assertThat(output).contains(script + ": " + told, "Nothing has moved");
    }

    @Test
    void reportRebuildsTheSameRecord() throws IOException {
        axtrial("rehearse", DEMO, "test-scripts/demo/01-at-rest.js", "--reports", folder.toString());
        Path pack = packs().get(0);
        byte[] record = Files.readAllBytes(pack.resolve("record.json"));
        Files.delete(pack.resolve("record.json"));
        byte[] html = Files.readAllBytes(pack.resolve("report.html"));
        byte[] pdf = Files.readAllBytes(pack.resolve("report.pdf"));
        Files.delete(pack.resolve("report.html"));
        Files.delete(pack.resolve("report.pdf"));

        assertThat(axtrial("report", pack.toString())).isZero();

        assertThat(Files.readAllBytes(pack.resolve("report.html"))).isEqualTo(html);
        assertThat(Files.readAllBytes(pack.resolve("report.pdf"))).isEqualTo(pdf);

        assertThat(Files.readAllBytes(pack.resolve("record.json"))).isEqualTo(record);
        assertThat(Manifest.verify(pack)).isEmpty();
    }

    @Test
    void reportIsLaidOutForThePaperThatIsNamed() throws IOException {
        axtrial("rehearse", DEMO, "test-scripts/demo/01-at-rest.js", "--reports", folder.toString());
        Path pack = packs().get(0);

        assertThat(axtrial("report", pack.toString(), "--paper", "letter")).isZero();

        try (PDDocument document = Loader.loadPDF(pack.resolve("report.pdf").toFile())) {
            // 8.5 in × 11 in at 72 points to the inch.
            assertThat(document.getPage(0).getMediaBox().getWidth()).isCloseTo(612f, within(0.1f));
            assertThat(document.getPage(0).getMediaBox().getHeight()).isCloseTo(792f, within(0.1f));
        }
        assertThat(axtrial("report", pack.toString(), "--paper", "A3")).isEqualTo(2);
        assertThat(output).contains("no paper \"A3\": A4 and Letter are known");
    }

    @Test
    void aReportMadeAgainKeepsThePaperOfItsRun() throws IOException {
        String script = "test-scripts/demo/01-at-rest.js";
        assertThat(axtrial("rehearse", DEMO, script, "--paper", "letter", "--reports", folder.toString()))
                .isZero();
        Path pack = packs().get(0);
        byte[] print = Files.readAllBytes(pack.resolve("report.pdf"));
        assertThat(RunRecord.read(pack).setup().paper()).contains("Letter");

        assertThat(axtrial("report", pack.toString())).isZero();
        assertThat(Files.readAllBytes(pack.resolve("report.pdf"))).isEqualTo(print);
        assertThat(axtrial("reissue", pack.toString(), "--reason", "name corrected", "--by", "A. Sample"))
                .as(output)
                .isZero();
        try (PDDocument document =
                Loader.loadPDF(pack.resolve("after/report-revision-2.pdf").toFile())) {
            assertThat(document.getPage(0).getMediaBox().getHeight()).isCloseTo(792f, within(0.1f));
        }
        assertThat(axtrial("verify", pack.toString())).as(output).isZero();
        // Another paper shows the same record, which is no contradiction.
        assertThat(axtrial("report", pack.toString(), "--paper", "A4")).isZero();
        assertThat(Files.readAllBytes(pack.resolve("report.pdf"))).isNotEqualTo(print);
        assertThat(axtrial("verify", pack.toString())).as(output).isZero();
    }

    @ParameterizedTest
    @ValueSource(strings = {"report.html", "report.pdf"})
    void aReportThatTheRecordDoesNotMakeIsNamedEvenIfTheManifestWasMadeToFit(String report) throws IOException {
        axtrial("rehearse", DEMO, "test-scripts/demo/01-at-rest.js", "--reports", folder.toString());
        Path pack = packs().get(0);
        byte[] altered = Files.readAllBytes(pack.resolve(report));
        altered[altered.length / 2] ^= 1;
        Files.write(pack.resolve(report), altered);
        Manifest.write(pack);

        assertThat(axtrial("verify", pack.toString())).isEqualTo(5);

        assertThat(output)
                .containsPattern(report + "\\s+is not what this program makes of the record; it differs from byte "
                        + altered.length / 2)
                .contains("1 problem in 1 file");
    }

    @Test
    void reportRefusesAFolderThatIsNoRun() {
        assertThat(axtrial("report", folder.toString())).isEqualTo(2);
        assertThat(output).contains("holds no journal.jsonl");
    }

    @Test
    void reportRefusesAJournalThatWasChanged() throws IOException {
        axtrial("rehearse", DEMO, "test-scripts/demo/01-at-rest.js", "--reports", folder.toString());
        Path journal = packs().get(0).resolve("journal.jsonl");
        Files.writeString(journal, Files.readString(journal).replaceFirst("TURNTABLE", "TURNTABLF"));

        assertThat(axtrial("report", packs().get(0).toString())).isEqualTo(5);
    }

    // Independent peer: digitalpetri modbus-tcp, a general-purpose Modbus library.
    @Test
    void simulatedDrivesOfASiteAnswerAnIndependentClient() throws Exception {
        try (SimulatedSite site = SimulatedSite.start(SiteFile.load(Path.of(DEMO)), "127.0.0.1", 0)) {
            SimulatedSite.Served turntable = site.served().get(0);
            ModbusTcpClient client = ModbusTcpClient.create(NettyTcpClientTransport.create(config -> {
                config.setHostname("127.0.0.1");
                config.setPort(turntable.port());
            }));
            client.connect();
            try {
                byte[] words = client.readInputRegisters(turntable.unit(), new ReadInputRegistersRequest(100, 3))
                        .registers();
                // The model code 0D5A17C3 low word first, then firmware 2.14 as 214.
                assertThat(words).containsExactly(0x17, 0xC3, 0x0D, 0x5A, 0x00, 0xD6);
            } finally {
                client.disconnect();
            }
        }
    }

    @Test
    void simulateRefusesAPortThatIsNoPort() {
        assertThat(axtrial("simulate", DEMO, "--port", "70000")).isEqualTo(2);
        assertThat(output).contains("--port must be 0 … 65535");
    }

    @ParameterizedTest
    @ValueSource(strings = {"run", "rehearse", "simulate", "report"})
    void everyCommandExplainsItself(String command) {
        assertThat(axtrial(command, "--help")).isZero();
        assertThat(output).contains("Usage: axtrial " + command);
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
                    rnu site.yaml     | "rnu" is no command; did you mean "run"?
                    site.yaml         | "site.yaml" is no command; known: run, rehearse
                    run --simulted    | not known here: --simulted; did you mean --simulated?
                    punch x --add y   | Missing required option: '--by=NAME'
                    """)
    void aWrongCallIsToldInTwoLines(String typed, String told) {
        assertThat(axtrial(typed.split(" "))).isEqualTo(2);
        assertThat(output).contains(told, " --help");
        assertThat(output.lines()).hasSize(2);
    }

    @Test
    void theListOfCommandsHasWholeSentences() {
        assertThat(axtrial("--help")).isZero();
        String list = output.substring(output.indexOf("Commands:") + 9, output.indexOf("Exit codes"));
        String[] commands = list.strip().split("\\R  (?=\\w)");
        assertThat(commands)
                .hasSizeGreaterThan(15)
                .allSatisfy(command -> assertThat(command.strip()).endsWith("."));
        assertThat(output.lines()).allSatisfy(line -> assertThat(line.length()).isLessThanOrEqualTo(80));
    }

    @Test
    void helpNamesTheCommandsTheCautionAndTheExitCodes() {
        assertThat(axtrial("--help")).isZero();
        assertThat(output).contains("run", "rehearse", "simulate", "report", "not a safety function", "Exit codes");
    }
}
