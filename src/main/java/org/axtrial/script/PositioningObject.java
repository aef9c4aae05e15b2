package org.axtrial.script;

import java.util.Optional;
import java.util.function.Supplier;
import org.axtrial.measure.Measurement;
import org.axtrial.measure.Positioning;
import org.axtrial.quantity.Conversion;

/** The results of a positioning test as a script holds them. */
final class PositioningObject extends WordObject {

    private final Positioning positioning;
    private final Conversion conversion;
    private final Optional<String> reservation;

    /** @param reservation why some of its readings decide nothing; empty if all count */
    PositioningObject(WordHost host, Positioning positioning, Conversion conversion, Optional<String> reservation) {
        super(host, "the positioning test");
        this.positioning = positioning;
        this.conversion = conversion;
        this.reservation = reservation;
        value("accuracy", positioning::accuracy);
        value("accuracyUp", positioning::accuracyUp);
        value("accuracyDown", positioning::accuracyDown);
        value("systematicError", positioning::systematicError);
        value("systematicErrorUp", positioning::systematicErrorUp);
        value("systematicErrorDown", positioning::systematicErrorDown);
        value("meanError", positioning::meanError);
        value("repeatability", positioning::repeatability);
        value("repeatabilityUp", positioning::repeatabilityUp);
        value("repeatabilityDown", positioning::repeatabilityDown);
        value("reversalError", positioning::reversalError);
        value("meanReversalError", positioning::meanReversalError);
    }

    private void value(String name, Supplier<Measurement> measure) {
        word(name, (values, place) -> {
            new Arguments(name, name + "()", values).count(0, 0);
            return new MeasurementObject(
                    host(), measure.get().withReservation(reservation), Optional.empty(), conversion);
        });
    }

    @Override
    String printed() {
        return "a positioning test of " + positioning.points().size() + " targets";
    }

    @Override
    String asNumber() {
        return "take one of its results, for example .accuracy()";
    }
}
