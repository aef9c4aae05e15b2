package org.axtrial.survey;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.IntStream;
import org.axtrial.evidence.LinkRecord;
import org.junit.jupiter.api.Test;

class TogetherTest {

    /** Axes 1 to 7 in one chain, the first next to the switch. */
    private static final Map<String, String> CHAIN = chain();

    private static Map<String, String> chain() {
        Map<String, String> behind = new LinkedHashMap<>();
        IntStream.rangeClosed(2, 7).forEach(i -> behind.put("A" + i, "A" + (i - 1)));
        return behind;
    }

    private static LinkCheck.Result axis(String name, boolean lost, Optional<Long> serial) {
        return new LinkCheck.Result(LinkRecord.of(name, "peer of " + name, List.of(), List.of()), lost, serial);
    }

    private static Map<String, String> lost(Integer... axes) {
        Set<Integer> gone = Set.of(axes);
        return Together.lostTogether(
                IntStream.rangeClosed(1, 7)
                        .mapToObj(i -> axis("A" + i, gone.contains(i), Optional.empty()))
                        .toList(),
                CHAIN);
    }

    @Test
    void theEndOfAChainPointsAtTheLastThatAnswers() {
        assertThat(lost(4, 5, 6, 7))
                .containsExactly(
                        Map.entry("A4", "Axes A4 to A7 vanished together: look at axis A3 and the cable behind it"));
    }

    @Test
    void theWholeChainPointsAtItsBeginning() {
        assertThat(lost(1, 2, 3, 4, 5, 6, 7))
                .containsExactly(Map.entry(
                        "A1", "Axes A1 to A7 vanished together: look at the cable that leads to A1, and at A1 itself"));
    }

    @Test
    void oneInTheMiddleIsNotTheCable() {
        assertThat(lost(3).get("A3")).startsWith("Only A3 is lost, and A4 behind it answers: the cable is good");
    }

    @Test
    void twoGroupsAreToldEach() {
        assertThat(lost(2, 6, 7)).containsOnlyKeys("A2", "A6");
    }

    @Test
    void anAxisOutsideOfAChainIsNotExplained() {
        assertThat(Together.lostTogether(List.of(axis("B", true, Optional.empty())), CHAIN))
                .isEmpty();
    }

    @Test
    void oneSerialNumberAtTwoAddressesIsOneDrive() {
        List<LinkRecord> links = Together.of(
                List.of(
                        axis("A1", false, Optional.of(4711L)),
                        axis("A2", false, Optional.of(4712L)),
                        axis("A3", false, Optional.of(4711L))),
                Map.of());
        assertThat(links)
                .extracting(LinkRecord::outcome)
                .containsExactly(LinkRecord.Grade.WRONG, LinkRecord.Grade.PROVEN, LinkRecord.Grade.WRONG);
        assertThat(links.get(0).findings().get(0).text())
                .contains("A1 (peer of A1) and A3 (peer of A3) tell the same serial number 4711");
    }
}
