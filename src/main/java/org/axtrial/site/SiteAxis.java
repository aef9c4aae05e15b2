package org.axtrial.site;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.axtrial.axis.AxisSetup;
import org.axtrial.registers.DriveDescription;
import org.axtrial.sim.SimulationSpec;
import org.axtrial.sim.WireFault;

/**
 * One axis of a site.
 *
 * @param setup scale, envelope, speeds and times
 * @param description what it moves; empty string if the file does not say
 * @param endpoint where its drive answers
 * @param driveFile the drive description as read
 * @param drive its content
 * @param simulation how to simulate it; empty if the file does not say, then it can only be tested for real
 * @param faults what goes wrong on the wire of the simulated drive, in the order of the file
 */
public record SiteAxis(
        AxisSetup setup,
        String description,
        Endpoint endpoint,
        Path driveFile,
        DriveDescription drive,
        Optional<SimulationSpec> simulation,
        List<WireFault> faults) {

    public SiteAxis {
        faults = List.copyOf(faults);
    }

    public String name() {
        return setup.name();
    }

    /** Name of the drive type, from its description. */
    public String driveType() {
        return drive.type();
    }

    /** Scale, limits and sampling for a report: names with printed values, in order. */
    public Map<String, String> facts() {
        return AxisFacts.of(setup);
    }
}
