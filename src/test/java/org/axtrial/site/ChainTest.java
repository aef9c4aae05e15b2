package org.axtrial.site;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ChainTest {

    @TempDir
    Path folder;

    private SiteBench behind(String axis, String before) {
        return new SiteBench(folder).site("name: " + axis, "name: " + axis + "\n    behind: " + before);
    }

    @Test
    void saysWhoIsWiredBehindWhom() throws Exception {
        assertThat(behind("SLIDE", "TABLE").load().behind()).isEqualTo(Map.of("SLIDE", "TABLE"));
        assertThat(new SiteBench(folder).load().behind()).isEmpty();
    }

    @Test
    void namesOnlyAxesOfTheFile() {
        assertThat(behind("SLIDE", "TABEL").problems())
                .containsExactly(
                        "site.yaml:13:13: axes[1].behind: there is no axis \"TABEL\"; did you mean \"TABLE\"?");
    }

    @Test
    void doesNotComeBackToItself() {
        assertThat(behind("SLIDE", "SLIDE").problems())
                .singleElement()
                .asString()
                .contains("the chain comes back to SLIDE");
        assertThat(behind("SLIDE", "TABLE")
                        .site("name: TABLE", "name: TABLE\n    behind: SLIDE")
                        .problems())
                .singleElement()
                .asString()
                .contains("the chain comes back to SLIDE");
    }
}
