package org.axtrial;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class SmokeTest {
    @Test
    void one() {
        assertThat(Runtime.version().feature()).isGreaterThanOrEqualTo(17);
    }
}
