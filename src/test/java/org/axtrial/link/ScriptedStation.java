package org.axtrial.link;

import java.io.DataInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.util.List;
import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.CopyOnWriteArrayList;

/** A serial station that does to each request what the test says, and answers soundly once the script has run out. */
final class ScriptedStation {

    /** What happens on one request. */
    interface Act {
        void on(byte[] request, OutputStream out) throws IOException, InterruptedException;
    }

    private final Queue<Act> acts = new ConcurrentLinkedQueue<>();
    private final List<byte[]> requests = new CopyOnWriteArrayList<>();

    ScriptedStation(Act... script) {
        acts.addAll(List.of(script));
    }

    List<byte[]> requests() {
        return requests;
    }

    /** Answers until the stream ends. */
    void serve(InputStream stream, OutputStream out) throws IOException, InterruptedException {
        DataInputStream in = new DataInputStream(stream);
        while (true) {
            byte[] head = in.readNBytes(7);
            if (head.length < 7) {
                return;
            }
            byte[] rest = in.readNBytes(head[1] == 16 ? 2 + (head[6] & 0xFF) : 1);
            byte[] request = new byte[head.length + rest.length];
            System.arraycopy(head, 0, request, 0, head.length);
            System.arraycopy(rest, 0, request, head.length, rest.length);
            requests.add(request);
            Act act = acts.poll();
            if (act == null) {
                out.write(answer(request));
            } else {
                act.on(request, out);
            }
            out.flush();
        }
    }

    /** The sound answer: a register holds its own address. */
    static byte[] answer(byte[] request) {
        if (request[1] == 6 || request[1] == 16) {
            return sealed(java.util.Arrays.copyOf(request, 6));
        }
        int address = (request[2] & 0xFF) << 8 | (request[3] & 0xFF);
        int count = request[5] & 0xFF;
        byte[] reply = new byte[3 + 2 * count];
        reply[0] = request[0];
        reply[1] = request[1];
        reply[2] = (byte) (2 * count);
        for (int i = 0; i < count; i++) {
            reply[3 + 2 * i] = (byte) ((address + i) >> 8);
            reply[4 + 2 * i] = (byte) (address + i);
        }
        return sealed(reply);
    }

    /** With its check sum. */
    static byte[] sealed(byte[] message) {
        byte[] frame = java.util.Arrays.copyOf(message, message.length + 2);
        int crc = RtuFrame.crc(message, message.length);
        frame[message.length] = (byte) crc;
        frame[message.length + 1] = (byte) (crc >> 8);
        return frame;
    }
}
