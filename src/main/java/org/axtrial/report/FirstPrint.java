package org.axtrial.report;

import java.io.IOException;
import java.time.Instant;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.atomic.AtomicReference;
import org.jspecify.annotations.Nullable;

/**
 * A print that nobody reads, made beside other work: the first one of a program takes most of its time for loading the
 * printer and its fonts. Whoever prints waits for it, so that no two threads load the printer at once.
 */
final class FirstPrint {

    /** Something of all that a report has, so that all of it gets loaded. */
    static final String BODY = """
            <h1>A <em>heading</em></h1><p><strong>Text</strong> with <span class="code">code</span> and <a href="#here">a link</a></p>
            <ul><li>A point</li></ul>
            <table id="here"><thead><tr><th scope="col">Value</th></tr></thead><tbody><tr><td>1</td></tr></tbody></table>
            <svg class="plot" viewBox="0 0 380 180"><title>A drawing</title><desc>A line</desc>
            <line class="axis" x1="0" x2="10" y1="0" y2="10"/><path class="actual" d="M0 0L10 10"/>
            <text class="tick" x="5" y="5">1</text></svg>
            """;

    private static final AtomicReference<@Nullable CompletableFuture<Void>> PRINT = new AtomicReference<>();

    private FirstPrint() {}

    /** Begins the print in a thread of its own, once for the life of the program. */
    static void begin() {
        CompletableFuture<Void> print = new CompletableFuture<>();
        if (PRINT.compareAndSet(null, print)) {
            Thread thread = new Thread(() -> run(print), "axtrial-first-print");
            thread.setDaemon(true);
            thread.start();
        }
    }

    /** Waits for the print if it has begun. */
    static void await() {
        CompletableFuture<Void> print = PRINT.get();
        if (print != null) {
            print.join();
        }
    }

    private static void run(CompletableFuture<Void> print) {
        try {
            make(BODY);
        } catch (IOException | RuntimeException e) {
            // What is amiss is told by the print that somebody waits for.
            return;
        } finally {
            print.complete(null);
        }
    }

    static byte[] make(String body) throws IOException {
        return PdfPrinter.printed(
                body, new PdfPrinter.Sheet("A title", "A subject", Instant.EPOCH, PdfPrinter.Paper.A4, "", "", "", ""));
    }
}
