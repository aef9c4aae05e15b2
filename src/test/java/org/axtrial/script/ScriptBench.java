package org.axtrial.script;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.axtrial.evidence.EvidenceSink;
import org.axtrial.evidence.RunEvent;

/** A scripts folder, an axis and the events that come of running a script on it. */
final class ScriptBench {

    final Path folder;
    final FakeAxis axis;
    final List<RunEvent> events = Collections.synchronizedList(new ArrayList<>());
    EvidenceSink sink = events::add;
    ReadingSetup readings = ReadingSetup.NONE;

    ScriptBench(Path folder, FakeAxis axis) {
        this.folder = folder;
        this.axis = axis;
    }

    ScriptBench(Path folder) {
        this(folder, FakeAxis.rotary("X"));
    }

    ScriptBench file(String name, String text) {
        try {
            Path file = folder.resolve(name);
            Files.createDirectories(file.getParent());
            Files.writeString(file, text);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return this;
    }

    Discovery discover(String text) {
        file("t.js", text);
        return new ScriptLibrary(folder).discover("t.js");
    }

    /** A trial that stands in line 2 and has its body from line 3 on. */
    static String trial(String body) {
        return trial("", body);
    }

    static String trial(String options, String body) {
        return "import { trial, nominal, atMost, atLeast, between } from \"axtrial\";\n"
                + "trial(\"A trial\", { id: \"T-1\"" + (options.isEmpty() ? "" : ", " + options)
                + " }, (axis, t) => {\n" + body + "\n});\n";
    }

    TrialOutcome run(String text) {
        return prepare(text).run();
    }

    TrialRun prepare(String text) {
        file("t.js", text);
        ScriptLibrary library = new ScriptLibrary(folder);
        Discovery discovery = library.discover("t.js");
        if (!discovery.problems().isEmpty()) {
            throw new AssertionError(discovery.problems().toString());
        }
        axis.listen(new AxisEvents(sink, axis.time()));
        return library.withReadings(readings).prepare(discovery.trials().get(0), axis, 1, sink);
    }

    <T extends RunEvent> List<T> events(Class<T> type) {
        return events.stream().filter(type::isInstance).map(type::cast).toList();
    }

    RunEvent.TrialBroken broken() {
        List<RunEvent.TrialBroken> all = events(RunEvent.TrialBroken.class);
        if (all.size() != 1) {
            throw new AssertionError("expected one TrialBroken, got " + all + " among " + events);
        }
        return all.get(0);
    }
}
