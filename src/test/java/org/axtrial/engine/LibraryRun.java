package org.axtrial.engine;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import org.axtrial.evidence.RunRecord;
import org.axtrial.script.People;
import org.axtrial.script.Readings;
import org.axtrial.site.Answers;
import org.axtrial.site.AnswersFile;
import org.axtrial.site.GivenAnswer;
import org.axtrial.site.How;
import org.axtrial.site.Site;
import org.axtrial.site.SiteFile;

/** Rehearses the acceptance library, or some of its scripts, on a copy of its site that may be made worse. */
final class LibraryRun {

    private static final Path SOURCE = Path.of("test-scripts/acceptance");

    private LibraryRun() {}

    /**
     * Rehearses.
     *
     * @param folder empty
     * @param change what becomes of the site file
     * @param scripts names under the folder of the library; none for all
     */
    static RunRecord rehearse(Path folder, UnaryOperator<String> change, String... scripts) throws Exception {
        return rehearse(folder, change, SOURCE.resolve("rehearsal-answers.yaml"), scripts);
    }

    /** Rehearses with readings of a file. */
    static RunRecord rehearse(Path folder, UnaryOperator<String> change, Path answers, String... scripts)
            throws Exception {
        Path library = folder.resolve("acceptance");
        copy(SOURCE, library);
        copy(Path.of("test-scripts/drives"), folder.resolve("drives"));
        Path siteFile = library.resolve("site.yaml");
        Files.writeString(siteFile, change.apply(Files.readString(siteFile)));
        Site site = SiteFile.load(siteFile);
        SiteSession.Scripts found = SiteSession.scripts(
                site, Stream.of(scripts).map(library::resolve).toList());
        SiteSession.Answering answering =
                new SiteSession.Answering(readings(answers), People.REHEARSED, Retests.NONE, Optional.empty());
        try (SiteSession session =
                SiteSession.open(site, How.REHEARSAL, found, folder.resolve("reports"), "nobody", answering)) {
            assertThat(AcceptanceRun.of(session.session()).problems()).isEmpty();
            return session.pack().finish();
        }
    }

    /** The invented readings that are shipped beside the site. */
    static Readings readings(Path file) throws Exception {
        Answers answers = AnswersFile.load(file, target -> Optional.empty());
        List<GivenAnswer> given = answers.readings();
        return request -> given.stream()
                .filter(answer -> answer.trial().equals(request.key().trial())
                        && answer.axis().equals(request.key().axis())
                        && answer.name().equals(request.name()))
                .findFirst()
                .map(answer -> Readings.Pending.at(
                        new Readings.Answer(answer.value(), answer.temperature(), "nobody", "invented")))
                .orElseGet(() -> Readings.NONE.ask(request));
    }

    private static void copy(Path from, Path to) throws IOException {
        try (Stream<Path> files = Files.walk(from)) {
            files.filter(Files::isRegularFile).forEach(file -> {
                Path target = to.resolve(from.relativize(file).toString());
                try {
                    Files.createDirectories(target.getParent());
                    Files.copy(file, target);
                } catch (IOException e) {
                    throw new UncheckedIOException(e);
                }
            });
        }
    }
}
