package org.axtrial.evidence;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Stream;
import javax.xml.XMLConstants;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.transform.stream.StreamSource;
import javax.xml.validation.SchemaFactory;
import org.axtrial.measure.Verdict;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.SAXException;

@Timeout(60)
class JunitXmlTest {

    @TempDir
    private Path reports;

    private Path file;

    @BeforeEach
    void writePack() {
        EvidencePack pack = EvidencePack.create(reports, SampleRun.RUN_ID, List.of());
        SampleRun.full(RunInfo.Mode.REHEARSAL, Instant.parse("2031-03-04T10:11:12Z"))
                .forEach(pack::accept);
        pack.finish();
        file = pack.folder().resolve("junit.xml");
    }

    // Common practice, no standard: junit.xsd says where it comes from.
    private static void validate(String xml) throws Exception {
        SchemaFactory.newInstance(XMLConstants.W3C_XML_SCHEMA_NS_URI)
                .newSchema(JunitXmlTest.class.getResource("junit.xsd"))
                .newValidator()
                .validate(new StreamSource(new StringReader(xml)));
    }

    private static Document document(String xml) throws Exception {
        return DocumentBuilderFactory.newInstance()
                .newDocumentBuilder()
                .parse(new ByteArrayInputStream(xml.getBytes(StandardCharsets.UTF_8)));
    }

    @Test
    void followsTheCommonShape() throws Exception {
        validate(Files.readString(file));
    }

    /** A schema that takes everything would prove nothing. */
    @ParameterizedTest
    @CsvSource({
        "<testcase , <case ",
        "' failures=\"', ' failures=\"-'",
        "<failure , <failed ",
        "' classname=\"', ' class=\"'",
        "' time=\"', ' time=\"-1'",
        "' timestamp=\"2031', ' timestamp=\"31'",
        "</testsuites>, <testcase/></testsuites>"
    })
    void theSchemaRefusesAnotherShape(String what, String by) throws Exception {
        String xml = Files.readString(file);
        assertThat(xml).contains(what);
        assertThatThrownBy(() -> validate(xml.replaceFirst(what, by))).isInstanceOf(SAXException.class);
    }

    /** The form has no word for what was not proven: such a case is skipped and says its verdict. */
    @Test
    void everyVerdictHasItsOutcomeAndSaysWhy() throws Exception {
        RunRecord record = RunRecord.read(reports.resolve(SampleRun.RUN_ID));
        Document document = document(Files.readString(file));
        Map<String, Element> cases = new HashMap<>();
        NodeList all = document.getElementsByTagName("testcase");
        for (int i = 0; i < all.getLength(); i++) {
            Element one = (Element) all.item(i);
            String id = one.getAttribute("name").split(" ", -1)[0];
            assertThat(cases.put(one.getAttribute("classname").replaceFirst(".*\\.", "") + " " + id, one))
                    .isNull();
        }
        assertThat(cases).hasSameSizeAs(record.trials());
        assertThat(record.trials()).extracting(TrialRecord::verdict).containsAll(List.of(Verdict.values()));
        for (TrialRecord trial : record.trials()) {
            Element one = Objects.requireNonNull(cases.get(trial.axis() + " " + trial.trial()));
            List<String> outcomes = Stream.of("failure", "error", "skipped")
                    .filter(outcome -> one.getElementsByTagName(outcome).getLength() > 0)
                    .toList();
            List<String> expected = switch (trial.verdict()) {
                case PASS -> List.of();
                case FAIL -> List.of("failure");
                case ERROR -> List.of("error");
                case NOT_RUN, INCONCLUSIVE, BLOCKED, NOT_APPLICABLE -> List.of("skipped");
            };
            assertThat(outcomes).as(trial.trial()).isEqualTo(expected);
            if (!outcomes.isEmpty()) {
                Element outcome =
                        (Element) one.getElementsByTagName(outcomes.get(0)).item(0);
                assertThat(outcome.getAttribute("message"))
                        .startsWith(trial.verdict().printed() + ": ")
                        .hasSizeGreaterThan(trial.verdict().printed().length() + 2);
            }
        }
    }

    /** Every character of the basic plane and one beyond it, in a message of a hundred thousand characters. */
    @Test
    void oddCharactersAndLongMessagesStayInTheForm() throws Exception {
        StringBuilder odd = new StringBuilder("\ud83d\ude00 ]]> <![CDATA[ <!-- & \" ' ");
        for (char c = 0; c < 0xFFFF; c++) {
            odd.append(c);
        }
        String message = odd + "long ".repeat(10_000) + "end";
        EvidencePack pack = EvidencePack.create(reports.resolve("odd"), SampleRun.RUN_ID, List.of());
        List<RunEvent> events = SampleRun.small();
        events.subList(0, events.size() - 2).forEach(pack::accept);
        RunEvent.TrialStarted started = (RunEvent.TrialStarted) events.get(1);
        pack.accept(new RunEvent.TrialBroken(started.at(), started.key(), Verdict.ERROR, message, Optional.empty()));
        pack.accept(new RunEvent.TrialFinished(started.at(), started.key(), Verdict.ERROR, message));
        pack.accept(events.get(events.size() - 1));
        pack.finish();
        String xml = Files.readString(pack.folder().resolve("junit.xml"));
        validate(xml);
        Element error = (Element) document(xml).getElementsByTagName("error").item(0);
        assertThat(error.getAttribute("message"))
                .startsWith("ERROR: ")
                .contains("\ud83d\ude00 ]]> <![CDATA[ <!-- & \" ' \\u0000\\u0001")
                .endsWith("long end");
        // What XML 1.0, 2.2 takes is there as it was, what it does not take is spelt out.
        assertThat(error.getTextContent()).contains("\t\n\\u000b\\u000c\\u000d", "\u0416", "\uFFFD", "\\ufffe");
    }

    @Test
    void countsAndOutcomesFollowTheVerdicts() throws Exception {
        Document document = document(Files.readString(file));
        Element root = document.getDocumentElement();
        assertThat(root.getAttribute("name")).contains("SIMULATED");
        assertThat(root.getAttribute("tests")).isEqualTo("11");
        assertThat(root.getAttribute("failures")).isEqualTo("1");
        assertThat(root.getAttribute("errors")).isEqualTo("1");
        assertThat(root.getAttribute("skipped")).isEqualTo("4");
        assertThat(document.getElementsByTagName("testsuite").getLength()).isEqualTo(3);
        assertThat(document.getElementsByTagName("skipped").getLength()).isEqualTo(4);
        Element failure = (Element) document.getElementsByTagName("failure").item(0);
        assertThat(failure.getAttribute("message")).startsWith("FAIL: Position change");
        assertThat(failure.getTextContent()).contains("above the upper limit");
    }

    @Test
    void holdsNoSystemPropertyAndSpellsOutControlCharacters() throws Exception {
        String text = Files.readString(file);
        assertThat(text).contains("\\u0001").doesNotContain("java.home", "user.dir");
        assertThat(text).doesNotContain("<properties", "<script>");
    }
}
