package org.axtrial.signing;

import java.util.Optional;

/**
 * One signature of a pack, as far as it can be read.
 *
 * @param number its place in the order of signing, from 1
 * @param role as what the person signed
 * @param name printed name
 * @param meaning in the person's words
 * @param signedAt date and time with the offset from UTC, as the signer says
 * @param verdict what the run came to when it was signed
 * @param ended whether the run had been stopped
 * @param ledger what had been added after the run when it was signed, and stands under it; empty if nothing had
 * @param certificate of the key
 * @param trust what can be said of the certificate
 * @param timestamp somebody else's word on the time; empty if there is none that holds
 * @param inPdf whether the signed copy of the PDF report has it too
 * @param holds whether the signature holds for this pack as it is now
 */
public record Signature(
        int number,
        Role role,
        String name,
        String meaning,
        String signedAt,
        String verdict,
        String ended,
        Optional<SignedLedger> ledger,
        CertificateFacts certificate,
        Trust.Verdict trust,
        Optional<Timestamp> timestamp,
        boolean inPdf,
        boolean holds) {}
