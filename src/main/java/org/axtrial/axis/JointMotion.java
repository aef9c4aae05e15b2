package org.axtrial.axis;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicReference;
import org.axtrial.quantity.Quantity;
import org.axtrial.time.AtOnce;
import org.jspecify.annotations.Nullable;

/**
 * Several axes at once. Everything is checked on all of them before anything is sent to any; each is worked by a thread of
 * its own, as alone, and what stops one stops all.
 */
public final class JointMotion {

    private JointMotion() {}

    /**
     * What one axis is to do.
     *
     * @param quantity distance or target; empty for an axis that stands and is watched
     * @param absolute whether the quantity is a target
     */
    public record Part(Axis axis, Optional<Quantity> quantity, boolean absolute, MoveOptions options) {

        /** An axis that stands and is watched while others move. */
        public static Part watched(Axis axis) {
            return new Part(axis, Optional.empty(), false, MoveOptions.DEFAULT);
        }

        void check() throws InterruptedException {
            if (quantity.isPresent() && absolute) {
                axis.checkMoveTo(quantity.get(), options);
            } else if (quantity.isPresent()) {
                axis.checkMoveBy(quantity.get(), options);
            }
        }

        Optional<Motion> make() throws InterruptedException {
            if (quantity.isEmpty()) {
                axis.watch();
                return Optional.empty();
            }
            return Optional.of(absolute ? axis.moveTo(quantity.get(), options) : axis.moveBy(quantity.get(), options));
        }
    }

    /**
     * Moves several axes at once and returns when all have settled. None starts unless all may.
     *
     * @return the motions in the order of the parts; empty for an axis that was only watched
     * @throws AxisException for the first thing that was wrong with any; all have been stopped
     */
    public static List<Optional<Motion>> move(List<Part> parts) throws InterruptedException {
        for (Part part : parts) {
            part.check();
        }
        List<AtomicReference<Optional<Motion>>> motions = new ArrayList<>();
        List<Work> works = new ArrayList<>();
        for (Part part : parts) {
            AtomicReference<Optional<Motion>> motion = new AtomicReference<>(Optional.empty());
            motions.add(motion);
            works.add(new Work(part.axis(), () -> motion.set(part.make())));
        }
        inCompany(works);
        return motions.stream().map(AtomicReference::get).toList();
    }

    /** Enables several axes and keeps watching those that are ready until all are. */
    public static void enable(List<Axis> axes) throws InterruptedException {
        inCompany(axes.stream().map(axis -> new Work(axis, axis::enable)).toList());
    }

    /** Watches several axes for a while; nothing is ordered. */
    public static void watch(List<Axis> axes, Duration time) throws InterruptedException {
        inCompany(axes.stream()
                .map(axis -> new Work(axis, () -> {
                    Motion unused = axis.dwell(time);
                }))
                .toList());
    }

    private record Work(Axis axis, AtOnce.Work work) {

        void run() throws InterruptedException {
            try {
                work.run();
            } catch (Error e) {
                // Nothing below is made for this, and nobody else may wait for an axis that is not worked any more.
                StopReport unused = axis.safeStop("an unexpected error: " + e);
                throw e;
            }
        }
    }

    private static void inCompany(List<Work> works) throws InterruptedException {
        Company company = new Company(works.size());
        works.forEach(work -> work.axis().join(company));
        try {
            List<Optional<Throwable>> ends = AtOnce.run(works.stream()
                    .map(work -> new AtOnce.Task(
                            "axis " + work.axis().setup().name(), work.axis().time(), work::run))
                    .toList());
            if (company.trouble().isPresent()) {
                throw company.trouble().get();
            }
            for (Optional<Throwable> end : ends) {
                end.ifPresent(JointMotion::fail);
            }
        } finally {
            works.forEach(work -> work.axis().join(Company.ALONE));
        }
    }

    private static void fail(@Nullable Throwable end) {
        if (end instanceof RuntimeException e) {
            throw e;
        }
        if (end instanceof Error e) {
            throw e;
        }
        throw new IllegalStateException("an axis ended its part by " + end, end);
    }
}
