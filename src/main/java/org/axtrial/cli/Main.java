package org.axtrial.cli;

import java.util.List;
import org.axtrial.engine.SiteSession;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.IVersionProvider;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** Entry point of the command line. Without a command it runs the demonstration. */
@Command(
        name = "axtrial",
        versionProvider = Main.Version.class,
        mixinStandardHelpOptions = true,
        description = {
            "Runs acceptance trials on servo axes and leaves evidence that can be signed.",
            "",
            "Without a command, the demonstration runs: the site test-scripts/demo/site.yaml on simulated axes.",
            "",
            "@|bold Motion can hurt.|@ This program is not a safety function. Emergency stop, guards, lockout and the rules of"
                    + " the place come first, in the hands of people licensed for them."
        },
        footer = {
            "",
            "Exit codes: 0 all passed; 1 a trial failed; 2 wrong use or configuration, nothing moved; 3 nothing failed,"
                    + " but not all was proven; 4 stopped; 5 the evidence does not verify."
        },
        subcommands = {
            RunCommand.class,
            RehearseCommand.class,
            ProcedureCommand.class,
            SimulateCommand.class,
            ReportCommand.class,
            LinkCommand.class,
            SnapshotCommand.class,
            GaugeCommand.class,
            CompareCommand.class,
            TrendCommand.class,
            MergeCommand.class,
            ArchiveCommand.class,
            ImportCommand.class,
            ExportCommand.class,
            StateCommand.class,
            PunchCommand.class,
            DeviationCommand.class,
            ReissueCommand.class,
            VerifyCommand.class,
            SignCommand.class,
            KeygenCommand.class
        })
public final class Main implements Runnable {

    @Spec
    private CommandSpec spec;

    private Main() {}

    /**
     * Starts the program and ends the virtual machine with the exit code, unless that is 0 and nothing is left to do.
     *
     * @param args the command line
     */
    public static void main(String[] args) {
        // The script engine has no native part here; without this it says so at every start.
        System.setProperty("polyglotimpl.AttachLibraryFailureAction", "ignore");
        System.setProperty("polyglot.engine.WarnInterpreterOnly", "false");
        int code = run(Terminal.standard(), args);
        if (code != 0) {
            System.exit(code);
        }
    }

    /** Runs one command line and returns its exit code. */
    static int run(Terminal terminal, String... args) {
        CommandLine line = new CommandLine(new Main(), new Commands(terminal))
                .setOut(terminal.outWriter())
                .setErr(terminal.errWriter())
                .setUsageHelpAutoWidth(true)
                .setExecutionExceptionHandler(new Failures(terminal))
                .setExitCodeExceptionMapper(thrown -> ExitCode.WRONG_USE.code());
        HelpText.on(line);
        return line.execute(args.length == 0 ? new String[] {"run"} : args);
    }

    @Override
    public void run() {
        throw new CommandLine.ParameterException(
                spec.commandLine(),
                "name a command: run, rehearse, procedure, link, snapshot, simulate, report, gauge, compare, trend, merge, state, punch,"
                        + " deviation, reissue, verify, sign, keygen, archive, import or export");
    }

    /** Gives every command the terminal. */
    private record Commands(Terminal terminal) implements CommandLine.IFactory {

        @Override
        public <K> K create(Class<K> type) throws Exception {
            for (var constructor : type.getDeclaredConstructors()) {
                if (List.of(constructor.getParameterTypes()).equals(List.of(Terminal.class))) {
                    return type.cast(constructor.newInstance(terminal));
                }
            }
            return CommandLine.defaultFactory().create(type);
        }
    }

    /** The version as the evidence tells it. */
    static final class Version implements IVersionProvider {

        @Override
        public String[] getVersion() {
            return new String[] {SiteSession.TOOL};
        }
    }
}
