package org.axtrial.evidence;

/** Takes the events of a run, from several threads. */
public interface EvidenceSink {

    /**
     * Keeps an event. When this returns, the event is safe on disk.
     *
     * @throws EvidenceLostException if it cannot be kept; the run must stop, because what is not recorded proves nothing
     */
    void accept(RunEvent event);
}
