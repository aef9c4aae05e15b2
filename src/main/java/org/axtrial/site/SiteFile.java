package org.axtrial.site;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import org.axtrial.link.Transport;
import org.axtrial.measure.DecisionRule;
import org.axtrial.measure.Instrument;
import org.axtrial.quantity.NearMiss;

/** Loads a site file with the drive descriptions it names. */
public final class SiteFile {

    private static final List<String> JOB = List.of(
            "id",
            "title",
            "customer",
            "customerContact",
            "contractor",
            "contractorAddress",
            "site",
            "contract",
            "specification",
            "plan",
            "notes");
    private static final List<String> MACHINE =
            List.of("name", "builder", "type", "serial", "location", "condition", "environment", "notes");

    private final YamlDocument document;
    private final YamlMap top;

    private SiteFile(YamlDocument document) {
        this.document = document;
        top = document.top();
    }

    /**
     * Reads and checks everything; touches nothing but files.
     *
     * @param siteYaml the site file; paths in it count from its folder
     * @throws SiteProblemsException with every problem in the site file and in its drive descriptions
     */
    public static Site load(Path siteYaml) throws SiteProblemsException {
        Problems problems = new Problems();
        Optional<YamlDocument> document = YamlSource.read(siteYaml, problems);
        Optional<Site> site = document.flatMap(SiteFile::read);
        if (site.isEmpty() || !problems.isEmpty()) {
            throw new SiteProblemsException(problems.sorted());
        }
        return site.get();
    }

    static Optional<Site> read(YamlDocument document) {
        SchemaCheck.SITE.check(document);
        return new SiteFile(document).site();
    }

    private How target() {
        return top.text("target").orElse("real").equals("simulated") ? How.SIMULATED : How.REAL;
    }

    private Optional<Site> site() {
        Map<String, String> job = lines("job", JOB);
        Map<String, String> machine = lines("machine", MACHINE);
        String operator = top.text("operator").orElse("");
        DecisionRule rule = decisionRule();
        boolean parallel = top.bool("parallel").orElse(false);
        List<Path> scripts = top.has("scripts") ? namedScripts() : scriptsBeside();
        List<SiteAxis> axes = axes();
        List<Instrument> instruments = instruments();
        Map<String, String> behind = behind();
        List<SiteCoupling> couplings = new CouplingReader(top).read(axes);
        List<SiteLimit> limits = LimitReader.read(top);
        if (!document.problems().isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(new Site(
                document.file(),
                job,
                machine,
                operator,
                rule,
                target(),
                parallel,
                scripts,
                axes,
                instruments,
                behind,
                couplings,
                limits));
    }

    private DecisionRule decisionRule() {
        String name = top.text("decisionRule").orElse("simple");
        OptionalDouble factor = top.number("guardBandFactor");
        if (name.equals("simple") && factor.isPresent()) {
            top.problem(
                    "guardBandFactor",
                    "simple acceptance has no guard band; take this line out, or write decisionRule: guard band");
        }
        return switch (name) {
            case "guard band" -> new DecisionRule.GuardBand(factor.orElse(1));
            case "non-binary" -> new DecisionRule.NonBinary(factor.orElse(1));
            default -> DecisionRule.SIMPLE;
        };
    }

    private Map<String, String> lines(String key, List<String> known) {
        YamlMap map = top.map(key);
        Map<String, String> result = new LinkedHashMap<>();
        map.keys().forEach(name -> map.text(name).ifPresent(text -> result.put(name, text)));
        known.forEach(map::text);
        return result;
    }

    private List<Path> namedScripts() {
        List<Path> result = new ArrayList<>();
        top.texts("scripts").forEach((path, text) -> {
            Optional<Path> script = beside(document.file(), text);
            if (script.isEmpty() || !Files.isRegularFile(script.get())) {
                document.problem(path, "there is no script \"" + text + "\" in the folder of this file");
            } else if (result.contains(script.get())) {
                document.problem(path, "the script \"" + text + "\" is listed twice");
            } else {
                result.add(script.get());
            }
        });
        return result;
    }

    private List<Path> scriptsBeside() {
        Path folder = document.file().resolveSibling("");
        try (Stream<Path> files = Files.list(folder.toString().isEmpty() ? Path.of(".") : folder)) {
            return files.filter(file -> file.getFileName().toString().endsWith(".js"))
                    .map(file -> document.file().resolveSibling(file.getFileName()))
                    .sorted()
                    .toList();
        } catch (IOException e) {
            document.problem("", "the folder of this file cannot be listed: " + e);
            return List.of();
        }
    }

    private List<SiteAxis> axes() {
        List<SiteAxis> result = new ArrayList<>();
        DriveShelf drives = new DriveShelf(document);
        Map<String, String> names = new HashMap<>();
        Map<String, String> endpoints = new HashMap<>();
        Map<String, Transport> lines = new HashMap<>();
        List<YamlMap> blocks = top.blocks("axes");
        for (int i = 0; i < blocks.size(); i++) {
            YamlMap map = blocks.get(i);
            AxisReader reader = new AxisReader(map, drives, i + 1L, target() == How.REAL);
            reader.read().ifPresent(result::add);
            once(map, "name", reader.name(), names, "the name");
            reader.endpoint().ifPresent(end -> {
                once(map, "endpoint", end.peer(), endpoints, "the endpoint");
                oneWay(map, end.transport(), lines);
            });
        }
        return result;
    }

    private List<Instrument> instruments() {
        List<Instrument> result = new ArrayList<>();
        Map<String, String> ids = new HashMap<>();
        for (YamlMap map : top.blocks("instruments")) {
            InstrumentReader.read(map).ifPresent(result::add);
            map.text("id").ifPresent(id -> once(map, "id", id, ids, "the id"));
        }
        return result;
    }

    /** Who is wired behind whom. Every name is an axis of this file, and nobody is behind itself. */
    private Map<String, String> behind() {
        Map<String, String> behind = new LinkedHashMap<>();
        List<YamlMap> blocks = top.blocks("axes");
        List<String> names =
                blocks.stream().map(map -> map.text("name").orElse("")).toList();
        for (int i = 0; i < blocks.size(); i++) {
            YamlMap map = blocks.get(i);
            String own = names.get(i);
            map.text("behind").ifPresent(before -> {
                if (!names.contains(before)) {
                    map.problem("behind", "there is no axis \"" + before + "\"" + NearMiss.hint(before, names));
                } else if (leadsTo(before, own, behind)) {
                    map.problem(
                            "behind", "the chain comes back to " + own + "; begin it at the axis next to the switch");
                } else {
                    behind.put(own, before);
                }
            });
        }
        return behind;
    }

    private static boolean leadsTo(String from, String target, Map<String, String> behind) {
        for (String at = from; at != null; at = behind.get(at)) {
            if (at.equals(target)) {
                return true;
            }
        }
        return false;
    }

    private static void once(YamlMap map, String key, String value, Map<String, String> seen, String what) {
        String first = seen.putIfAbsent(value, map.path());
        if (first != null) {
            map.problem(key, what + " " + value + " is taken by " + first);
        }
    }

    /** One port cannot be spoken to in two ways at the same time. */
    private static void oneWay(YamlMap map, Transport transport, Map<String, Transport> lines) {
        String line = transport instanceof Transport.RtuOverTcp gateway
                ? gateway.host() + ":" + gateway.port()
                : transport.place();
        Transport first = lines.putIfAbsent(line, transport);
        if (first != null && !first.equals(transport)) {
            map.problem(
                    "endpoint",
                    "another axis reaches " + line + " with another transport or other serial settings; all drives on"
                            + " one line share one connection, so say the same for each but the unit");
        }
    }

    /** A path that counts from the folder of a file; empty if the text is no path at all. */
    static Optional<Path> beside(Path file, String text) {
        try {
            return Optional.of(file.resolveSibling(text).normalize());
        } catch (InvalidPathException e) {
            return Optional.empty();
        }
    }
}
