package org.axtrial.script;

import java.nio.file.Path;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.axtrial.evidence.ScriptPlace;
import org.graalvm.polyglot.Context;
import org.graalvm.polyglot.PolyglotException;
import org.graalvm.polyglot.Source;
import org.graalvm.polyglot.SourceSection;
import org.graalvm.polyglot.Value;

/** Tells where a script is, or where it went wrong. Belongs to one context. */
final class Places {

    private static final Pattern IMPORT = Pattern.compile("\\b(?:from|import)\\s*\\(?\\s*([\"'])([^\"'\\n]+)\\1");

    private final ScriptTexts texts;
    private final Value thrower;

    Places(ScriptTexts texts, Context context) {
        this.texts = texts;
        // The runtime shows the frames of a script only in an exception; this one is thrown to be looked at.
        this.thrower = context.eval(Source.create("js", "(() => { throw 0; })"));
    }

    /**
     * Where the script is that has called a word.
     *
     * @throws PolyglotException if the context is being closed
     */
    Optional<ScriptPlace> here() {
        try {
            thrower.executeVoid();
        } catch (PolyglotException e) {
            if (e.isCancelled() || e.isInterrupted() || e.isResourceExhausted()) {
                throw e;
            }
            return firstFrame(e, "");
        }
        throw new IllegalStateException("the probe of the script's place did not throw");
    }

    /** Where an exception came from. */
    Optional<ScriptPlace> of(PolyglotException e) {
        SourceSection section = e.getSourceLocation();
        Optional<ScriptPlace> direct = section == null ? Optional.empty() : of(section);
        return direct.isPresent() ? direct : firstFrame(e, String.valueOf(e.getMessage()));
    }

    private Optional<ScriptPlace> firstFrame(PolyglotException e, String message) {
        for (PolyglotException.StackFrame frame : e.getPolyglotStackTrace()) {
            // An error class made by the script is itself the top frame; the throw is one below.
            boolean constructor = message.startsWith(frame.getRootName() + ":");
            if (frame.isGuestFrame() && !constructor && frame.getSourceLocation() != null) {
                Optional<ScriptPlace> place = of(frame.getSourceLocation());
                if (place.isPresent()) {
                    return place;
                }
            }
        }
        return Optional.empty();
    }

    private Optional<ScriptPlace> of(SourceSection section) {
        String path = section.getSource().getPath();
        if (path == null || !section.isAvailable() || !Path.of(path).startsWith(texts.folder())) {
            return Optional.empty();
        }
        int line = section.getStartLine();
        String text = section.getSource().getCharacters(line).toString().strip();
        return Optional.of(new ScriptPlace(texts.nameOf(Path.of(path)), line, section.getStartColumn(), text));
    }

    /** The import statement that asked for a module. */
    Optional<ScriptPlace> ofImport(String asked) {
        for (Path file : texts.filesRead()) {
            String[] lines = texts.read(file).split("\n", -1);
            for (int i = 0; i < lines.length; i++) {
                Matcher matcher = IMPORT.matcher(lines[i]);
                while (matcher.find()) {
                    if (means(matcher.group(2), file, asked)) {
                        return Optional.of(
                                new ScriptPlace(texts.nameOf(file), i + 1, matcher.start(2), lines[i].strip()));
                    }
                }
            }
        }
        return Optional.empty();
    }

    /** The place of a name in an import in braces; the runtime tells only the first import of that module. */
    Optional<ScriptPlace> ofImportedName(String specifier, String name) {
        Pattern statement =
                Pattern.compile("import\\s*\\{([^}]*)\\}\\s*from\\s*([\"'])" + Pattern.quote(specifier) + "\\2");
        Pattern word = Pattern.compile("(?<![\\w$])" + Pattern.quote(name) + "(?![\\w$])");
        for (Path file : texts.filesRead()) {
            String text = texts.read(file);
            Matcher found = statement.matcher(text);
            while (found.find()) {
                Matcher at = word.matcher(text).region(found.start(1), found.end(1));
                if (at.find()) {
                    return Optional.of(at(file, text, at.start()));
                }
            }
        }
        return Optional.empty();
    }

    private ScriptPlace at(Path file, String text, int offset) {
        int line = 1
                + (int) text.substring(0, offset).chars().filter(c -> c == '\n').count();
        int begin = text.lastIndexOf('\n', offset - 1) + 1;
        int end = text.indexOf('\n', offset);
        String whole = text.substring(begin, end < 0 ? text.length() : end);
        return new ScriptPlace(texts.nameOf(file), line, offset - begin + 1, whole.strip());
    }

    private static boolean means(String specifier, Path importer, String asked) {
        boolean relative = specifier.startsWith("./") || specifier.startsWith("../");
        return specifier.equals(asked)
                || specifier.equals("file://" + asked)
                || (relative
                        && importer.resolveSibling(specifier)
                                .normalize()
                                .toString()
                                .equals(asked));
    }
}
