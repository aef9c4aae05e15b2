package org.axtrial.site;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import org.axtrial.registers.DriveDescription;

/** The drive descriptions of one site, each read once however many axes use it. */
final class DriveShelf {

    private final YamlDocument site;
    private final Map<Path, Optional<DriveDescription>> read = new HashMap<>();

    DriveShelf(YamlDocument site) {
        this.site = site;
    }

    /** The file that an axis names; told at the axis if it is not there. */
    Optional<Path> file(YamlMap axis) {
        return axis.text("drive").flatMap(text -> {
            Optional<Path> file = SiteFile.beside(site.file(), text).filter(Files::isRegularFile);
            if (file.isEmpty()) {
                axis.problem(
                        "drive",
                        "there is no drive description \"" + text + "\"; paths count from the folder of"
                                + " this file");
            }
            return file;
        });
    }

    Optional<DriveDescription> description(Path file) {
        return read.computeIfAbsent(file, path -> DriveReader.read(path, site.problems()));
    }
}
