package org.axtrial.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.axtrial.acceptance.Ledger;
import org.axtrial.acceptance.Standing;
import org.axtrial.evidence.PackProblem;
import org.axtrial.evidence.RunRecord;
import org.axtrial.signing.Signature;
import org.axtrial.signing.SignedLedger;

/** Which entries of a ledger stand under a signature, and whether they come to what was signed. */
final class SignedEntries {

    private SignedEntries() {}

    /** Each entry that came after the last signature; none if nobody has signed. */
    static List<PackProblem> later(Ledger ledger, List<Signature> signatures) {
        if (signatures.isEmpty()) {
            return List.of();
        }
        int last = signatures.get(signatures.size() - 1).number();
        int signed = signatures.stream()
                .flatMap(signature -> signature.ledger().stream())
                .mapToInt(SignedLedger::entries)
                .max()
                .orElse(0);
        return IntStream.range(signed, ledger.entries().size())
                .mapToObj(i -> new PackProblem(
                        Ledger.NAME,
                        "entry " + (i + 1) + " was added after signature " + last + ": "
                                + words(ledger.entries().get(i))))
                .toList();
    }

    private static String words(Ledger.Dated dated) {
        return dated.entry().getClass().getSimpleName() + " by " + dated.entry().by() + ", " + dated.at();
    }

    /** Each signature that tells of another acceptance than its entries come to. */
    static List<PackProblem> contradictions(RunRecord record, Ledger ledger, List<Signature> signatures) {
        List<PackProblem> found = new ArrayList<>();
        for (Signature signature : signatures) {
            signature
                    .ledger()
                    // Of a ledger that is too short the signature tells itself that it does not hold.
                    .filter(signed -> signed.entries() <= ledger.entries().size())
                    .ifPresent(signed -> {
                        String now = Standing.of(record, ledger.first(signed.entries()))
                                .state()
                                .printed();
                        if (!now.equals(signed.acceptance())) {
                            found.add(new PackProblem(
                                    signed.file(),
                                    "comes to " + now + " with its first " + signed.counted() + "; signature "
                                            + signature.number() + " says " + signed.acceptance()));
                        }
                    });
        }
        return found;
    }
}
