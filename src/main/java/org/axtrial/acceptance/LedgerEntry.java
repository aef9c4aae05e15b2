package org.axtrial.acceptance;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.axtrial.evidence.PunchClass;
import org.axtrial.evidence.RunRecord.PackedFile;

/** What somebody did after the run, one record for each {@code type} of line. */
public sealed interface LedgerEntry {

    /** The forms by their names. */
    Map<String, Class<? extends LedgerEntry>> TYPES = Stream.of(
                    PunchOpened.class, PunchClosed.class, DeviationAgreed.class, ReportReissued.class)
            .collect(Collectors.toUnmodifiableMap(Class::getSimpleName, Function.identity()));

    /** Who says so; never blank. */
    String by();

    /**
     * Something is still to be done.
     *
     * @param number of the item, counted on from those that scripts raised, 1 for the first
     * @param text what is to be done
     * @param grade how much it weighs
     * @param owner who has to do it; empty string if nobody was named
     * @param due by when
     * @param trial id of the trial that it came from; empty if none
     * @param axis the axis that it belongs to; empty if none
     */
    record PunchOpened(
            int number,
            String text,
            PunchClass grade,
            String owner,
            Optional<LocalDate> due,
            Optional<String> trial,
            Optional<String> axis,
            String by)
            implements LedgerEntry {

        public PunchOpened {
            requireText("what is to be done", text);
            requireText("who raises the item", by);
        }
    }

    /**
     * An item is done.
     *
     * @param number of the item
     * @param evidence what shows it, for example a run id, a drawing, a photograph
     */
    record PunchClosed(int number, String evidence, String by) implements LedgerEntry {

        public PunchClosed {
            requireText("the evidence that closes an item", evidence);
            requireText("who closes the item", by);
        }
    }

    /**
     * The customer takes a result that is not PASS as it is.
     *
     * @param script file name under the scripts folder
     * @param trial id
     * @param axis name
     * @param reason why it is taken
     * @param by who agreed for the customer
     */
    record DeviationAgreed(String script, String trial, String axis, String reason, String by) implements LedgerEntry {

        public DeviationAgreed {
            requireText("the reason of a deviation", reason);
            requireText("who agreed to the deviation", by);
        }
    }

    /**
     * The report was issued again with what had come after the run.
     *
     * @param revision 2 for the first re-issue
     * @param reason why
     * @param files what was issued, with hashes
     * @param replaces what it takes the place of
     */
    record ReportReissued(int revision, String reason, List<PackedFile> files, List<PackedFile> replaces, String by)
            implements LedgerEntry {

        public ReportReissued {
            files = List.copyOf(files);
            replaces = List.copyOf(replaces);
            requireText("the reason of a re-issue", reason);
            requireText("who issues the report", by);
        }
    }

    private static void requireText(String what, String text) {
        if (text.isBlank()) {
            throw new IllegalArgumentException(what + " must not be empty");
        }
    }
}
