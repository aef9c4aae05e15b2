package org.axtrial.script;

import java.util.Optional;
import org.axtrial.axis.LinkTimes;
import org.axtrial.measure.Measurement;
import org.axtrial.measure.ReplyTimes;
import org.axtrial.quantity.Conversion;

/** Reply times of a drive as a script holds them. */
final class LinkTimesObject extends WordObject {

    private final LinkTimes times;
    private final Conversion conversion;

    LinkTimesObject(WordHost host, LinkTimes times, Conversion conversion) {
        super(host, "the result of linkTimes");
        this.times = times;
        this.conversion = conversion;
        quantile("median", 0.5);
        quantile("p99", 0.99);
        quantile("longest", 1);
        word("errors", (values, place) -> {
            new Arguments("errors", "errors()", values).count(0, 0);
            return measurement(ReplyTimes.errors(times.errors(), times.seconds().size() + times.errors()));
        });
    }

    private void quantile(String name, double share) {
        word(name, (values, place) -> {
            new Arguments(name, name + "()", values).count(0, 0);
            return measurement(ReplyTimes.quantile(times.seconds(), share));
        });
    }

    private MeasurementObject measurement(Measurement measurement) {
        return new MeasurementObject(host(), measurement, Optional.empty(), conversion);
    }

    @Override
    String printed() {
        return "the times of " + times.seconds().size() + " looks";
    }
}
