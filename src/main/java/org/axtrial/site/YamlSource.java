package org.axtrial.site;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.api.lowlevel.Compose;
import org.snakeyaml.engine.v2.exceptions.MarkedYamlEngineException;
import org.snakeyaml.engine.v2.exceptions.YamlEngineException;
import org.snakeyaml.engine.v2.nodes.Node;
import org.snakeyaml.engine.v2.schema.CoreSchema;

/** Reads one YAML 1.2 file into a {@link YamlDocument}, or says what kept it from being read. */
final class YamlSource {

    /** Far above any site file; a larger file is the wrong file. */
    private static final long MAX_BYTES = 1_000_000;

    private static final int MAX_ALIASES = 50;

    /** As the YAML library words it; a tab is told otherwise. */
    private static final Pattern BAD_START = Pattern.compile("found character '([%@`])'");

    private final Path file;
    private final Problems problems;

    private YamlSource(Path file, Problems problems) {
        this.file = file;
        this.problems = problems;
    }

    static Optional<YamlDocument> read(Path file, Problems problems) {
        problems.open(file);
        YamlSource source = new YamlSource(file, problems);
        return source.text().flatMap(source::parse);
    }

    private Optional<String> text() {
        if (!Files.exists(file)) {
            return refuse(
                    "there is no such file; looked for " + file.toAbsolutePath().normalize());
        }
        if (Files.isDirectory(file)) {
            return refuse("this is a folder; expected a YAML file");
        }
        if (file.toString().endsWith(".js")) {
            return refuse("this is a script, not a YAML file; name the site file first, then the scripts");
        }
        byte[] bytes;
        try {
            if (Files.size(file) > MAX_BYTES) {
                return refuse("the file has " + Files.size(file) + " bytes; expected at most " + MAX_BYTES);
            }
            bytes = Files.readAllBytes(file);
        } catch (IOException e) {
            return refuse("the file cannot be read: " + e);
        }
        String text;
        try {
            text = StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(bytes))
                    .toString();
        } catch (CharacterCodingException e) {
            return refuse("the file is not UTF-8; save it as UTF-8 in the editor");
        }
        if (text.isBlank()) {
            return refuse("the file is empty");
        }
        return Optional.of(text);
    }

    private Optional<String> refuse(String message) {
        problems.add(file, "", YamlPlace.NOWHERE, message);
        return Optional.empty();
    }

    private Optional<YamlDocument> parse(String text) {
        LoadSettings settings = LoadSettings.builder()
                .setSchema(new CoreSchema())
                .setMaxAliasesForCollections(MAX_ALIASES)
                .build();
        try {
            Optional<Node> node = new Compose(settings).composeString(text);
            if (node.isEmpty()) {
                return refuse("the file holds nothing but comments").map(ignored -> unreachable());
            }
            return new YamlTree(file, problems).build(node.get());
        } catch (MarkedYamlEngineException e) {
            YamlPlace place = e.getProblemMark().map(YamlPlace::of).orElse(YamlPlace.TOP);
            problems.add(file, "", place, syntaxMessage(text, place, e));
            return Optional.empty();
        } catch (YamlEngineException e) {
            problems.add(file, "", YamlPlace.TOP, "this is not YAML: " + e.getMessage());
            return Optional.empty();
        }
    }

    private static YamlDocument unreachable() {
        throw new IllegalStateException("a refused file has no document");
    }

    private static String syntaxMessage(String text, YamlPlace place, MarkedYamlEngineException e) {
        String line = text.lines().skip(place.line() - 1L).findFirst().orElse("");
        String indentation =
                line.substring(0, line.length() - line.stripLeading().length());
        if (indentation.contains("\t")) {
            return "the line is indented with a tab; YAML wants spaces";
        }
        Matcher start = BAD_START.matcher(String.valueOf(e.getProblem()));
        if (start.find()) {
            return "a value cannot begin with " + start.group(1) + " in YAML; put it in quotes: \"" + start.group(1)
                    + "\"";
        }
        String context = e.getContext() == null || e.getContext().isBlank() ? "" : e.getContext() + ": ";
        return "this is not YAML: " + context + e.getProblem();
    }
}
