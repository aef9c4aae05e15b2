package org.axtrial.drive;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowable;

import java.io.IOException;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.CountDownLatch;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

@Timeout(30)
class StopGuardTest {

    private final StopGuard guard = new StopGuard();
    private final List<String> sent = new CopyOnWriteArrayList<>();

    @Test
    void aTicketHoldsUntilAStopAndANewOneAfterIt() throws Exception {
        long ticket = guard.ticket();
        assertThat(guard.unlessStopped(ticket, () -> sent.add("first"))).isPresent();
        guard.stop(() -> sent.add("stop"));
        assertThat(guard.isVoid(ticket)).isTrue();
        assertThat(guard.unlessStopped(ticket, () -> sent.add("second"))).isEmpty();
        assertThat(guard.unlessStopped(guard.ticket(), () -> sent.add("next"))).isPresent();
        assertThat(sent).containsExactly("first", "stop", "next");
    }

    @Test
    void aStopFromAnotherThreadWaitsForOneWriteAndVoidsTheRest() throws Exception {
        CountDownLatch writing = new CountDownLatch(1);
        long ticket = guard.ticket();
        CompletableFuture<Boolean> stop = CompletableFuture.supplyAsync(() -> {
            try {
                writing.await();
                return guard.stop(() -> sent.add("stop"));
            } catch (InterruptedException | DriveException e) {
                throw new IllegalStateException(e);
            }
        });
        guard.unlessStopped(ticket, () -> {
            writing.countDown();
            // The stop has been ordered, but may not go out in the middle of this write.
            while (!guard.isVoid(ticket)) {
                Thread.onSpinWait();
            }
            return sent.add("first");
        });
        assertThat(stop.get()).isTrue();
        assertThat(guard.unlessStopped(ticket, () -> sent.add("second"))).isEmpty();
        assertThat(sent).containsExactly("first", "stop");
    }

    @Test
    void aStopThatFailsStillVoidsTheSequence() {
        long ticket = guard.ticket();
        assertThat(catchThrowable(() -> guard.stop(() -> {
                    throw new DriveUnreachableException("cut", new IOException("cut"));
                })))
                .isInstanceOf(DriveUnreachableException.class);
        assertThat(guard.isVoid(ticket)).isTrue();
    }
}
