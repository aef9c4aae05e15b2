package org.axtrial.script;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.axtrial.measure.Instrument;

/**
 * What trials can read beside their drive.
 *
 * @param instruments the instruments of the site, with ids of their own
 * @param day the day of the test, on which calibrations must count
 * @param readings where values come from
 */
public record ReadingSetup(List<Instrument> instruments, LocalDate day, Readings readings) {

    /** No instruments. */
    static final ReadingSetup NONE = new ReadingSetup(List.of(), LocalDate.EPOCH, Readings.NONE);

    public ReadingSetup {
        instruments = List.copyOf(instruments);
    }

    List<String> ids() {
        return instruments.stream().map(Instrument::id).toList();
    }

    Optional<Instrument> find(String id) {
        return instruments.stream()
                .filter(instrument -> instrument.id().equals(id))
                .findFirst();
    }
}
