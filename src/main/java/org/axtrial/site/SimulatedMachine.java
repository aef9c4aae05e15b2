package org.axtrial.site;

import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.axtrial.axis.Simulation;
import org.axtrial.quantity.NearMiss;
import org.axtrial.sim.MachineFault;
import org.axtrial.sim.SimulatedDrive;
import tools.jackson.databind.json.JsonMapper;

/** Lets scripts strike a simulated machine with the faults that a site file knows, read by the same rules. */
final class SimulatedMachine implements Simulation {

    private static final JsonMapper JSON = new JsonMapper();

    private final SiteAxis axis;
    private final SimulatedDrive drive;

    SimulatedMachine(SiteAxis axis, SimulatedDrive drive) {
        this.axis = axis;
        this.drive = drive;
    }

    @Override
    public void strike(Map<String, Object> fault) {
        Problems problems = new Problems();
        YamlDocument entry =
                new YamlDocument(Path.of("strike"), JSON.valueToTree(fault), Map.of(), Map.of(), Set.of(), problems);
        Object kind = fault.get("kind");
        if (!(kind instanceof String word) || !MachineFaultReader.kinds().contains(word)) {
            throw new IllegalArgumentException("there is no fault of the kind \"" + kind + "\"; "
                    + NearMiss.hintOrAll(String.valueOf(kind), MachineFaultReader.kinds()));
        }
        boolean linear = axis.setup().scale().leadIfLinear().isPresent();
        Optional<MachineFault.Onset> onset =
                MachineFaultReader.onset(entry.top(), new QuantityReader(axis.name(), linear));
        if (onset.isEmpty() || !problems.isEmpty()) {
            throw new IllegalArgumentException(problems.sorted().stream()
                    .map(problem -> problem.path() + ": " + problem.message())
                    .collect(Collectors.joining("; ")));
        }
        if (!(onset.get().fault() instanceof MachineFault.Arising arising)) {
            throw new IllegalArgumentException("an axis is made with the fault \"" + word
                    + "\", so it cannot come about in a trial; put it into machineFaults of the site file");
        }
        drive.strikeAfter(onset.get().after(), arising);
    }
}
