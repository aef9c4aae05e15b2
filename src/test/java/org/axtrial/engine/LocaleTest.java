package org.axtrial.engine;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.UnaryOperator;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.TrialRecord;
import org.axtrial.measure.Verdict;
import org.axtrial.site.AnswersFile;
import org.axtrial.site.GivenAnswer;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The same readings give the same results wherever the computer stands and however people there write a number. */
@Timeout(120)
class LocaleTest {

    private static final Path ANSWERS = Path.of("test-scripts/acceptance/rehearsal-answers.yaml");
    private static final String[] SCRIPTS = {"reference/sense-and-scale.js", "positioning/accuracy.js"};

    private final Locale before = Locale.getDefault();

    @TempDir
    Path folder;

    @BeforeEach
    void british() {
        Locale.setDefault(Locale.UK);
    }

    @AfterEach
    void asBefore() {
        Locale.setDefault(before);
    }

    private List<TrialRecord> trials(String name, Path answers) throws Exception {
        RunRecord record = LibraryRun.rehearse(folder.resolve(name), UnaryOperator.identity(), answers, SCRIPTS);
        assertThat(record.trials())
                .isNotEmpty()
                .allSatisfy(
                        trial -> assertThat(trial.verdict()).as(trial.reason()).isEqualTo(Verdict.PASS));
        return record.trials();
    }

    /** Decimal comma, Turkish dotless i, Arabic figures, Thai calendar. */
    @ParameterizedTest
    @ValueSource(strings = {"en-US", "de-DE", "tr-TR", "ar-EG-u-nu-arab", "th-TH-u-ca-buddhist-nu-thai"})
    void aComputerOfAnyCountryComesToTheSameRecord(String tag) throws Exception {
        List<TrialRecord> here = trials("here", ANSWERS);
        Locale.setDefault(Locale.forLanguageTag(tag));

        assertThat(trials("there", ANSWERS)).isEqualTo(here);
    }

    @Test
    void readingsWithADecimalCommaComeToTheSameRecord() throws Exception {
        List<GivenAnswer> given =
                AnswersFile.load(ANSWERS, answer -> Optional.empty()).readings();
        StringBuilder table = new StringBuilder("trial;axis;name;value;unit\n");
        for (GivenAnswer answer : given) {
            String value = String.valueOf(answer.value().value());
            table.append(String.join(
                            ";",
                            answer.trial(),
                            answer.axis(),
                            "\"" + answer.name() + "\"",
                            value.replace('.', ','),
                            answer.value().unit().symbol()))
                    .append('\n');
        }
        Path commas = folder.resolve("commas.csv");
        Files.writeString(commas, table);

        assertThat(table).containsPattern("\\d,\\d").doesNotContainPattern("\\d\\.\\d");
        assertThat(trials("commas", commas)).isEqualTo(trials("points", ANSWERS));
    }
}
