package org.axtrial.engine;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.concurrent.CountDownLatch;
import org.axtrial.engine.InStep.Place;
import org.junit.jupiter.api.RepeatedTest;
import org.junit.jupiter.api.RepetitionInfo;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

@Timeout(60)
class InStepTest {

    private static final List<String> AXES = List.of("A", "B", "C");

    private static Place place(int rank, String... axes) {
        return new Place(rank, axes[0], Set.of(axes));
    }

    /** Axes run side by side through random scripts; no axis is ever in two trials, nothing waits for ever. */
    @RepeatedTest(50)
    void noAxisIsWorkedByTwoTrialsAndAllComeToAnEnd(RepetitionInfo repetition) throws Exception {
        Random random = new Random(repetition.getCurrentRepetition());
        List<Place> all = new ArrayList<>();
        for (int rank = 0; rank < 12; rank++) {
            for (String main : AXES) {
                if (random.nextInt(3) > 0) {
                    List<String> axes = new ArrayList<>(List.of(main));
                    AXES.stream()
                            .filter(other -> !other.equals(main) && random.nextInt(3) == 0)
                            .forEach(axes::add);
                    all.add(new Place(rank, main, Set.copyOf(axes)));
                }
            }
        }
        InStep inStep = new InStep(all);
        Set<String> busy = Collections.synchronizedSet(new HashSet<>());
        List<String> clashes = Collections.synchronizedList(new ArrayList<>());
        List<Place> done = Collections.synchronizedList(new ArrayList<>());
        List<Thread> threads = AXES.stream()
                .map(axis -> new Thread(() -> {
                    for (Place place : all) {
                        if (!place.main().equals(axis)) {
                            continue;
                        }
                        try {
                            inStep.await(place, () -> false);
                        } catch (InterruptedException e) {
                            clashes.add("interrupted");
                        }
                        place.axes().forEach(one -> {
                            if (!busy.add(one)) {
                                clashes.add(one + " in " + place);
                            }
                        });
                        busy.removeAll(place.axes());
                        done.add(place);
                        inStep.over(place);
                    }
                }))
                .toList();
        threads.forEach(Thread::start);
        for (Thread thread : threads) {
            thread.join();
        }

        assertThat(clashes).isEmpty();
        assertThat(done).containsExactlyInAnyOrderElementsOf(all);
        // Each axis sees its trials in one order, however quick the others are.
        for (String axis : AXES) {
            assertThat(done.stream()
                            .filter(place ->
                                    place.axes().size() > 1 && place.axes().contains(axis))
                            .toList())
                    .isEqualTo(all.stream()
                            .filter(place ->
                                    place.axes().size() > 1 && place.axes().contains(axis))
                            .sorted((x, y) -> x.rank() == y.rank()
                                    ? x.main().compareTo(y.main())
                                    : Integer.compare(x.rank(), y.rank()))
                            .toList());
        }
    }

    @Test
    void whoeverWaitsIsLetGoWhenTheRunIsStopped() throws Exception {
        Place before = place(0, "B");
        Place joint = place(1, "A", "B");
        InStep inStep = new InStep(List.of(before, joint));
        CountDownLatch asked = new CountDownLatch(1);
        boolean[] stopped = {false};
        Thread waiting = new Thread(() -> {
            try {
                inStep.await(joint, () -> {
                    asked.countDown();
                    return stopped[0];
                });
            } catch (InterruptedException e) {
                throw new AssertionError(e);
            }
        });
        waiting.start();
        asked.await();
        stopped[0] = true;
        waiting.join();

        assertThat(waiting.isAlive()).isFalse();
    }

    @Test
    void trialsOfOneAxisWaitForNobody() throws Exception {
        InStep inStep = new InStep(List.of(place(0, "A"), place(0, "B"), place(1, "A")));

        inStep.await(place(1, "A"), () -> false);
    }
}
