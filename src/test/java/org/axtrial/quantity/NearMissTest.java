package org.axtrial.quantity;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;

class NearMissTest {

    // Source: worked by hand from the definition of the optimal string alignment distance
    @Test
    void distanceCountsInsertionsDeletionsSubstitutionsAndSwaps() {
        assertThat(NearMiss.distance("speed", "speed")).isZero();
        assertThat(NearMiss.distance("sped", "speed")).isEqualTo(1);
        assertThat(NearMiss.distance("spede", "speed")).isEqualTo(1);
        assertThat(NearMiss.distance("kitten", "sitting")).isEqualTo(3);
        assertThat(NearMiss.distance("", "lead")).isEqualTo(4);
    }

    @Test
    void hintNamesTheClosestWordAndIgnoresCase() {
        assertThat(NearMiss.hint("Sped", List.of("travel", "speed", "time"))).isEqualTo("; did you mean \"speed\"?");
    }

    @Test
    void hintOrAllAlwaysHelps() {
        List<String> known = List.of("travel", "speed", "time");
        assertThat(NearMiss.hintOrAll("Sped", known)).isEqualTo("did you mean \"speed\"?");
        assertThat(NearMiss.hintOrAll("colour", known)).isEqualTo("known: travel, speed, time");
    }

    @Test
    void farWordGivesNoHint() {
        assertThat(NearMiss.hint("colour", List.of("travel", "speed", "time"))).isEmpty();
    }
}
