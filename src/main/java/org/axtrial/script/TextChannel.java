package org.axtrial.script;

import java.nio.ByteBuffer;
import java.nio.channels.ClosedChannelException;
import java.nio.channels.NonWritableChannelException;
import java.nio.channels.SeekableByteChannel;

/** A read-only channel over bytes in memory. */
final class TextChannel implements SeekableByteChannel {

    private final byte[] bytes;
    private int position;
    private boolean open = true;

    TextChannel(byte[] bytes) {
        this.bytes = bytes;
    }

    @Override
    public int read(ByteBuffer target) throws ClosedChannelException {
        requireOpen();
        if (position >= bytes.length) {
            return -1;
        }
        int count = Math.min(target.remaining(), bytes.length - position);
        target.put(bytes, position, count);
        position += count;
        return count;
    }

    @Override
    public int write(ByteBuffer source) {
        throw new NonWritableChannelException();
    }

    @Override
    public long position() {
        return position;
    }

    @Override
    public SeekableByteChannel position(long to) {
        if (to < 0) {
            throw new IllegalArgumentException("negative position: " + to);
        }
        position = (int) Math.min(to, bytes.length);
        return this;
    }

    @Override
    public long size() {
        return bytes.length;
    }

    @Override
    public SeekableByteChannel truncate(long to) {
        throw new NonWritableChannelException();
    }

    @Override
    public boolean isOpen() {
        return open;
    }

    @Override
    public void close() {
        open = false;
    }

    private void requireOpen() throws ClosedChannelException {
        if (!open) {
            throw new ClosedChannelException();
        }
    }
}
