package org.axtrial.sim;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Map;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Every command in every state. Source: CiA 402 (IEC 61800-7-201), controlword commands and transitions 2 … 16 as
 * reproduced by public object dictionaries.
 */
class Cia402TransitionsTest {

    private static final Map<String, Integer> COMMANDS = Map.of(
            "shutdown", 0x06,
            "switch on", 0x07,
            "enable operation", 0x0F,
            "disable voltage", 0x00,
            "quick stop", 0x02,
            "fault reset", 0x80);

    private final Bench bench = new Bench(InventedDrives.wholeCia402(), InventedDrives.axis());

    private String state() {
        return bench.cia402State();
    }

    private void control(int... words) {
        for (int word : words) {
            bench.write("control", word);
            bench.pass(10);
        }
    }

    private void reach(String state) {
        if (state.equals("not ready")) {
            return;
        }
        bench.pass(20);
        bench.write("quickStopOption", 6);
        bench.write("mode", 3);
        switch (state) {
            case "disabled" -> {}
            case "ready" -> control(0x06);
            case "switched on" -> control(0x06, 0x07);
            case "enabled" -> control(0x06, 0x0F);
            case "quick stop" -> control(0x06, 0x0F, 0x02);
            case "reaction" -> {
                control(0x06, 0x0F);
                bench.write("targetSpeed", 3000);
                bench.pass(2000);
                bench.drive.trip(0x4310);
            }
            case "fault" -> bench.drive.trip(0x4310);
            default -> throw new IllegalArgumentException(state);
        }
        assertThat(state()).isEqualTo(state);
    }

    @ParameterizedTest(name = "{1} in {0}: {2}")
    @CsvSource({
        "not ready, shutdown, not ready",
        "not ready, switch on, not ready",
        "not ready, enable operation, not ready",
        "not ready, disable voltage, not ready",
        "not ready, quick stop, not ready",
        "not ready, fault reset, not ready",
        "disabled, shutdown, ready", // 2
        "disabled, switch on, disabled",
        "disabled, enable operation, disabled",
        "disabled, disable voltage, disabled",
        "disabled, quick stop, disabled",
        "disabled, fault reset, disabled",
        "ready, shutdown, ready",
        "ready, switch on, switched on", // 3
        "ready, enable operation, enabled", // 3 and 4
        "ready, disable voltage, disabled", // 7
        "ready, quick stop, disabled", // 7
        "ready, fault reset, ready",
        "switched on, shutdown, ready", // 6
        "switched on, switch on, switched on",
        "switched on, enable operation, enabled", // 4
        "switched on, disable voltage, disabled", // 10
        "switched on, quick stop, disabled", // 10
        "switched on, fault reset, switched on",
        "enabled, shutdown, ready", // 8
        "enabled, switch on, switched on", // 5
        "enabled, enable operation, enabled",
        "enabled, disable voltage, disabled", // 9
        "enabled, quick stop, quick stop", // 11
        "enabled, fault reset, enabled",
        "quick stop, shutdown, quick stop",
        "quick stop, switch on, quick stop",
        "quick stop, enable operation, enabled", // 16
        "quick stop, disable voltage, disabled", // 12
        "quick stop, quick stop, quick stop",
        "quick stop, fault reset, quick stop",
        "reaction, shutdown, reaction",
        "reaction, switch on, reaction",
        "reaction, enable operation, reaction",
        "reaction, disable voltage, reaction",
        "reaction, quick stop, reaction",
        "reaction, fault reset, reaction",
        "fault, shutdown, fault",
        "fault, switch on, fault",
        "fault, enable operation, fault",
        "fault, disable voltage, fault",
        "fault, quick stop, fault",
        "fault, fault reset, disabled" // 15
    })
    void commandsLeadWhereTheStandardSays(String from, String command, String to) {
        reach(from);
        bench.write("control", Objects.requireNonNull(COMMANDS.get(command)));
        if (!from.equals("not ready")) {
            bench.pass(10);
        }
        assertThat(state()).isEqualTo(to);
    }

    @Test
    void theReactionEndsInFaultByItselfAndNotReadyInDisabled() {
        bench.pass(10);
        assertThat(state()).as("transition 1").isEqualTo("disabled");
        reach("reaction");
        bench.pass(2000);
        assertThat(state()).as("transition 14").isEqualTo("fault");
    }
}
