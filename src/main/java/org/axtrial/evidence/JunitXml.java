package org.axtrial.evidence;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;
import org.axtrial.measure.Verdict;

/**
 * Writes a record in the XML form that build servers read: one suite for each axis, one case for each trial. FAIL is a
 * failure and ERROR an error; whatever was not proven is skipped with its verdict and reason, because the form has no
 * word for it. Holds nothing of the machine that ran it beyond what the record holds.
 */
final class JunitXml {

    static final String FILE = "junit.xml";

    private final XMLStreamWriter xml;

    private JunitXml(XMLStreamWriter xml) {
        this.xml = xml;
    }

    static byte[] bytes(RunRecord record) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try {
            XMLStreamWriter writer =
                    XMLOutputFactory.newDefaultFactory().createXMLStreamWriter(out, StandardCharsets.UTF_8.name());
            new JunitXml(writer).write(record);
            writer.close();
        } catch (XMLStreamException e) {
            throw new IllegalStateException("writing XML to memory failed", e);
        }
        return out.toByteArray();
    }

    private void write(RunRecord record) throws XMLStreamException {
        Map<String, List<TrialRecord>> byAxis = record.trials().stream()
                .collect(Collectors.groupingBy(TrialRecord::axis, LinkedHashMap::new, Collectors.toList()));
        xml.writeStartDocument("UTF-8", "1.0");
        xml.writeCharacters("\n");
        xml.writeStartElement("testsuites");
        attribute("name", "Axtrial " + record.stamps().runId() + (record.simulated() ? " (SIMULATED)" : ""));
        counts(record.trials());
        attribute("time", seconds(record.stamps().startedAt(), record.stamps().finishedAt()));
        for (Map.Entry<String, List<TrialRecord>> axis : byAxis.entrySet()) {
            suite(axis.getKey(), axis.getValue(), record.stamps().startedAt());
        }
        xml.writeCharacters("\n");
        xml.writeEndElement();
        xml.writeEndDocument();
    }

    private void suite(String axis, List<TrialRecord> trials, Instant begin) throws XMLStreamException {
        xml.writeCharacters("\n  ");
        xml.writeStartElement("testsuite");
        attribute("name", axis);
        counts(trials);
        double sum = trials.stream()
                .flatMap(trial -> trial.deciding().stream())
                .mapToDouble(JunitXml::seconds)
                .sum();
        attribute("time", seconds(sum));
        attribute("timestamp", begin.truncatedTo(ChronoUnit.SECONDS).toString());
        for (TrialRecord trial : trials) {
            testCase(trial);
        }
        xml.writeCharacters("\n  ");
        xml.writeEndElement();
    }

    private void testCase(TrialRecord trial) throws XMLStreamException {
        xml.writeCharacters("\n    ");
        xml.writeStartElement("testcase");
        attribute("name", trial.trial() + " " + trial.title());
        attribute("classname", trial.script().replaceAll("\\.m?js$", "").replace('/', '.') + "." + trial.axis());
        attribute("time", seconds(trial.deciding().map(JunitXml::seconds).orElse(0.0)));
        Optional<String> outcome = switch (trial.verdict()) {
            case FAIL -> Optional.of("failure");
            case ERROR -> Optional.of("error");
            case PASS -> Optional.empty();
            case BLOCKED, INCONCLUSIVE, NOT_RUN, NOT_APPLICABLE -> Optional.of("skipped");
        };
        if (outcome.isPresent()) {
            xml.writeCharacters("\n      ");
            xml.writeStartElement(outcome.get());
            attribute("message", trial.verdict().printed() + ": " + trial.reason());
            if (!outcome.get().equals("skipped")) {
                attribute("type", trial.verdict().printed());
            }
            xml.writeCharacters(clean(details(trial)));
            xml.writeEndElement();
        }
        if (trial.attempts().size() > 1) {
            xml.writeCharacters("\n      ");
            xml.writeStartElement("system-out");
            xml.writeCharacters(clean(trial.attemptsInWords()));
            xml.writeEndElement();
        }
        xml.writeCharacters("\n    ");
        xml.writeEndElement();
    }

    private static String details(TrialRecord trial) {
        StringBuilder text = new StringBuilder();
        trial.deciding().ifPresent(attempt -> {
            attempt.broken().forEach(b -> line(text, b.verdict(), b.message(), b.place()));
            attempt.checks().stream()
                    .filter(check -> check.verdict() != Verdict.PASS)
                    .forEach(check -> line(
                            text,
                            check.verdict(),
                            check.name() + ": expected " + check.criterion().printed() + "; " + check.reason(),
                            check.place()));
        });
        return text.toString();
    }

    private static void line(StringBuilder text, Verdict verdict, String message, Optional<ScriptPlace> place) {
        text.append(verdict.printed()).append("  ").append(message);
        place.ifPresent(p -> text.append("  at ").append(p).append("  ").append(p.text()));
        text.append('\n');
    }

    private void counts(List<TrialRecord> trials) throws XMLStreamException {
        long failures = count(trials, Verdict.FAIL);
        long errors = count(trials, Verdict.ERROR);
        long passes = count(trials, Verdict.PASS);
        attribute("tests", Integer.toString(trials.size()));
        attribute("failures", Long.toString(failures));
        attribute("errors", Long.toString(errors));
        attribute("skipped", Long.toString(trials.size() - failures - errors - passes));
    }

    private static long count(List<TrialRecord> trials, Verdict verdict) {
        return trials.stream().filter(trial -> trial.verdict() == verdict).count();
    }

    private static double seconds(TrialRecord.Attempt attempt) {
        return attempt.finishedAt()
                .map(end -> Duration.between(attempt.startedAt(), end).toNanos() * 1e-9)
                .orElse(0.0);
    }

    private static String seconds(Instant from, Instant to) {
        return seconds(Duration.between(from, to).toNanos() * 1e-9);
    }

    private static String seconds(double seconds) {
        return String.format(Locale.ROOT, "%.3f", Math.max(0, seconds));
    }

    private void attribute(String name, String value) throws XMLStreamException {
        xml.writeAttribute(name, clean(value));
    }

    /** Spells out characters that XML 1.0, 2.2 does not allow, as Java would write them in a string. */
    static String clean(String text) {
        StringBuilder out = new StringBuilder();
        text.codePoints().forEach(c -> {
            boolean allowed =
                    c == 0x9 || c == 0xA || (c >= 0x20 && c <= 0xD7FF) || (c >= 0xE000 && c <= 0xFFFD) || c >= 0x10000;
            // A carriage return is allowed but would not survive the line-end rule of XML 1.0, 2.11.
            if (allowed) {
                out.appendCodePoint(c);
            } else {
                out.append("\\u%04x".formatted(c));
            }
        });
        return out.toString();
    }
}
