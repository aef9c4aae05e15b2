package org.axtrial.sim;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The homing methods as data. Source: overview tables of homing types in public manuals of drives with CiA 402. */
class HomingMethodTest {

    // Destination, side of it on which the index mark is taken, limit switch at which the search turns round.
    @ParameterizedTest
    @CsvSource({
        "1, NEGATIVE_LIMIT, right, right, none",
        "2, POSITIVE_LIMIT, left, left, none",
        "3, HOME, left, left, none",
        "4, HOME, left, right, none",
        "5, HOME, right, right, none",
        "6, HOME, right, left, none",
        "7, HOME, left, left, right",
        "8, HOME, left, right, right",
        "9, HOME, right, left, right",
        "10, HOME, right, right, right",
        "11, HOME, right, right, left",
        "12, HOME, right, left, left",
        "13, HOME, left, right, left",
        "14, HOME, left, left, left"
    })
    void withIndexMark(int number, SwitchInput input, String edge, String side, String turn) {
        HomingMethod method = HomingMethod.of(number);
        assertThat(method.input()).contains(input);
        assertThat(method.edge()).isEqualTo(direction(edge));
        assertThat(method.last()).as("moving to that side").isEqualTo(direction(side));
        assertThat(method.turns()).isEqualTo(!turn.equals("none"));
        if (method.turns()) {
            assertThat(method.search()).isEqualTo(direction(turn));
        }
        assertThat(method.index()).isTrue();
    }

    private static int direction(String side) {
        return side.equals("right") ? 1 : -1;
    }

    // The end of the switch and whether it is passed off the switch (falling) or on to it (rising).
    @ParameterizedTest
    @CsvSource({
        "17, right, falling", "18, left, falling", "19, left, falling", "20, left, rising", "21, right, falling",
        "22, right, rising", "23, left, falling", "24, left, rising", "25, right, rising", "26, right, falling",
        "27, right, falling", "28, right, rising", "29, left, rising", "30, left, falling"
    })
    void withoutIndexMark(int number, String edge, String slope) {
        HomingMethod method = HomingMethod.of(number);
        assertThat(method.edge()).isEqualTo(direction(edge));
        assertThat(method.leaves()).isEqualTo(slope.equals("falling"));
        assertThat(method.index()).isFalse();
    }

    @Test
    void reservedNumbersAreNone() {
        List<Integer> known = IntStream.rangeClosed(-128, 127)
                .filter(HomingMethod::isKnown)
                .boxed()
                .toList();
        assertThat(known)
                .containsExactly(
                        1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 17, 18, 19, 20, 21, 22, 23, 24, 25, 26, 27, 28,
                        29, 30, 33, 34, 35, 37);
        assertThatThrownBy(() -> HomingMethod.of(15)).hasMessageContaining("15");
    }
}
