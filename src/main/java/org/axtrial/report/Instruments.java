package org.axtrial.report;

import java.util.List;
import org.axtrial.evidence.RunInfo.InstrumentInfo;
import org.axtrial.evidence.RunRecord;
import org.axtrial.measure.Instrument;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;

/** What the report tells of the instruments: a table, and a note for each whose calibration did not count. */
final class Instruments {

    private static final double MILLION = 1e6;
    private static final int DIGITS = 6;

    private Instruments() {}

    static List<View.InstrumentLine> lines(RunRecord record) {
        return record.setup().instruments().stream().map(Instruments::line).toList();
    }

    static List<String> notes(RunRecord record) {
        return record.setup().instruments().stream()
                .filter(info -> info.calibration() != Instrument.Calibration.VALID)
                .map(Instruments::note)
                .toList();
    }

    private static String note(InstrumentInfo info) {
        Instrument instrument = info.instrument();
        String which = "Instrument " + instrument.id() + " (" + instrument.type() + ", serial " + instrument.serial()
                + ", certificate " + instrument.certificate() + ")";
        return (info.calibration() == Instrument.Calibration.OVERDUE
                        ? which + " was overdue for calibration: due on " + instrument.due()
                        : which + " was not yet calibrated on the day of the test: calibrated on "
                                + instrument.calibrated())
                + ". No value read on it can pass.";
    }

    private static View.InstrumentLine line(InstrumentInfo info) {
        Instrument instrument = info.instrument();
        Unit unit = instrument.unit();
        return new View.InstrumentLine(
                instrument.id(),
                instrument.type(),
                instrument.serial(),
                instrument.certificate(),
                instrument.calibrated().toString(),
                instrument.due().toString(),
                printed(instrument.resolution(), unit),
                "± " + printed(instrument.uncertainty(), unit)
                        + (instrument.coverageFactor() == 1
                                ? ", standard"
                                : ", k = " + printed(instrument.coverageFactor(), Unit.ONE)),
                instrument.temperatureCoefficient().isPresent()
                        ? printed(instrument.temperatureCoefficient().getAsDouble() * MILLION, Unit.ONE)
                                + " µm/(m·°C), to 20 °C"
                        : "none",
                info.calibration().printed(),
                info.calibration() == Instrument.Calibration.VALID);
    }

    private static String printed(double value, Unit unit) {
        return new Quantity(value, unit).printed(DIGITS);
    }
}
