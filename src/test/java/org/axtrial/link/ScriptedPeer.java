package org.axtrial.link;

import java.io.DataInputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.util.Arrays;
import java.util.List;
import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.Semaphore;

/** A Modbus TCP peer that does to each request what the test says, and answers soundly once the script has run out. */
final class ScriptedPeer implements AutoCloseable {

    /** What happens on one request. */
    interface Act {
        void on(byte[] request, Socket socket) throws IOException, InterruptedException;
    }

    private final ServerSocket server;
    private final Queue<Act> acts = new ConcurrentLinkedQueue<>();
    private final List<byte[]> frames = new CopyOnWriteArrayList<>();
    private final List<Socket> sockets = new CopyOnWriteArrayList<>();
    private final Semaphore ended = new Semaphore(0);

    ScriptedPeer(Act... script) throws IOException {
        acts.addAll(List.of(script));
        server = new ServerSocket(0, 50, InetAddress.getLoopbackAddress());
        start("peer accepts", this::accept);
    }

    /** The sound answer: a register holds its own address. */
    static byte[] answer(byte[] request) {
        int function = request[7];
        if (function == 6 || function == 16) {
            byte[] echo = Arrays.copyOf(request, 12);
            echo[5] = 6;
            return echo;
        }
        int address = (request[8] & 0xFF) << 8 | (request[9] & 0xFF);
        int count = request[11] & 0xFF;
        byte[] reply = Arrays.copyOf(request, 9 + 2 * count);
        reply[4] = 0;
        reply[5] = (byte) (3 + 2 * count);
        reply[8] = (byte) (2 * count);
        for (int i = 0; i < count; i++) {
            reply[9 + 2 * i] = (byte) ((address + i) >> 8);
            reply[10 + 2 * i] = (byte) (address + i);
        }
        return reply;
    }

    static Act reply() {
        return (request, socket) -> socket.getOutputStream().write(answer(request));
    }

    static Act exception(int code) {
        return (request, socket) -> socket.getOutputStream().write(new byte[] {
            request[0], request[1], 0, 0, 0, 3, request[6], (byte) (request[7] | 0x80), (byte) code
        });
    }

    int port() {
        return server.getLocalPort();
    }

    /** Every complete request frame that came, in order. */
    List<byte[]> frames() {
        return frames;
    }

    int connections() {
        return sockets.size();
    }

    /** Waits until the client has ended so many connections since the last call. */
    void awaitEnded(int connections) throws InterruptedException {
        ended.acquire(connections);
    }

    @Override
    public void close() throws IOException {
        server.close();
        for (Socket socket : sockets) {
            socket.close();
        }
    }

    private void accept() {
        try {
            while (true) {
                Socket socket = server.accept();
                sockets.add(socket);
                start("peer serves", () -> serve(socket));
            }
        } catch (IOException closed) {
            // The test is over.
        }
    }

    private void serve(Socket socket) {
        try {
            DataInputStream in = new DataInputStream(socket.getInputStream());
            while (true) {
                byte[] head = in.readNBytes(6);
                if (head.length < 6) {
                    break;
                }
                byte[] body = in.readNBytes((head[4] & 0xFF) << 8 | (head[5] & 0xFF));
                byte[] frame = Arrays.copyOf(head, 6 + body.length);
                System.arraycopy(body, 0, frame, 6, body.length);
                frames.add(frame);
                Act act = acts.poll();
                (act == null ? reply() : act).on(frame, socket);
            }
        } catch (IOException gone) {
            // Ended by the client or by the script.
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        ended.release();
    }

    private static void start(String name, Runnable work) {
        Thread thread = new Thread(work, name);
        thread.setDaemon(true);
        thread.start();
    }

    static void send(Socket socket, byte[] bytes) throws IOException {
        OutputStream out = socket.getOutputStream();
        out.write(bytes);
        out.flush();
    }
}
