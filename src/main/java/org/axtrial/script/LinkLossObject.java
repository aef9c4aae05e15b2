package org.axtrial.script;

import java.util.Optional;
import org.axtrial.axis.AxisChannels;
import org.axtrial.axis.LinkLoss;
import org.axtrial.measure.Measurement;
import org.axtrial.measure.Outage;
import org.axtrial.quantity.Unit;
import org.axtrial.trace.Channel;
import org.axtrial.trace.Trace;

/** A move without a link as a script holds it. */
final class LinkLossObject extends WordObject {

    private final LinkLoss loss;
    private final String traceName;

    LinkLossObject(WordHost host, LinkLoss loss, String traceName, double period) {
        super(host, "the result of moveWithoutLink");
        this.loss = loss;
        this.traceName = traceName;
        word("time", (values, place) -> {
            new Arguments("time", "time()", values).count(0, 0);
            return measurement(Outage.time(loss.lostSeconds(), loss.foundSeconds(), loss.stood()));
        });
        word("distance", (values, place) -> {
            new Arguments("distance", "distance()", values).count(0, 0);
            Trace trace = loss.motion().trace();
            Channel position = trace.channel(AxisChannels.POSITION);
            return measurement(Outage.distance(
                    loss.lastPosition(),
                    loss.restPosition(),
                    loss.lastSpeed(),
                    period,
                    position.quantum(),
                    position.unit()));
        });
        word("enabled", (values, place) -> {
            new Arguments("enabled", "enabled()", values).count(0, 0);
            return measurement(Measurement.stored("torque on when seen again", loss.enabled() ? 1 : 0, Unit.ONE));
        });
    }

    private MeasurementObject measurement(Measurement measurement) {
        return new MeasurementObject(
                host(), measurement, Optional.of(traceName), loss.motion().scale());
    }

    @Override
    String printed() {
        return "a move without a link, after which the drive showed " + loss.state();
    }
}
