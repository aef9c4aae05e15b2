package org.axtrial.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowable;

import java.net.ServerSocket;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CountDownLatch;
import org.axtrial.time.SystemTime;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

@Timeout(60)
class SharedConnectionTest {

    private static final Duration PATIENT = Duration.ofSeconds(20);
    private static final Duration SHORT = Duration.ofMillis(200);

    private static SharedConnection to(ScriptedPeer peer) {
        return SharedConnection.to(new Transport.Tcp("127.0.0.1", peer.port()), SystemTime.INSTANCE);
    }

    @Test
    void unitsShareOneConnectionAndKeepTheirIds() throws Exception {
        try (ScriptedPeer peer = new ScriptedPeer();
                SharedConnection connection = to(peer)) {
            RegisterLink first = connection.open(1, PATIENT);
            RegisterLink second = connection.open(2, PATIENT);
            for (int i = 0; i < 50; i++) {
                assertThat(first.read(3, i, 1).words()).containsExactly(i);
                assertThat(second.read(3, 100 + i, 1).words()).containsExactly(100 + i);
            }
            assertThat(peer.connections()).isEqualTo(1);
            assertThat(peer.frames().stream().map(frame -> frame[6]).distinct()).containsExactly((byte) 1, (byte) 2);
            assertThat(second.peer()).isEqualTo("127.0.0.1:" + peer.port() + " unit 2");
        }
    }

    @Test
    void manyUnitsAtOnceEachGetTheirOwnReply() throws Exception {
        try (ScriptedPeer peer = new ScriptedPeer();
                SharedConnection connection = to(peer)) {
            List<CompletableFuture<Void>> callers = new ArrayList<>();
            for (int unit = 1; unit <= 6; unit++) {
                RegisterLink link = connection.open(unit, PATIENT);
                int base = 1_000 * unit;
                callers.add(CompletableFuture.runAsync(() -> {
                    for (int i = 0; i < 200; i++) {
                        assertThat(read(link, base)).containsExactly(base, base + 1);
                    }
                }));
            }
            for (CompletableFuture<Void> caller : callers) {
                caller.get();
            }
            assertThat(peer.frames()).hasSize(6 * 200);
            assertThat(peer.connections()).isEqualTo(1);
        }
    }

    private static int[] read(RegisterLink link, int address) {
        try {
            return link.read(4, address, 2).words();
        } catch (LinkException e) {
            throw new IllegalStateException(e);
        }
    }

    @Test
    void aFailureWithOneUnitIsToldToTheOthersBeforeAnythingIsSent() throws Exception {
        try (ScriptedPeer peer = new ScriptedPeer((request, socket) -> {});
                SharedConnection connection = to(peer)) {
            RegisterLink failing = connection.open(1, SHORT);
            RegisterLink other = connection.open(2, PATIENT);
            RegisterLink third = connection.open(3, PATIENT);
            assertThatThrownBy(() -> failing.read(3, 1, 1)).isInstanceOf(LinkLostException.class);

            // A write, too, certainly did not leave.
            assertThatThrownBy(() -> other.writeSingle(1, 1))
                    .isInstanceOf(LinkLostException.class)
                    .hasMessageContaining("an exchange with unit 1 failed")
                    .hasMessageContaining("nothing was sent");
            other.reconnect();
            assertThat(other.read(3, 5, 1).words()).containsExactly(5);

            // Each link is told for itself: who watches over a drive has to look at it anew.
            assertThatThrownBy(() -> third.read(3, 6, 1))
                    .isInstanceOf(LinkLostException.class)
                    .hasMessageContaining("nothing was sent");
            third.reconnect();
            assertThat(third.read(3, 6, 1).words()).containsExactly(6);
            failing.reconnect();
            assertThat(failing.read(3, 7, 1).words()).containsExactly(7);

            assertThat(peer.connections()).isEqualTo(2);
            assertThat(peer.frames()).hasSize(4);
        }
    }

    @Test
    void anOpenThatComesAfterAFailureConnectsAnew() throws Exception {
        try (ScriptedPeer peer = new ScriptedPeer((request, socket) -> socket.close());
                SharedConnection connection = to(peer)) {
            RegisterLink failing = connection.open(1, PATIENT);
            assertThatThrownBy(() -> failing.writeSingle(1, 1)).isInstanceOf(OutcomeUnknownException.class);
            assertThat(connection.open(2, PATIENT).read(3, 5, 1).words()).containsExactly(5);
            assertThat(connection.connections()).isEqualTo(2);
        }
    }

    @Test
    void unitsTakeTurnsInTheOrderInWhichTheyCame() throws Exception {
        CountDownLatch asked = new CountDownLatch(1);
        CountDownLatch goOn = new CountDownLatch(1);
        try (ScriptedPeer peer = new ScriptedPeer((request, socket) -> {
                    asked.countDown();
                    goOn.await();
                    ScriptedPeer.send(socket, ScriptedPeer.answer(request));
                });
                SharedConnection connection = to(peer)) {
            List<CompletableFuture<int[]>> callers = new ArrayList<>();
            RegisterLink[] links = new RegisterLink[6];
            for (int unit = 1; unit <= 5; unit++) {
                links[unit] = connection.open(unit, PATIENT);
            }
            for (int unit : new int[] {3, 1, 5, 2, 4}) {
                callers.add(
                        CompletableFuture.supplyAsync(() -> read(links[unit], unit), task -> new Thread(task).start()));
                asked.await();
                while (connection.waiting() < callers.size() - 1) {
                    Thread.onSpinWait();
                }
            }
            goOn.countDown();
            for (CompletableFuture<int[]> caller : callers) {
                caller.get();
            }
            assertThat(peer.frames().stream().map(frame -> (int) frame[6])).containsExactly(3, 1, 5, 2, 4);
        }
    }

    @Test
    void theLastLinkTakesTheConnectionWithIt() throws Exception {
        try (ScriptedPeer peer = new ScriptedPeer()) {
            SharedConnection connection = to(peer);
            RegisterLink first = connection.open(1, PATIENT);
            RegisterLink second = connection.open(2, PATIENT);
            first.close();
            first.close();
            assertThat(second.read(3, 5, 1).words()).containsExactly(5);
            assertThatThrownBy(() -> first.read(3, 5, 1))
                    .isInstanceOf(LinkLostException.class)
                    .hasMessageContaining("closed");
            second.close();
            peer.awaitEnded(1);
            connection.close();
            connection.close();
            assertThat(peer.frames()).hasSize(1);
        }
    }

    @Test
    void closingEndsEveryLinkAndAWaitingExchange() throws Exception {
        CountDownLatch asked = new CountDownLatch(1);
        CountDownLatch never = new CountDownLatch(1);
        try (ScriptedPeer peer = new ScriptedPeer((request, socket) -> {
            asked.countDown();
            never.await();
        })) {
            SharedConnection connection = to(peer);
            RegisterLink first = connection.open(1, PATIENT);
            RegisterLink second = connection.open(2, PATIENT);
            CompletableFuture<Throwable> outcome =
                    CompletableFuture.supplyAsync(() -> catchThrowable(() -> first.writeSingle(1, 1)));
            asked.await();
            connection.close();
            assertThat(outcome.get()).isInstanceOf(OutcomeUnknownException.class);
            assertThatThrownBy(() -> second.read(3, 1, 1)).hasMessageContaining("closed");
            assertThatThrownBy(second::reconnect).hasMessageContaining("the link was closed");
            never.countDown();
        }
    }

    @Test
    void aLinkThatCannotBeOpenedLeavesNothingBehind() throws Exception {
        int port;
        try (ServerSocket gone = new ServerSocket(0)) {
            port = gone.getLocalPort();
        }
        try (SharedConnection connection =
                SharedConnection.to(new Transport.Tcp("127.0.0.1", port), SystemTime.INSTANCE)) {
            for (int unit = 1; unit <= 2; unit++) {
                int which = unit;
                assertThatThrownBy(() -> connection.open(which, PATIENT))
                        .isInstanceOf(LinkLostException.class)
                        .hasMessageContaining("unit " + unit + ": no connection");
            }
            assertThat(connection.connections()).isZero();
        }
    }
}
