package org.axtrial.script;

import java.util.List;
import java.util.Optional;
import org.axtrial.axis.AxisException;
import org.axtrial.axis.AxisNotReadyException;
import org.axtrial.axis.AxisStoppedException;
import org.axtrial.axis.AxisUnreachableException;
import org.axtrial.axis.DriveTrippedException;
import org.axtrial.axis.EnvelopeRefusedException;
import org.axtrial.axis.EnvelopeTrippedException;
import org.axtrial.axis.NotStoppedException;
import org.axtrial.axis.OutcomeUnprovenException;
import org.axtrial.axis.WrongDriveAnsweredException;
import org.axtrial.evidence.EvidenceLostException;
import org.axtrial.evidence.ScriptPlace;
import org.axtrial.measure.Verdict;
import org.graalvm.polyglot.Value;
import org.graalvm.polyglot.proxy.ProxyExecutable;
import org.jspecify.annotations.Nullable;

/**
 * Stands between a script and every word it uses: knows the place of the call, latches what goes wrong, and lets no word
 * do anything once the trial is broken. Belongs to one context.
 */
final class WordHost {

    /** What a word does. */
    @FunctionalInterface
    interface Word {
        @Nullable
        Object apply(List<Value> arguments, Optional<ScriptPlace> place) throws InterruptedException;
    }

    private final Places places;
    private final TrialLatch latch;
    private boolean ended;

    WordHost(Places places, TrialLatch latch) {
        this.places = places;
        this.latch = latch;
    }

    Places places() {
        return places;
    }

    /** The trial function is over: what still calls a word after it was forgotten by the script. */
    void end() {
        ended = true;
    }

    /** A word as the script calls it. */
    ProxyExecutable word(Word word) {
        return arguments -> call(List.of(arguments), word);
    }

    /** Refuses a member that does not exist; never returns normally. */
    RuntimeException refuse(String message) {
        call(List.of(), (arguments, place) -> {
            throw new ScriptMistake(message);
        });
        throw new IllegalStateException("a refusal returned: " + message);
    }

    private @Nullable Object call(List<Value> arguments, Word word) {
        Optional<ScriptPlace> place = places.here();
        halted();
        if (ended) {
            throw tripped(
                    Verdict.ERROR,
                    "a word was used after the trial function had ended, by an async function that it did not wait for;"
                            + " await it, or leave out async: no word needs it",
                    place);
        }
        try {
            @Nullable Object result = word.apply(arguments, place);
            halted();
            return result;
        } catch (TrialHalted e) {
            throw e;
        } catch (EvidenceLostException e) {
            latch.evidenceLost(e);
            throw tripped(Verdict.ERROR, String.valueOf(e.getMessage()), place);
        } catch (InterruptedException e) {
            // The interrupt has reached its aim: the word is over. The flag stays down, so that the stop can do its
            // work.
            throw tripped(Verdict.INCONCLUSIVE, "the trial was interrupted", place);
        } catch (AxisException e) {
            throw tripped(verdictOf(e), String.valueOf(e.getMessage()), place);
        } catch (NothingProvenException e) {
            throw tripped(Verdict.INCONCLUSIVE, String.valueOf(e.getMessage()), place);
        } catch (MissingReadingException | MissingAnswerException e) {
            throw tripped(Verdict.BLOCKED, String.valueOf(e.getMessage()), place);
        } catch (ScriptMistake | IllegalArgumentException e) {
            throw tripped(Verdict.ERROR, String.valueOf(e.getMessage()), place);
        } catch (RuntimeException e) {
            throw tripped(Verdict.ERROR, "the program failed at this word: " + e, place);
        }
    }

    private void halted() {
        latch.cause().ifPresent(cause -> {
            latch.placeIfUnknown(places.here());
            throw new TrialHalted(cause.message());
        });
    }

    private TrialHalted tripped(Verdict verdict, String message, Optional<ScriptPlace> place) {
        latch.trip(verdict, message, place);
        latch.placeIfUnknown(place);
        return new TrialHalted(message);
    }

    /** What the end of a motion makes of its trial. */
    static Verdict verdictOf(AxisException e) {
        if (e instanceof EnvelopeTrippedException
                || e instanceof DriveTrippedException
                || e instanceof NotStoppedException) {
            return Verdict.FAIL;
        }
        if (e instanceof OutcomeUnprovenException
                || e instanceof AxisStoppedException
                || e instanceof WrongDriveAnsweredException) {
            return Verdict.INCONCLUSIVE;
        }
        if (e instanceof AxisNotReadyException) {
            return Verdict.BLOCKED;
        }
        if (e instanceof EnvelopeRefusedException || e instanceof AxisUnreachableException) {
            return Verdict.ERROR;
        }
        throw new IllegalStateException("no verdict for " + e.getClass().getName(), e);
    }
}
