package org.axtrial.cli;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import org.axtrial.site.SimulatedSite;
import org.axtrial.site.SiteFile;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Serves the simulated drives of a site until it is stopped. */
@Command(
        name = "simulate",
        mixinStandardHelpOptions = true,
        description = {
            "Serves the simulated drives of a site on Modbus TCP until Ctrl-C, one port for each axis.",
            "For trying scripts and tools without a machine. The drives follow their simulate: blocks in the site file."
        })
final class SimulateCommand implements Callable<Integer> {

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
            description = "Port of the first axis, the others follow; 0 takes free ones. Default: ${DEFAULT-VALUE}")
    private int port = 5020;

    SimulateCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() throws Exception {
        if (port < 0 || port > 65_535) {
            throw new WrongUseException("--port must be 0 … 65535, got " + port);
        }
        try (SimulatedSite simulated = SimulatedSite.start(SiteFile.load(site), host, port)) {
            terminal.line("SIMULATED drives on Modbus TCP, " + host + ". Ctrl-C ends them.");
            simulated
                    .served()
                    .forEach(axis -> terminal.line(String.format(
                            "  %-16s port %-5d  unit %-3d  %s",
                            axis.axis(), axis.port(), axis.unit(), axis.driveType())));
            new CountDownLatch(1).await();
            return ExitCode.PASSED.code();
        }
    }
}
