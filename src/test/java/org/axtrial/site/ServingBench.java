package org.axtrial.site;

import java.lang.management.ManagementFactory;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import org.axtrial.drive.Drive;
import org.axtrial.drive.MotionLimits;
import org.axtrial.link.SharedConnection;
import org.axtrial.link.Transport;
import org.axtrial.sim.StepLag;
import org.axtrial.time.SystemTime;
import org.axtrial.time.TimeSource;

/**
 * Serves the drives of the demonstration many times over in real time, lets all of them move to and fro, reads all of them
 * in turn as fast as one master can, and prints how far behind the clock their steps were. Not a test: speed depends on
 * the machine.
 *
 * <p>Arguments: number of drives (default 64), seconds (default 20), {@code idle} to let them rest.
 */
final class ServingBench {

    private static final Path SITE = Path.of("test-scripts/demo/site.yaml");
    private static final Duration DEADLINE = Duration.ofSeconds(2);
    private static final TimeSource TIME = SystemTime.INSTANCE;
    private static final double WARM_UP = 5;
    /** In r/min of the motor, which both demonstration drives are told. */
    private static final double SPEED = 300;

    private static final MotionLimits LIMITS = new MotionLimits(SPEED, 3000, OptionalDouble.empty());

    private ServingBench() {}

    /** Runs the bench. */
    public static void main(String[] arguments) throws Exception {
        int drives = arguments.length > 0 ? Integer.parseInt(arguments[0]) : 64;
        double seconds = arguments.length > 1 ? Double.parseDouble(arguments[1]) : 20;
        boolean idle = arguments.length > 2 && arguments[2].equals("idle");
        Site site = SiteFile.load(SITE);
        int copies = (drives + site.axes().size() - 1) / site.axes().size();
        try (SimulatedSite served = SimulatedSite.start(site, new ServingPlan(copies, true), "127.0.0.1", 0)) {
            List<ServedAxis> axes = served.axes();
            List<Mover> movers = new ArrayList<>();
            SharedConnection connection = SharedConnection.to(
                    new Transport.Tcp("127.0.0.1", axes.get(0).port()), TIME);
            for (ServedAxis axis : axes) {
                movers.add(new Mover(connection, site, axis));
            }
            if (!idle) {
                for (Mover mover : movers) {
                    mover.enable();
                }
            }
            run(movers, WARM_UP, idle);
            long began = TIME.nanos();
            long busy = processorNanos();
            long asked = requests(axes);
            long overruns = overruns(axes);
            long moving = run(movers, seconds, idle);
            double taken = (TIME.nanos() - began) * 1e-9;
            print(axes, (processorNanos() - busy) * 1e-9 / taken, (requests(axes) - asked) / taken, moving);
            System.out.printf(
                    Locale.ROOT, "  overruns after the warm-up of %.0f s: %d%n", WARM_UP, overruns(axes) - overruns);
            connection.close();
        }
    }

    /** Lets all move and reads them; the smallest number that moved at once, seen once a second. */
    private static long run(List<Mover> movers, double seconds, boolean idle) throws Exception {
        long end = TIME.nanos() + (long) (seconds * 1e9);
        long next = TIME.nanos();
        int turn = 0;
        long least = movers.size();
        while (TIME.nanos() < end) {
            if (TIME.nanos() >= next) {
                if (turn > 0) {
                    least = Math.min(
                            least,
                            movers.stream()
                                    .filter(mover -> mover.axis.state().endsWith("moving"))
                                    .count());
                }
                next += 1_000_000_000L;
                turn++;
                if (!idle) {
                    for (Mover mover : movers) {
                        mover.turn(turn % 2 == 0 ? 1 : -1);
                    }
                }
            }
            for (Mover mover : movers) {
                mover.look();
            }
        }
        return least;
    }

    private static void print(List<ServedAxis> axes, double share, double rate, long moving) {
        List<StepLag> lags = axes.stream().map(ServedAxis::lag).toList();
        System.out.printf(
                Locale.ROOT,
                "%d drives, at least %d moving, %d processors%n",
                axes.size(),
                moving,
                Runtime.getRuntime().availableProcessors());
        System.out.printf(
                Locale.ROOT,
                "  behind the clock when stepped: p50 %.1f ms, p99 %.1f ms (worst drive), worst %.1f ms%n",
                lags.stream().mapToLong(lag -> lag.median().toNanos()).max().orElse(0) / 1e6,
                lags.stream().mapToLong(lag -> lag.p99().toNanos()).max().orElse(0) / 1e6,
                lags.stream().mapToLong(lag -> lag.worst().toNanos()).max().orElse(0) / 1e6);
        System.out.printf(
                Locale.ROOT,
                "  steps %d, of them overruns (over %d ms) %d, warm-up included%n",
                lags.stream().mapToLong(StepLag::steps).sum(),
                StepLag.BOUND.toMillis(),
                lags.stream().mapToLong(StepLag::overruns).sum());
        System.out.printf(
                Locale.ROOT, "  %.0f requests/s, %.2f processors busy, the reading master included%n", rate, share);
    }

    private static long requests(List<ServedAxis> axes) {
        return axes.stream().mapToLong(ServedAxis::requests).sum();
    }

    private static long overruns(List<ServedAxis> axes) {
        return axes.stream().mapToLong(axis -> axis.lag().overruns()).sum();
    }

    private static long processorNanos() {
        return ((com.sun.management.OperatingSystemMXBean) ManagementFactory.getOperatingSystemMXBean())
                .getProcessCpuTime();
    }

    /** One axis that is moved to and fro through its drive layer, over the connection that all share. */
    private static final class Mover {
        private final ServedAxis axis;
        private final Drive drive;

        Mover(SharedConnection connection, Site site, ServedAxis axis) throws Exception {
            this.axis = axis;
            SiteAxis plan = site.axes().stream()
                    .filter(each -> axis.name().startsWith(each.name() + "-"))
                    .findFirst()
                    .orElseThrow();
            this.drive = Drive.over(connection.open(axis.unit(), DEADLINE), plan.drive(), TIME);
        }

        void enable() throws Exception {
            drive.enable(DEADLINE);
        }

        void turn(int direction) throws Exception {
            drive.startSpeed(direction * SPEED, LIMITS);
        }

        void look() throws Exception {
            drive.sample();
        }
    }
}
