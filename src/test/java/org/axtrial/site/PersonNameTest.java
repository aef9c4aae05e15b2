package org.axtrial.site;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Common practice, no source: who releases or witnesses is named so that this person can be asked later. */
class PersonNameTest {

    @ParameterizedTest
    @ValueSource(
            strings = {
                "A. Example",
                "Anna Maria de la Example",
                "Example, A.",
                "  A.   Example ",
                "Ö. Übung",
                "Sample, Example Ltd",
                "O'Example-Sample B",
                "Не Пример",
                "No Example",
                "Ann Y",
                "Y. Good",
                "例示",
                "مثال",
                "ตัวอย่าง"
            })
    void namesAreTaken(String name) {
        assertThat(PersonName.isFull(name)).isTrue();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                " ",
                "y",
                "Y",
                "yes",
                "YES!",
                "ok",
                "O.K.",
                "yes yes",
                "ok, go ahead",
                "no",
                "none",
                "nobody",
                "done",
                "x",
                "Example",
                "A. B.",
                "1 2",
                "+",
                "...",
                "4711",
                "例",
                "yes A. Example",
                "OK: A. Example",
                "all clear",
                "y n"
            })
    void wordsThatNameNobodyAreNot(String word) {
        assertThat(PersonName.isFull(word)).isFalse();
    }
}
