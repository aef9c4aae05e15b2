package org.axtrial.site;

import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** Writes site files and drive descriptions that are right but for what a test changes, and loads them. */
final class SiteBench {

    static final String SITE = """
            job: { id: J-1, title: Test }
            axes:
              - name: TABLE
                drive: drive.yaml
                endpoint: { host: 192.0.2.1 }
                scale: { countsPerRevolution: 65536 }
                envelope:
                  travel: ["-2 rev", "2 rev"]
                  speed: 600 rpm
                  acceleration: 3000 rpm/s
              - name: SLIDE
                drive: drive.yaml
                endpoint: { host: 192.0.2.2 }
                scale: { countsPerRevolution: 65536, lead: 10 mm }
                envelope:
                  travel: ["-10 mm", "300 mm"]
                  speed: 100 mm/s
                  acceleration: 1000 mm/s2
                simulate:
                  motor: { ratedTorque: 2 Nm, inertia: 3 kgcm2, maxSpeed: 3000 rpm }
                  load: { mass: 10 kg }
            target: simulated
            """;

    static final String DRIVE = """
            type: Invented
            style: direct
            wordOrder: high-first
            signals:
              position: { address: 0, type: int32, unit: count }
              speed: { address: 2, type: int32, unit: rpm }
              torque: { address: 4, type: int16, unit: "%" }
              status: { address: 5, type: uint16 }
              faultCode: { address: 6, type: uint16 }
              command: { address: 20, type: uint16, access: write }
              relativeMove: { address: 21, type: int32, unit: count, access: write }
              absoluteMove: { address: 23, type: int32, unit: count, access: write }
              speedCommand: { address: 25, type: int32, unit: rpm, access: write }
              profileSpeed: { address: 27, type: uint32, unit: rpm, access: write }
              profileAcceleration: { address: 29, type: uint32, unit: rpm/s, access: write }
            statusBits: { ready: 0, enabled: 1, fault: 2, moving: 3, inPosition: 4 }
            commands: { enable: 1, disable: 2, stop: 3, resetFault: 4 }
            identity:
              model: { address: 100, type: uint32, expected: 0x12345678 }
            parameters:
              watchdogTime: { address: 110, type: uint16, unit: ms }
            """;

    private final Path folder;
    private String site = SITE;
    private String drive = DRIVE;

    SiteBench(Path folder) {
        this.folder = folder;
    }

    SiteBench site(String from, String to) {
        site = replace(site, from, to);
        return this;
    }

    SiteBench drive(String from, String to) {
        drive = replace(drive, from, to);
        return this;
    }

    private static String replace(String text, String from, String to) {
        if (!text.contains(from)) {
            throw new IllegalArgumentException("the text to change is not there: " + from);
        }
        int at = text.indexOf(from);
        return text.substring(0, at) + to + text.substring(at + from.length());
    }

    Path write() {
        try {
            Files.writeString(folder.resolve("drive.yaml"), drive);
            return Files.writeString(folder.resolve("site.yaml"), site);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    Site load() throws SiteProblemsException {
        return SiteFile.load(write());
    }

    /** The problems of a load that must fail, with paths short: {@code site.yaml:5:7: …}. */
    List<String> problems() {
        return problems(write());
    }

    List<String> problems(Path file) {
        List<String> told = new ArrayList<>();
        assertThatThrownBy(() -> SiteFile.load(file))
                .isInstanceOfSatisfying(
                        SiteProblemsException.class,
                        e -> e.problems()
                                .forEach(problem -> told.add(problem.toString().replace(folder + "/", ""))));
        return told;
    }
}
