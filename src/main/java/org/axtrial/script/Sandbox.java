package org.axtrial.script;

import java.io.InputStream;
import java.io.OutputStream;
import org.graalvm.polyglot.Context;
import org.graalvm.polyglot.Engine;
import org.graalvm.polyglot.ResourceLimits;
import org.graalvm.polyglot.SandboxPolicy;
import org.graalvm.polyglot.io.IOAccess;

/**
 * Makes the contexts that scripts run in. They share one engine, which keeps parsed code; nothing else passes from one
 * context to the next.
 */
final class Sandbox {

    /** A loop of this many statements takes minutes in the interpreter and does nothing that a trial needs. */
    static final long STATEMENT_LIMIT = 200_000_000;

    private Sandbox() {}

    /** Made on first use, because starting the language takes most of a second. */
    private static final class Shared {

        static final Engine ENGINE = start();

        private static Engine start() {
            // Both only silence warnings that the interpreter is used, which is enough here. The property has to be
            // set before the first engine of the JVM.
            System.setProperty("polyglotimpl.AttachLibraryFailureAction", "ignore");
            return Engine.newBuilder("js")
                    .sandbox(SandboxPolicy.CONSTRAINED)
                    .option("engine.WarnInterpreterOnly", "false")
                    .in(InputStream.nullInputStream())
                    .out(OutputStream.nullOutputStream())
                    .err(OutputStream.nullOutputStream())
                    .build();
        }
    }

    /** A fresh context without host classes, threads, network, environment or files other than the given modules. */
    static Context open(ModuleFiles files, long statementLimit) {
        return Context.newBuilder("js")
                .engine(Shared.ENGINE)
                .sandbox(SandboxPolicy.CONSTRAINED)
                .allowIO(IOAccess.newBuilder().fileSystem(files).build())
                .resourceLimits(ResourceLimits.newBuilder()
                        .statementLimit(statementLimit, source -> true)
                        .build())
                .option("js.unhandled-rejections", "throw")
                // What a script prints would be lost; without these words it is told so instead.
                .option("js.console", "false")
                .option("js.print", "false")
                .option("js.load", "false")
                .option("js.graal-builtin", "false")
                .option("js.webassembly", "false")
                .build();
    }
}
