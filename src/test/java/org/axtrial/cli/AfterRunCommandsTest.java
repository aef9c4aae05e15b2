package org.axtrial.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import org.axtrial.evidence.Manifest;
import org.axtrial.evidence.Sha256;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What people agree after a run, through the command line. */
@Timeout(60)
class AfterRunCommandsTest {

    @TempDir
    Path folder;

    private CommandBench bench;

    @BeforeEach
    void aRunWithOneFailedTrial() throws Exception {
        bench = CommandBench.start(folder).script("""
                        t.punch('Tighten the clamp', { class: 'A', owner: 'Fitter', due: '2027-01-31' });
                        const rest = axis.dwell(0.1, 's');
                        t.check('Impossible', rest.drift(), nominal(1, 'rev').plusMinus(0.1, 'rev'));""");
        assertThat(bench.run()).isEqualTo(1);
    }

    @AfterEach
    void end() throws Exception {
        bench.close();
    }

    private String pack() {
        return bench.pack().toString();
    }

    @Test
    void fromNotAcceptedToAcceptedWithDeviations() throws Exception {
        assertThat(bench.command("state", pack())).isEqualTo(1);
        assertThat(bench.output)
                .startsWith("NOT ACCEPTED")
                .contains("T-1 on TABLE failed")
                .contains("1  A  Tighten the clamp  [T-1 TABLE]  owner Fitter  due 2027-01-31  open");
        assertThat(bench.command("punch", pack(), "--close", "1", "--evidence", "photograph 7", "--by", "A. Sample"))
                .isZero();
        assertThat(bench.command(
                        "deviation",
                        pack(),
                        "--trial",
                        "T-1",
                        "--reason",
                        "as agreed by letter",
                        "--agreed-by",
                        "C. Customer"))
                .isZero();
        assertThat(bench.output).startsWith("ACCEPTED WITH DEVIATIONS");
        String first = Sha256.of(bench.pack().resolve("report.html"));
        assertThat(bench.command("reissue", pack(), "--reason", "punch list closed", "--by", "A. Sample"))
                .isZero();
        String second = Files.readString(bench.pack().resolve("after/report-revision-2.html"));
        assertThat(second)
                .contains("Revision 2")
                .contains("report.html (SHA-256 " + first + ")")
                .contains("ACCEPTED WITH DEVIATIONS")
                .contains("as agreed by letter")
                .contains("photograph 7");
        assertThat(bench.pack().resolve("after/report-revision-2.pdf")).isNotEmptyFile();
        assertThat(bench.command("reissue", pack(), "--reason", "name corrected", "--by", "A. Sample"))
                .isZero();
        assertThat(Files.readString(bench.pack().resolve("after/report-revision-3.html")))
                .contains("after/report-revision-2.html (SHA-256 ");
        // The run itself is as it was: same report, and the manifest still holds.
        assertThat(Sha256.of(bench.pack().resolve("report.html"))).isEqualTo(first);
        assertThat(Manifest.verify(bench.pack())).isEmpty();
        assertThat(bench.command("state", pack())).isZero();
        assertThat(bench.command("verify", pack())).isZero();
    }

    @Test
    void aRevisionThatWasAlteredIsTold() throws Exception {
        assertThat(bench.command("reissue", pack(), "--reason", "first look", "--by", "A. Sample"))
                .isZero();
        Files.writeString(bench.pack().resolve("after/report-revision-2.html"), "<p>All fine</p>");
        assertThat(bench.command("state", pack())).isEqualTo(5);
        assertThat(bench.errors).contains("after/report-revision-2.html is not as it was issued");
        assertThat(bench.command("verify", pack())).isEqualTo(5);
        assertThat(bench.output).contains("after/report-revision-2.html").contains("is not as it was issued");
    }

    @Test
    void wrongUseIsRefusedAndNothingIsAdded() {
        assertThat(bench.command("punch", pack(), "--close", "9", "--evidence", "x", "--by", "A. Sample"))
                .isEqualTo(2);
        assertThat(bench.errors).contains("there is no item 9; the list has 1");
        assertThat(bench.command("punch", pack(), "--close", "1", "--by", "A. Sample"))
                .isEqualTo(2);
        assertThat(bench.errors).contains("the evidence that closes an item must not be empty");
        assertThat(bench.command("punch", pack(), "--add", "Do it", "--class", "D", "--by", "A. Sample"))
                .isEqualTo(2);
        assertThat(bench.errors).contains("an item needs --class A, B or C, not \"D\"");
        assertThat(bench.command("punch", pack(), "--by", "A. Sample")).isEqualTo(2);
        assertThat(bench.errors).contains("give either --add TEXT or --close NUMBER");
        assertThat(bench.command("deviation", pack(), "--trial", "T-9", "--reason", "x", "--agreed-by", "A. Sample"))
                .isEqualTo(2);
        assertThat(bench.errors).contains("the run has no trial \"T-9\"; it has T-1");
        assertThat(bench.command("state", folder.toString())).isEqualTo(2);
        assertThat(bench.errors).contains("holds no journal.jsonl", "name the folder of a run");
        assertThat(bench.command("state", pack() + "x")).isEqualTo(2);
        assertThat(bench.errors).contains("there is no folder " + pack() + "x");
        assertThat(bench.command("state", pack() + "/report.html")).isEqualTo(2);
        assertThat(bench.errors).contains("report.html is a file");
        assertThat(bench.command(
                        "punch", pack(), "--add", "Do it", "--class", "B", "--by", "A. Sample", "--due", "31.12.2026"))
                .isEqualTo(2);
        assertThat(bench.errors)
                .contains("\"31.12.2026\" is no date", "2027-01-31")
                .doesNotContain("java");
        assertThat(Files.exists(bench.pack().resolve("after"))).isFalse();
    }

    @ParameterizedTest
    @ValueSource(strings = {"y", "ok", "Bob", "A.", " "})
    void whatNamesNobodyIsRefusedAndNothingIsAdded(String name) throws Exception {
        String refused = "\"" + name + "\" is not the first and last name of the person, for example A. Example";
        assertThat(bench.command("punch", pack(), "--add", "Do it", "--class", "B", "--by", name))
                .isEqualTo(2);
        assertThat(bench.errors).contains("'--by'", refused);
        assertThat(bench.command("deviation", pack(), "--trial", "T-1", "--reason", "x", "--agreed-by", name))
                .isEqualTo(2);
        assertThat(bench.errors).contains("'--agreed-by'", refused);
        assertThat(bench.command("reissue", pack(), "--reason", "x", "--by", name))
                .isEqualTo(2);
        assertThat(bench.errors).contains("'--by'", refused);
        assertThat(bench.pack().resolve("after")).doesNotExist();
    }
}
