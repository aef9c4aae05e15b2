package org.axtrial.plant;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Plants whose loads are coupled, stepped in lock step. For each interval H whoever steps the plants calls
 * {@link #push}, lets H pass for every plant, and calls {@link #passed}.
 *
 * <p>The force of a beam is that of the middle of the interval, x + H/2·v on either side, and constant in it. With rigid
 * plants that step once in H this is the leapfrog of the whole system (drift H/2, kick, drift H/2), symplectic and of second
 * order; with elastic trains in finer sub-steps it stays so for the beam and treats it as if k·H²/8 were added to the masses.
 * Both loads get the same force from one place, so that momentum is kept to rounding, and dry friction holds a load against the
 * beam as it does against gravity. The damper takes the speed in the middle, extrapolated from the last one. Ω·H of the stiffest
 * oscillation and d·H over the reduced mass are kept within a quarter, where the oscillation is too fast by (Ω·H)²/24, at most
 * 0.26 %. Nothing is allocated in a step.
 */
public final class CoupledLoads {

    private final double interval;
    private final BeamAtWork[] beams;
    private final TransferAtWork[] transfers;
    private final Plant[] plants;
    private long intervals;

    /**
     * A coupling with its two loads.
     *
     * @param coupling what joins them
     * @param first of its two loads
     * @param second of its two loads, of another plant
     */
    public record Joint(LoadCoupling coupling, LoadSide first, LoadSide second) {

        public Joint {
            if (first.plant() == second.plant()) {
                throw new IllegalArgumentException("a coupling joins two axes, not one with itself");
            }
        }
    }

    /**
     * Couples plants that have not moved yet.
     *
     * @param interval H in s, a whole multiple of the step of every plant
     * @throws IllegalArgumentException if a beam is too stiff or damped too strongly for the interval
     */
    public CoupledLoads(List<Joint> joints, double interval) {
        Require.positive("interval of exchange", interval);
        this.interval = interval;
        requireSlow(joints);
        List<BeamAtWork> beamList = new ArrayList<>();
        List<TransferAtWork> transferList = new ArrayList<>();
        Set<Plant> all = new LinkedHashSet<>();
        for (Joint joint : joints) {
            all.add(joint.first().plant());
            all.add(joint.second().plant());
            if (joint.coupling() instanceof GantryBeam beam) {
                beamList.add(new BeamAtWork(beam, joint.first(), joint.second(), interval));
            }
        }
        for (Joint joint : joints) { // after the beams, which know the bare loads
            if (joint.coupling() instanceof LoadTransfer transfer) {
                transferList.add(new TransferAtWork(transfer, joint.first(), joint.second(), interval));
            }
        }
        this.beams = beamList.toArray(BeamAtWork[]::new);
        this.transfers = transferList.toArray(TransferAtWork[]::new);
        this.plants = all.toArray(Plant[]::new);
    }

    /** A load that is handed over makes one axis heavier and so slower; without it both are at their fastest. */
    private void requireSlow(List<Joint> joints) {
        Map<Plant, Double> springs = new HashMap<>();
        Map<Plant, Double> dampers = new HashMap<>();
        for (Joint joint : joints) {
            if (joint.coupling() instanceof GantryBeam beam) {
                for (LoadSide side : List.of(joint.first(), joint.second())) {
                    springs.merge(side.plant(), beam.stiffness() / side.mass(), Double::sum);
                    dampers.merge(side.plant(), beam.damping() / side.mass(), Double::sum);
                }
            }
        }
        for (Joint joint : joints) {
            if (joint.coupling() instanceof GantryBeam) {
                double rate = Math.sqrt(both(springs, joint));
                if (rate * interval > Train.FINENESS) {
                    throw new IllegalArgumentException("with this stiffness the beam swings with "
                            + Math.round(rate / (2 * Math.PI)) + " Hz, and at most "
                            + Math.round(Train.FINENESS / interval / (2 * Math.PI))
                            + " Hz can be simulated; lower the stiffness");
                }
                if (both(dampers, joint) * interval > Train.FINENESS) {
                    throw new IllegalArgumentException(
                            "the damping of the beam is too strong to be simulated; lower it to "
                                    + Math.floor(Train.FINENESS / (both(dampers, joint) * interval) * 100)
                                    + " % of that");
                }
            }
        }
    }

    private static double both(Map<Plant, Double> rates, Joint joint) {
        return rates.getOrDefault(joint.first().plant(), 0.0)
                + rates.getOrDefault(joint.second().plant(), 0.0);
    }

    /** Puts the forces of the coming interval on the loads. */
    public void push() {
        for (BeamAtWork beam : beams) {
            beam.lookAhead();
        }
        for (Plant plant : plants) {
            plant.pushLoad(0);
        }
        for (BeamAtWork beam : beams) {
            beam.push();
        }
    }

    /**
     * Accounts for the interval that has passed, and hands over what is due.
     *
     * @return whether a load changed hands
     */
    public boolean passed() {
        intervals++;
        for (BeamAtWork beam : beams) {
            beam.passed();
        }
        boolean changed = false;
        for (TransferAtWork transfer : transfers) {
            changed |= transfer.passed(intervals);
        }
        return changed;
    }

    /** Whether nothing would change in the coming interval if every plant stayed as it is. */
    public boolean settled() {
        for (BeamAtWork beam : beams) {
            if (!beam.settled()) {
                return false;
            }
        }
        return true;
    }

    /** Lets so many intervals pass at once, which only settled plants and couplings allow. */
    public void rest(long count) {
        intervals += count;
    }

    /** Intervals that have to pass until a load changes hands at a set time; not before that can rest be broken from here. */
    public long untilChange() {
        long next = Long.MAX_VALUE;
        for (TransferAtWork transfer : transfers) {
            next = Math.min(next, transfer.nextChange());
        }
        return next == Long.MAX_VALUE ? next : next - intervals;
    }

    /** Energy in the beams in J. */
    public double elastic() {
        double sum = 0;
        for (BeamAtWork beam : beams) {
            sum += beam.elastic();
        }
        return sum;
    }

    /** What the dampers of the beams have turned into heat in J. What a hand-over loses stands in the energy of its plant. */
    public double dissipated() {
        double sum = 0;
        for (BeamAtWork beam : beams) {
            sum += beam.dissipated();
        }
        return sum;
    }

    /** Skew of a beam in m or rad, in the order of the joints. */
    public double skew(int beam) {
        return beams[beam].skew();
    }

    /** Force of a beam on its second load in the last interval, N or N·m, in the order of the joints. */
    public double force(int beam) {
        return beams[beam].force();
    }

    /** How many loads have changed hands. */
    public int handedOver() {
        int count = 0;
        for (TransferAtWork transfer : transfers) {
            count += transfer.handedOver() ? 1 : 0;
        }
        return count;
    }
}
