package org.axtrial.engine;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.UnaryOperator;
import org.axtrial.axis.Axis;
import org.axtrial.evidence.EarlierRun;
import org.axtrial.evidence.EvidencePack;
import org.axtrial.evidence.EvidencePack.SourceFile;
import org.axtrial.evidence.RunEvent;
import org.axtrial.evidence.RunSelection;
import org.axtrial.script.Discovery;
import org.axtrial.script.People;
import org.axtrial.script.ReadingSetup;
import org.axtrial.script.Readings;
import org.axtrial.script.ScriptLibrary;
import org.axtrial.script.ScriptProblem;
import org.axtrial.script.TrialDefinition;
import org.axtrial.site.How;
import org.axtrial.site.Rig;
import org.axtrial.site.RigException;
import org.axtrial.site.Site;
import org.axtrial.time.SystemTime;

/**
 * A site made ready to run: scripts checked, axes open, evidence pack begun. Nothing has moved. Closing it closes the
 * axes; the pack stays open for whoever finishes it.
 */
public final class SiteSession implements AutoCloseable {

    /** Name and version as the evidence tells them. */
    public static final String TOOL = "Axtrial " + version();

    private static final DateTimeFormatter STAMP =
            DateTimeFormatter.ofPattern("yyyyMMdd-HHmmss", Locale.ROOT).withZone(ZoneOffset.UTC);

    private final Rig rig;
    private final EvidencePack pack;
    private final RunSession session;

    private SiteSession(Rig rig, EvidencePack pack, RunSession session) {
        this.rig = rig;
        this.pack = pack;
        this.session = session;
    }

    /**
     * Checks the scripts of a site before anything is opened.
     *
     * @param scripts the files to run; empty for the ones that the site file lists
     * @throws ScriptProblemsException with everything that is wrong with any of them
     */
    public static Scripts scripts(Site site, List<Path> scripts) throws ScriptProblemsException {
        Path file = site.file().toAbsolutePath();
        Path folder = file.getParent() == null ? file : file.getParent();
        ScriptLibrary library = new ScriptLibrary(folder, site.decisionRule());
        List<String> names = new ArrayList<>();
        List<String> problems = new ArrayList<>();
        for (Path script : scripts.isEmpty() ? site.scripts() : scripts) {
            if (Files.isDirectory(script)) {
                problems.add(script + ": this is a folder; name the scripts in it");
            } else if (!Files.isRegularFile(script)) {
                problems.add(script + ": there is no such script");
            } else if (script.toString().matches(".*\\.ya?ml")) {
                problems.add(script + ": this is a YAML file, not a script; name one site file, then the scripts");
            } else {
                library.nameOf(script)
                        .ifPresentOrElse(
                                names::add,
                                () -> problems.add(script
                                        + ": the script lies outside of " + folder
                                        + ", the folder of the site file; scripts and their"
                                        + " modules must lie in it"));
            }
        }
        List<String> axes = site.axes().stream().map(axis -> axis.name()).toList();
        List<TrialDefinition> trials = new ArrayList<>();
        for (String name : names) {
            Discovery found = library.discover(name).on(axes);
            found.problems().stream().map(ScriptProblem::printed).forEach(problems::add);
            trials.addAll(found.trials());
        }
        problems.addAll(LimitCheck.troubles(site, library, trials));
        if (names.isEmpty() && problems.isEmpty()) {
            problems.add(
                    site.file() + ": there is no script to run; list some under scripts: or put some *.js beside it");
        }
        if (!problems.isEmpty()) {
            throw new ScriptProblemsException(problems);
        }
        return new Scripts(
                library.withLimits(LimitCheck.table(site)), names, trials, Optional.empty(), Optional.empty());
    }

    /**
     * Scripts that were found without problems.
     *
     * @param library the folder they lie in
     * @param names their names under it, in order
     * @param trials what they declare, in order
     * @param selection which of the trials are to run; empty for all
     * @param earlier the run whose trials are tried again; empty if this is no re-test
     */
    public record Scripts(
            ScriptLibrary library,
            List<String> names,
            List<TrialDefinition> trials,
            Optional<RunSelection> selection,
            Optional<EarlierRun> earlier) {

        public Scripts {
            names = List.copyOf(names);
            trials = List.copyOf(trials);
        }

        /** The same, of which only the chosen trials run. */
        public Scripts chosen(TrialChoice choice, List<String> axes) {
            RunSelection chosen = choice.of(trials, axes);
            return new Scripts(library, choice.order(names, trials, chosen), trials, Optional.of(chosen), earlier);
        }

        /** The same, of which only the trials run that were chosen elsewhere, in the order of the scripts. */
        public Scripts chosen(RunSelection chosen) {
            List<String> wanted = names.stream()
                    .filter(name -> chosen.picked().stream()
                            .anyMatch(one -> one.script().equals(name)))
                    .toList();
            return new Scripts(library, wanted, trials, Optional.of(chosen), earlier);
        }

        /** Which of these axes a chosen trial works; they are the only ones that may move. */
        public List<String> onTrial(List<String> axes) {
            return selection
                    .map(chosen -> axes.stream()
                            .filter(axis -> chosen.picked().stream()
                                    .anyMatch(one -> one.axis().equals(axis) || movesWith(one, axis)))
                            .toList())
                    .orElse(axes);
        }

        /** Whether an axis moves at once with the one that a chosen trial is for. */
        private boolean movesWith(RunSelection.Picked one, String axis) {
            return trials.stream()
                    .anyMatch(trial -> trial.script().equals(one.script())
                            && trial.id().equals(one.trial())
                            && trial.with().contains(axis));
        }

        /** The same as a re-test of an earlier run. */
        public Scripts retesting(Optional<EarlierRun> before) {
            return new Scripts(library, names, trials, selection, before);
        }
    }

    /**
     * Opens the axes and begins the evidence.
     *
     * @param operator who runs it; empty string for the one of the site file
     * @throws RigException if an axis does not open; nothing stays open
     */
    public static SiteSession open(Site site, How how, Scripts scripts, Path reports, String operator)
            throws RigException {
        return open(site, how, scripts, reports, operator, Readings.NONE, Optional.empty());
    }

    /** Opens as the method below; a rehearsal answers for people by itself, and else nobody can be asked. */
    public static SiteSession open(
            Site site,
            How how,
            Scripts scripts,
            Path reports,
            String operator,
            Readings readings,
            Optional<Path> answers)
            throws RigException {
        People people = how == How.REHEARSAL ? People.REHEARSED : People.NONE;
        return open(site, how, scripts, reports, operator, new Answering(readings, people, Retests.NONE, answers));
    }

    /**
     * Who answers in a run.
     *
     * @param readings where readings of instruments come from
     * @param people who releases, witnesses and operates
     * @param retests who decides whether a trial is tried again
     * @param file the file that the answers come from, which is kept with the evidence
     */
    public record Answering(Readings readings, People people, Retests retests, Optional<Path> file) {}

    /**
     * Opens the axes and begins the evidence of a run that reads instruments.
     *
     * @param operator who runs it; empty string for the one of the site file
     * @param answering who answers what a drive cannot
     * @throws RigException if an axis does not open; nothing stays open
     */
    public static SiteSession open(
            Site site, How how, Scripts scripts, Path reports, String operator, Answering answering)
            throws RigException {
        return open(site, how, scripts, reports, operator, answering, Terms.NONE);
    }

    /**
     * What was settled of a run before it began.
     *
     * @param procedure SHA-256 of the procedure that was agreed; empty if there is none
     * @param paper name of the paper that the report is to be printed on; empty for A4
     */
    public record Terms(Optional<String> procedure, Optional<String> paper) {
        private static final Terms NONE = new Terms(Optional.empty(), Optional.empty());
    }

    /** Opens as the method above, for a run of which something was settled before. */
    public static SiteSession open(
            Site site, How how, Scripts scripts, Path reports, String operator, Answering answering, Terms terms)
            throws RigException {
        Rig rig = Rig.open(site, how);
        try {
            String runId = runId(site, how == How.REHEARSAL ? "-rehearsal" : "", reports);
            EvidencePack pack = EvidencePack.create(reports, runId, sources(site, scripts.library(), answering.file()));
            String who = operator.isEmpty() ? site.operator() : operator;
            ReadingSetup setup = new ReadingSetup(
                    site.instruments(), RunDescription.testDay(), answering.readings(), answering.people());
            RunSession session = new RunSession(
                    scripts.library().withReadings(setup),
                    scripts.names(),
                    rig.axes(),
                    pack,
                    plan -> RunDescription.of(site, how, rig::peer, runId, TOOL, who, plan)
                            .asked(terms.procedure(), scripts.selection(), scripts.earlier(), terms.paper()),
                    // Coupled axes share a virtual clock; who moves it first must not be left to chance.
                    site.parallel() && (how != How.REHEARSAL || site.couplings().isEmpty()),
                    new StopSwitch(),
                    () -> {},
                    () -> {},
                    answering.retests(),
                    scripts.selection());
            FirstMotions.explain(session, scripts.trials());
            return new SiteSession(rig, pack, session);
        } catch (RuntimeException e) {
            rig.close();
            throw e;
        }
    }

    /**
     * Begins the evidence of a look at a site in which nothing moves: no scripts, no plan.
     *
     * @param what kind of look, for the name of the folder, for example {@code link}
     * @param peers host, port and unit of an axis by its name
     */
    public static EvidencePack look(
            Site site, How how, Path reports, String operator, String what, UnaryOperator<String> peers) {
        String runId = runId(site, "-" + what, reports);
        Map<String, Path> sources = new LinkedHashMap<>();
        sources.put("site.yaml", site.file());
        site.driveFiles().forEach(file -> putUnique(sources, "drives/" + file.getFileName(), file));
        EvidencePack pack = EvidencePack.create(
                reports,
                runId,
                sources.entrySet().stream()
                        .map(entry -> new SourceFile(entry.getKey(), entry.getValue()))
                        .toList());
        String who = operator.isEmpty() ? site.operator() : operator;
        pack.accept(new RunEvent.RunStarted(
                SystemTime.INSTANCE.instant(), RunDescription.of(site, how, peers, runId, TOOL, who, List.of())));
        return pack;
    }

    /** The axes and links that this session has opened. */
    public Rig rig() {
        return rig;
    }

    public List<Axis> axes() {
        return rig.axes();
    }

    public EvidencePack pack() {
        return pack;
    }

    public RunSession session() {
        return session;
    }

    @Override
    public void close() {
        rig.close();
    }

    /** Sortable, and never one that has been used: no run may write into the folder of another. */
    private static String runId(Site site, String what, Path reports) {
        Instant now = SystemTime.INSTANCE.instant();
        String job = site.job().getOrDefault("id", "").replaceAll("[^A-Za-z0-9]+", "-");
        String base = STAMP.format(now) + (job.isEmpty() ? "" : "-" + job) + what;
        String id = base;
        for (int n = 2; Files.exists(reports.resolve(id)); n++) {
            id = base + "-" + n;
        }
        return id;
    }

    /** Site file, drive descriptions and scripts by the names that a pack gives them, as they lie on the disk now. */
    public static Map<String, Path> files(Site site, Scripts scripts) {
        Map<String, Path> files = new LinkedHashMap<>();
        sources(site, scripts.library(), Optional.empty()).forEach(file -> files.put(file.nameInPack(), file.path()));
        return files;
    }

    private static List<SourceFile> sources(Site site, ScriptLibrary library, Optional<Path> answers) {
        Map<String, Path> sources = new LinkedHashMap<>();
        sources.put("site.yaml", site.file());
        site.driveFiles().forEach(file -> putUnique(sources, "drives/" + file.getFileName(), file));
        answers.ifPresent(file -> putUnique(sources, "answers/" + file.getFileName(), file));
        Path folder = library.folder();
        library.filesRead()
                .forEach(file -> putUnique(
                        sources, "scripts/" + folder.relativize(file).toString().replace('\\', '/'), file));
        return sources.entrySet().stream()
                .map(entry -> new SourceFile(entry.getKey(), entry.getValue()))
                .toList();
    }

    /** Two files of one name from different folders must both be kept. */
    private static void putUnique(Map<String, Path> sources, String name, Path file) {
        String unique = name;
        for (int n = 2; sources.containsKey(unique); n++) {
            unique = name.replaceFirst("(\\.[^./]*)?$", "-" + n + "$1");
        }
        sources.put(unique, file);
    }

    private static String version() {
        String version = SiteSession.class.getPackage().getImplementationVersion();
        return version == null ? "0.1.0-SNAPSHOT" : version;
    }
}
