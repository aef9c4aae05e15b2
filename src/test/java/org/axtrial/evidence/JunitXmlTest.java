package org.axtrial.evidence;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import javax.xml.XMLConstants;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.transform.stream.StreamSource;
import javax.xml.validation.SchemaFactory;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.w3c.dom.Document;
import org.w3c.dom.Element;

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

    // Source: no official schema exists; junit.xsd was written from memory of the known shape.
    @Test
    void followsTheCommonShape() throws Exception {
        SchemaFactory.newInstance(XMLConstants.W3C_XML_SCHEMA_NS_URI)
                .newSchema(JunitXmlTest.class.getResource("junit.xsd"))
                .newValidator()
                .validate(new StreamSource(file.toFile()));
    }

    @Test
    void countsAndOutcomesFollowTheVerdicts() throws Exception {
        Document document =
                DocumentBuilderFactory.newInstance().newDocumentBuilder().parse(file.toFile());
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
