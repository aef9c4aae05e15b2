package org.axtrial.report;

import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import org.axtrial.evidence.EvidencePack;
import org.axtrial.evidence.RunInfo;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.SampleRun;

/** A pack of the invented run with its report, on disk. */
final class SamplePack {

    private SamplePack() {}

    static Path write(Path reports, RunInfo.Mode mode) {
        EvidencePack pack = EvidencePack.create(
                reports, SampleRun.RUN_ID, List.of(new EvidencePack.SourceFile("site.yaml", Path.of("pom.xml"))));
        SampleRun.full(mode, Instant.parse("2031-03-04T10:11:12Z")).forEach(pack::accept);
        RunRecord record = pack.finish();
        HtmlReport.write(pack.folder(), record);
        return pack.folder();
    }

    /** A pack of three axes with so many trials each, without its reports. */
    static Path large(Path reports, int trials) {
        EvidencePack pack = EvidencePack.create(
                reports, SampleRun.RUN_ID, List.of(new EvidencePack.SourceFile("site.yaml", Path.of("pom.xml"))));
        SampleRun.large(RunInfo.Mode.REHEARSAL, trials).forEach(pack::accept);
        RunRecord unused = pack.finish();
        return pack.folder();
    }

    /** For a look at the page: writes a pack into the folder that is named. */
    public static void main(String[] arguments) {
        write(Path.of(arguments[0]), RunInfo.Mode.valueOf(arguments[1]));
    }
}
