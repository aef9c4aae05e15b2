package org.axtrial.sim;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.axtrial.plant.CoupledLoads;
import org.axtrial.plant.LoadCoupling;
import org.axtrial.plant.LoadSide;

/**
 * Simulated drives whose loads are coupled. Time passes for all of them together, in whole intervals as wide as the widest
 * step among them: whichever is advanced takes the others to the same time, so that it does not matter who asks first.
 * {@link CoupledLoads} tells how the forces are exchanged.
 *
 * <p>A drive whose server has been closed goes on as long as another of the group is advanced.
 *
 * <p>Safe for several threads: the drives are held one after the other in the order in which they were named, and nobody who
 * holds one waits for another.
 */
public final class CoupledDrives {

    private final List<SimulatedDrive> drives;
    private final long intervalNanos;
    private final int[] stepsInInterval;
    private final CoupledLoads loads;
    private final List<String> names;
    private long intervals;

    /**
     * One of the two axes that a coupling joins.
     *
     * @param drive its drive
     * @param sense 1 if the coupled coordinate grows with the counts of the drive, −1 if against them
     */
    public record Side(SimulatedDrive drive, int sense) {

        public Side {
            if (sense != 1 && sense != -1) {
                throw new IllegalArgumentException("a sense is 1 or -1, got " + sense);
            }
        }

        private LoadSide load() {
            return new LoadSide(drive.plant(), sense * drive.travelPerRadian());
        }
    }

    /**
     * A coupling with what it joins.
     *
     * @param coupling what joins them
     * @param first the first axis of the coupling
     * @param second the second axis of the coupling, another one
     */
    public record Joint(LoadCoupling coupling, Side first, Side second) {

        private CoupledLoads.Joint loads() {
            return new CoupledLoads.Joint(coupling, first.load(), second.load());
        }
    }

    private CoupledDrives(List<SimulatedDrive> drives, List<Joint> joints) {
        this.drives = drives;
        this.names = drives.stream().map(SimulatedDrive::name).toList();
        this.intervalNanos =
                drives.stream().mapToLong(SimulatedDrive::stepNanos).max().orElseThrow();
        this.stepsInInterval = drives.stream()
                .mapToInt(drive -> (int) (intervalNanos / drive.stepNanos()))
                .toArray();
        this.loads = new CoupledLoads(joints.stream().map(Joint::loads).toList(), intervalNanos * 1e-9);
    }

    /**
     * Couples drives that have not run yet.
     *
     * @param joints at least one
     * @throws IllegalArgumentException if a beam is too stiff or damped too strongly to be simulated
     * @throws IllegalStateException if one of the drives is coupled already or has run
     */
    public static CoupledDrives join(List<Joint> joints) {
        Set<SimulatedDrive> drives = new LinkedHashSet<>();
        for (Joint joint : joints) {
            drives.add(joint.first().drive());
            drives.add(joint.second().drive());
        }
        if (drives.isEmpty()) {
            throw new IllegalArgumentException("there is nothing to couple");
        }
        CoupledDrives coupled = new CoupledDrives(List.copyOf(drives), joints);
        drives.forEach(drive -> drive.coupleWith(coupled));
        return coupled;
    }

    /** Names of the drives, in the order of the couplings. */
    public List<String> names() {
        return names;
    }

    /** Takes every drive to a time in ns since they were made; a time already passed changes nothing. */
    void advanceTo(long toNanos) {
        holdFrom(0, () -> run(toNanos));
    }

    /** Acts while nobody else can touch any of the drives from that place on. */
    private void holdFrom(int place, Runnable action) {
        if (place == drives.size()) {
            action.run();
        } else {
            drives.get(place).whileHeld(() -> holdFrom(place + 1, action));
        }
    }

    private void run(long toNanos) {
        for (int i = 0; i < stepsInInterval.length; i++) {
            drives.get(i).pass(toNanos);
        }
        long wanted = toNanos / intervalNanos;
        while (intervals < wanted) {
            for (int i = 0; i < stepsInInterval.length; i++) {
                drives.get(i).strikeDue();
            }
            long restful = restful(wanted);
            if (restful > 0) {
                rest(restful);
            } else {
                step();
            }
        }
    }

    /** So many intervals in which nothing happens. */
    private long restful(long wanted) {
        if (!loads.settled()) {
            return 0;
        }
        // The hand-over itself takes a step.
        long most = Math.min(wanted - intervals, loads.untilChange() - 1);
        for (int i = 0; i < stepsInInterval.length; i++) {
            SimulatedDrive drive = drives.get(i);
            if (!drive.restful()) {
                return 0;
            }
            most = Math.min(most, drive.nextFault(intervalNanos) - intervals);
        }
        return most;
    }

    private void rest(long count) {
        for (int i = 0; i < stepsInInterval.length; i++) {
            drives.get(i).rest(count * stepsInInterval[i]);
        }
        loads.rest(count);
        intervals += count;
    }

    private void step() {
        loads.push();
        for (int i = 0; i < stepsInInterval.length; i++) {
            drives.get(i).step(stepsInInterval[i]);
        }
        intervals++;
        if (loads.passed()) {
            for (int i = 0; i < stepsInInterval.length; i++) {
                drives.get(i).look();
            }
        }
    }

    /** Skew of a beam in m or rad, in the order of the beams. */
    public double skew(int beam) {
        double[] value = new double[1];
        holdFrom(0, () -> value[0] = loads.skew(beam));
        return value[0];
    }

    /** Force of a beam on its second load in N or N·m, in the order of the beams. */
    public double force(int beam) {
        double[] value = new double[1];
        holdFrom(0, () -> value[0] = loads.force(beam));
        return value[0];
    }

    /** How many loads have changed hands. */
    public int handedOver() {
        int[] value = new int[1];
        holdFrom(0, () -> value[0] = loads.handedOver());
        return value[0];
    }

    /** Energy in the beams in J. */
    double elastic() {
        return loads.elastic();
    }

    /** Heat from the dampers of the beams in J. */
    double dissipated() {
        return loads.dissipated();
    }
}
