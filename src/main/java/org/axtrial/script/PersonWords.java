package org.axtrial.script;

import java.util.List;
import java.util.Optional;
import org.axtrial.evidence.PersonPart.Kind;
import org.axtrial.evidence.ScriptPlace;
import org.graalvm.polyglot.Value;
import org.jspecify.annotations.Nullable;

/** The words of a trial that need a person: hold point, witness point, and work by hand. */
final class PersonWords {

    private final TrialObject trial;
    private final PersonSteps steps;

    PersonWords(TrialObject trial, PersonSteps steps) {
        this.trial = trial;
        this.steps = steps;
    }

    void offer() {
        trial.word("hold", (values, place) -> point("hold", "t.hold(\"Guards are closed\")", Kind.HOLD, values, place));
        trial.word(
                "witness",
                (values, place) ->
                        point("witness", "t.witness(\"Stop from full speed\")", Kind.WITNESS, values, place));
        trial.word("operate", this::operate);
    }

    private @Nullable Object point(
            String word, String usage, Kind kind, List<Value> values, Optional<ScriptPlace> place)
            throws InterruptedException {
        String text = new Arguments(word, usage, values).count(1, 1).text(0, "text");
        steps.ask(kind, text, PersonSteps.Rehearsal.NONE, place);
        return null;
    }

    private @Nullable Object operate(List<Value> values, Optional<ScriptPlace> place) throws InterruptedException {
        String usage =
                "t.operate(\"Press the limit switch\", { rehearse: { kind: \"switch pressed\", input: \"home\" } })";
        Arguments arguments = new Arguments("operate", usage, values).count(1, 2);
        String text = arguments.text(0, "text");
        steps.ask(Kind.OPERATE, text, rehearsal(arguments, arguments.options(1, "rehearse")), place);
        return null;
    }

    /** What the option {@code rehearse} holds: one fault or a list of them. */
    static PersonSteps.Rehearsal rehearsal(Arguments arguments, Options options) {
        return options.get("rehearse")
                .map(value -> new PersonSteps.Rehearsal(arguments.plainObjects(value, "option rehearse")))
                .orElse(PersonSteps.Rehearsal.NONE);
    }
}
