package org.axtrial.cli;

import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.axtrial.site.ServingPlan;
import org.axtrial.site.SimulatedSite;
import org.axtrial.site.Site;
import org.axtrial.site.SiteFile;
import org.axtrial.time.SystemTime;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Serves the simulated drives of a site until it is stopped, and lets somebody at its terminal put faults on them. */
@Command(
        name = "simulate",
        mixinStandardHelpOptions = true,
        description = {
            "Serves the simulated drives of a site on Modbus TCP until quit or Ctrl-C, one port for each endpoint.",
            "For training, and for trying scripts and tools without a machine. The drives follow their simulate: blocks in"
                    + " the site file.",
            "",
            "While it serves, type help for the words that slow, freeze, trip or turn a drive or put a fault on its wire.",
            "The end of the input ends nothing unless it is a terminal."
        })
final class SimulateCommand implements Callable<Integer> {

    private static final Duration REFRESH = Duration.ofMillis(500);

    private final Terminal terminal;

    @Parameters(
            paramLabel = "SITE",
            arity = "0..1",
            defaultValue = "test-scripts/demo/site.yaml",
            description = "Site file. Default: the demonstration, ${DEFAULT-VALUE}")
    private Path site = Path.of("test-scripts/demo/site.yaml");

    @Option(
            names = "--host",
            defaultValue = "127.0.0.1",
            description = "Address to listen on. Default: ${DEFAULT-VALUE}, this computer only")
    private String host = "127.0.0.1";

    @Option(
            names = "--port",
            defaultValue = "5020",
            description = "Port of the first endpoint, the others follow; 0 takes free ones. Default: ${DEFAULT-VALUE}")
    private int port = 5020;

    @Option(
            names = "--copies",
            paramLabel = "N",
            defaultValue = "1",
            description = "Serve every axis so many times, named AXIS-1 … AXIS-N, for training and load. Default: 1")
    private int copies = 1;

    @Option(
            names = "--units",
            description = "Serve all drives behind one port, with the unit ids 1, 2, … in the order of the site file")
    private boolean units;

    SimulateCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() throws Exception {
        if (port < 0 || port > 65_535) {
            throw new WrongUseException("--port must be 0 … 65535, got " + port);
        }
        if (copies < 1 || copies > ServingPlan.MOST_COPIES) {
            throw new WrongUseException("--copies must be 1 … " + ServingPlan.MOST_COPIES + ", got " + copies);
        }
        try (SimulatedSite simulated = start();
                EndOfServing end = EndOfServing.watch()) {
            terminal.line("SIMULATED drives on Modbus TCP, " + host + "; help lists the words, quit ends");
            if (!terminal.isInteractive()) {
                simulated.served().forEach(this::tell);
            }
            DriveBoard board = new DriveBoard(terminal, simulated.axes(), SystemTime.INSTANCE, ScreenSize::now);
            board.begin();
            listen(new SimulatorWords(simulated.axes(), board), board, end);
            while (!end.await(REFRESH)) {
                board.refresh();
            }
            board.end();
        }
        return ExitCode.PASSED.code();
    }

    private SimulatedSite start() throws Exception {
        Site loaded = SiteFile.load(site);
        try {
            return SimulatedSite.start(loaded, new ServingPlan(copies, units), host, port);
        } catch (IllegalArgumentException e) {
            throw new WrongUseException(String.valueOf(e.getMessage()));
        }
    }

    private void tell(SimulatedSite.Served axis) {
        terminal.line(String.format(
                "  %-16s port %-5d  unit %-3d  %s", axis.axis(), axis.port(), axis.unit(), axis.driveType()));
    }

    /** Obeys what is typed, beside serving. */
    private void listen(SimulatorWords words, DriveBoard board, EndOfServing end) {
        Thread keyboard = new Thread(
                () -> {
                    Optional<String> line = terminal.readLine();
                    for (; line.isPresent(); line = terminal.readLine()) {
                        if (line.get().chars().anyMatch(letter -> letter != '\t' && Character.isISOControl(letter))) {
                            terminal.error("The input is no text; no more of it is read, the drives are served on.");
                            return;
                        }
                        SimulatorWords.Answer answer = words.obey(line.get());
                        if (answer.quit()) {
                            end.want();
                            return;
                        }
                        board.answer(line.get(), answer.lines(), answer.errors());
                    }
                    if (terminal.isInteractive()) {
                        // Ctrl-D; a program started in the background has no input and serves on.
                        end.want();
                    }
                },
                "axtrial-keyboard");
        keyboard.setDaemon(true);
        keyboard.start();
    }
}
