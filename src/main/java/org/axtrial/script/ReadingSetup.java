package org.axtrial.script;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.axtrial.measure.Instrument;

/**
 * What trials have beside their drive: instruments and people.
 *
 * @param instruments the instruments of the site, with ids of their own
 * @param day the day of the test, on which calibrations must count
 * @param readings where values come from
 * @param people who is asked to release, to witness and to operate
 */
public record ReadingSetup(List<Instrument> instruments, LocalDate day, Readings readings, People people) {

    /** No instruments. */
    static final ReadingSetup NONE = new ReadingSetup(List.of(), LocalDate.EPOCH, Readings.NONE);

    /** Instruments, and nobody to ask. */
    public ReadingSetup(List<Instrument> instruments, LocalDate day, Readings readings) {
        this(instruments, day, readings, People.NONE);
    }

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
