package org.axtrial.report;

import java.time.Instant;
import java.util.List;
import org.axtrial.acceptance.LedgerEntry.ReportReissued;

/**
 * A further issue of a report.
 *
 * @param at when it is issued
 * @param issue which revision, why, by whom, and what it takes the place of; its own files are not known yet
 * @param signers who had signed the pack before, each proven
 */
public record Reissued(Instant at, ReportReissued issue, List<Signer> signers) {

    /**
     * Somebody who has signed the pack electronically, in the elements of 21 CFR 11.50.
     *
     * @param number of the signature, 1 for the first
     * @param name printed name
     * @param role as what
     * @param at date and time with the offset from UTC, as the signer says
     * @param meaning in the signer's words
     * @param signedFor what the signature stands for, in words
     */
    public record Signer(int number, String name, String role, String at, String meaning, String signedFor) {}

    public Reissued {
        signers = List.copyOf(signers);
    }
}
