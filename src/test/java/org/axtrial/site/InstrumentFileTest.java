package org.axtrial.site;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.OptionalDouble;
import org.axtrial.measure.Instrument;
import org.axtrial.quantity.Unit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class InstrumentFileTest {

    static final String INSTRUMENTS = """
            instruments:
              - id: IND-1
                type: dial indicator (invented)
                serial: "0417"
                certificate: K-118
                calibrated: 2026-03-02
                due: 2027-03-02
                resolution: 1 um
                uncertainty: { expanded: 0.002 mm, k: 2 }
              - id: SCALE-1
                type: linear scale (invented)
                serial: "7"
                certificate: K-119
                calibrated: 2026-03-02
                due: 2027-03-02
                resolution: 0.01 mm
                uncertainty: { standard: 3 um }
                temperatureCoefficient: 11.5
            """;

    @TempDir
    Path folder;

    private SiteBench bench() {
        return new SiteBench(folder).site("job:", INSTRUMENTS + "job:");
    }

    @Test
    void instrumentsAreReadInTheUnitOfTheirResolution() throws Exception {
        Site site = bench().load();

        Instrument indicator = site.instruments().get(0);
        assertThat(indicator)
                .isEqualTo(new Instrument(
                        "IND-1",
                        "dial indicator (invented)",
                        "0417",
                        "K-118",
                        LocalDate.of(2026, 3, 2),
                        LocalDate.of(2027, 3, 2),
                        Unit.MICROMETRE,
                        1,
                        2,
                        2,
                        OptionalDouble.empty()));
        Instrument scale = site.instruments().get(1);
        assertThat(scale.coverageFactor()).isEqualTo(1);
        assertThat(scale.uncertainty()).isCloseTo(0.003, within(1e-12));
        assertThat(scale.temperatureCoefficient().orElseThrow()).isCloseTo(11.5e-6, within(1e-18));
    }

    @Test
    void aSiteNeedsNoInstrument() throws Exception {
        assertThat(new SiteBench(folder).load().instruments()).isEmpty();
    }

    @Test
    void everythingWrongIsToldAtOnceWithItsPlace() {
        assertThat(bench().site("calibrated: 2026-03-02", "calibrated: 02.03.2026")
                        .site("due: 2027-03-02", "due: 2027-02-30")
                        .site("resolution: 1 um", "resolution: 1 mn")
                        .site("{ expanded: 0.002 mm, k: 2 }", "{ expanded: 0.002 mm }")
                        .site("id: SCALE-1", "id: IND-1")
                        .site("resolution: 0.01 mm", "resolution: 0 mm")
                        .site("{ standard: 3 um }", "{ standard: 3 um, expanded: 6 um, k: 2 }")
                        .problems())
                .satisfiesExactly(
                        p -> assertThat(p)
                                .contains("site.yaml:6:17: instruments[0].calibrated: expected a day such as"),
                        p -> assertThat(p).contains("site.yaml:7:10: instruments[0].due: expected a day", "2027-02-30"),
                        p -> assertThat(p).contains("instruments[0].resolution: unknown unit \"mn\"", "mm"),
                        p -> assertThat(p).contains("instruments[0].uncertainty: an expanded uncertainty needs the k"),
                        p -> assertThat(p).contains("instruments[1].id: the id IND-1 is taken by instruments[0]"),
                        p -> assertThat(p).contains("instruments[1].resolution: expected more than 0"),
                        p -> assertThat(p)
                                .contains("instruments[1].uncertainty: expected either expanded with its k, or"));
    }

    @Test
    void datesAndKindsMustAgree() {
        assertThat(bench().site("due: 2027-03-02", "due: 2026-03-01")
                        .site("0.002 mm, k: 2", "0.002 deg, k: 2")
                        .site("resolution: 0.01 mm", "resolution: 0.01 deg")
                        .site("standard: 3 um", "standard: 0.01 deg")
                        .problems())
                .satisfiesExactly(
                        p -> assertThat(p)
                                .contains("instruments[0].due: due on 2026-03-01, before it was calibrated on"
                                        + " 2026-03-02"),
                        p -> assertThat(p).contains("instruments[0].uncertainty: it is an angle", "is a length"),
                        p -> assertThat(p)
                                .contains("instruments[1].temperatureCoefficient: only the readings of a length"));
    }

    @Test
    void aMisspeltKeyAndAMissingOneAreTold() {
        assertThat(bench().site("certificate: K-118", "certifikate: K-118")
                        .site("    serial: \"7\"\n", "")
                        .problems())
                .satisfiesExactly(
                        p -> assertThat(p).contains("unknown key; did you mean \"certificate\"?"),
                        p -> assertThat(p).contains("instruments[1].serial: missing: Serial number"));
    }
}
