package org.axtrial.site;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Each kind of problem in a site file, with the exact text that is told. */
class SiteProblemsTest {

    @TempDir
    Path folder;

    @Test
    void misspeltKeyIsToldOnceWithTheNearMiss() {
        assertThat(new SiteBench(folder).site("speed: 600 rpm", "sped: 600 rpm").problems())
                .containsExactly(
                        "site.yaml:9:7: axes[0].envelope.sped: unknown key; did you mean \"speed\"? known here: travel, speed, acceleration, torque, time");
    }

    @Test
    void strangeKeyIsToldWithTheKnownOnes() {
        assertThat(new SiteBench(folder)
                        .site("speed: 600 rpm", "speed: 600 rpm\n      colour: red")
                        .problems())
                .containsExactly(
                        "site.yaml:10:7: axes[0].envelope.colour: unknown key; known here: travel, speed, acceleration, torque, time");
    }

    @Test
    void missingKeyIsToldWithItsMeaningAndAnExample() {
        assertThat(new SiteBench(folder).site("id: J-1, ", "").problems())
                .containsExactly(
                        "site.yaml:1:1: job.id: missing: Job number, as both parties know it, for example \"J-0417\"");
    }

    @Test
    void numberWithoutUnit() {
        assertThat(new SiteBench(folder).site("speed: 600 rpm", "speed: 600").problems())
                .containsExactly(
                        "site.yaml:9:14: axes[0].envelope.speed: expected a value with its unit, such as \"500 mm/s\", found 600");
    }

    @Test
    void decimalCommaBetweenBraces() {
        assertThat(new SiteBench(folder).site("id: J-1, ", "id: J-1, 3 Nm, ").problems())
                .containsExactly(
                        "site.yaml:1:17: job.3 Nm: unknown key; if the comma before it is a decimal comma, write a point, such as 2.4 Nm");
    }

    @Test
    void keyWithoutValue() {
        assertThat(new SiteBench(folder).site("speed: 600 rpm", "speed:").problems())
                .containsExactly(
                        "site.yaml:9:13: axes[0].envelope.speed: expected a value with its unit, such as \"500 mm/s\", found nothing");
    }

    @Test
    void numberWhereTextIsWanted() {
        assertThat(new SiteBench(folder).site("id: J-1", "id: 17").problems())
                .containsExactly("site.yaml:1:12: job.id: expected text in quotes, such as \"J-0417\", found 17");
    }

    @Test
    void emptyText() {
        assertThat(new SiteBench(folder).site("id: J-1", "id: \"\"").problems())
                .containsExactly("site.yaml:1:12: job.id: expected some text, found \"\"");
    }

    @Test
    void wordThatIsNoTruthValue() {
        assertThat(new SiteBench(folder).site("axes:", "parallel: yes\naxes:").problems())
                .containsExactly("site.yaml:2:11: parallel: expected true or false, found \"yes\"");
    }

    @Test
    void unknownDecisionRule() {
        assertThat(new SiteBench(folder)
                        .site("axes:", "decisionRule: guarded\naxes:")
                        .problems())
                .containsExactly(
                        "site.yaml:2:15: decisionRule: expected simple or guard band or non-binary, found \"guarded\"");
    }

    @Test
    void guardBandThatNoRuleUses() {
        assertThat(new SiteBench(folder)
                        .site("axes:", "guardBandFactor: 1\naxes:")
                        .problems())
                .containsExactly("site.yaml:2:18: guardBandFactor: simple acceptance has no guard band; take this line"
                        + " out, or write decisionRule: guard band");
    }

    @Test
    void guardBandOfNoWidth() {
        assertThat(new SiteBench(folder)
                        .site("axes:", "decisionRule: guard band\nguardBandFactor: 0\naxes:")
                        .problems())
                .containsExactly("site.yaml:3:18: guardBandFactor: expected 0.1 … 5, found 0");
    }

    @Test
    void wordInsteadOfAQuantity() {
        assertThat(new SiteBench(folder).site("speed: 600 rpm", "speed: fast").problems())
                .containsExactly(
                        "site.yaml:9:14: axes[0].envelope.speed: expected a speed such as \"100 mm/s\", found \"fast\"");
    }

    @Test
    void unknownUnitWithNearMiss() {
        assertThat(new SiteBench(folder)
                        .site("speed: 600 rpm", "speed: 600 rmp")
                        .problems())
                .containsExactly(
                        "site.yaml:9:14: axes[0].envelope.speed: unknown unit \"rmp\" in \"600 rmp\"; did you mean \"rpm\"? expected a speed, in rpm, rev/s, deg/s, rad/s, count/s");
    }

    @Test
    void unknownUnitWithoutNearMiss() {
        assertThat(new SiteBench(folder)
                        .site("speed: 600 rpm", "speed: 600 furlongs")
                        .problems())
                .containsExactly(
                        "site.yaml:9:14: axes[0].envelope.speed: unknown unit \"furlongs\" in \"600 furlongs\"; expected a speed, in rpm, rev/s, deg/s, rad/s, count/s");
    }

    @Test
    void wrongDimension() {
        assertThat(new SiteBench(folder).site("speed: 600 rpm", "speed: 600 ms").problems())
                .containsExactly(
                        "site.yaml:9:14: axes[0].envelope.speed: \"600 ms\" is a time; expected a speed, in rpm, rev/s, deg/s, rad/s, count/s");
    }

    @Test
    void millimetresOnARotaryAxis() {
        assertThat(new SiteBench(folder)
                        .site("speed: 600 rpm", "speed: 600 mm/s")
                        .problems())
                .containsExactly(
                        "site.yaml:9:14: axes[0].envelope.speed: \"600 mm/s\" is a linear speed, but axis TABLE is rotary: use rpm, rev/s, deg/s, rad/s, count/s, or give scale.lead if it travels");
    }

    @Test
    void valueBeyondAnyNumber() {
        assertThat(new SiteBench(folder)
                        .site("speed: 600 rpm", "speed: 1e999 rpm")
                        .problems())
                .containsExactly(
                        "site.yaml:9:14: axes[0].envelope.speed: expected a finite value, found \"1e999 rpm\"");
    }

    @Test
    void negativeSpeed() {
        assertThat(new SiteBench(folder)
                        .site("speed: 600 rpm", "speed: -600 rpm")
                        .problems())
                .containsExactly("site.yaml:9:14: axes[0].envelope.speed: expected more than 0, found \"-600 rpm\"");
    }

    @Test
    void negativeMass() {
        assertThat(new SiteBench(folder).site("mass: 10 kg", "mass: -1 kg").problems())
                .containsExactly("site.yaml:21:21: axes[1].simulate.load.mass: expected 0 or more, found \"-1 kg\"");
    }

    @Test
    void forgottenLeadIsToldOnce() {
        assertThat(new SiteBench(folder).site(", lead: 10 mm", "").problems())
                .containsExactly(
                        "site.yaml:14:5: axes[1].scale.lead: missing: axis SLIDE tells positions in mm, so it needs the travel in one turn of the screw or pulley, for example \"10 mm\"");
    }

    @Test
    void positionUnitThatIsNoPosition() {
        assertThat(new SiteBench(folder)
                        .site(
                                "scale: { countsPerRevolution: 65536 }",
                                "scale: { countsPerRevolution: 65536 }\n    unit: rpm")
                        .problems())
                .containsExactly(
                        "site.yaml:7:11: axes[0].unit: axis TABLE is rotary: expected a position or distance in rev, deg, arcmin, arcsec, rad, count, found \"rpm\"");
    }

    @Test
    void misspeltPositionUnit() {
        assertThat(new SiteBench(folder)
                        .site(
                                "scale: { countsPerRevolution: 65536 }",
                                "scale: { countsPerRevolution: 65536 }\n    unit: dge")
                        .problems())
                .containsExactly(
                        "site.yaml:7:11: axes[0].unit: unknown unit \"dge\"; did you mean \"deg\"? known: rev, deg, arcmin, arcsec, rad, count");
    }

    @Test
    void travelThatDoesNotGrow() {
        assertThat(new SiteBench(folder)
                        .site("\"-2 rev\", \"2 rev\"", "\"2 rev\", \"-2 rev\"")
                        .problems())
                .containsExactly(
                        "site.yaml:8:15: axes[0].envelope.travel: expected the lowest position first, then a higher one; found [\"2 rev\", \"-2 rev\"]");
    }

    @Test
    void travelWithoutZero() {
        assertThat(new SiteBench(folder)
                        .site("\"-2 rev\", \"2 rev\"", "\"1 rev\", \"2 rev\"")
                        .problems())
                .containsExactly(
                        "site.yaml:8:15: axes[0].envelope.travel: expected zero between the two, because positions count from where the axis stands when the run begins; found [\"1 rev\", \"2 rev\"]");
    }

    @Test
    void travelWithOneEnd() {
        assertThat(new SiteBench(folder)
                        .site("\"-2 rev\", \"2 rev\"", "\"2 rev\"")
                        .problems())
                .containsExactly("site.yaml:8:15: axes[0].envelope.travel: expected 2 entries, found 1");
    }

    @Test
    void noAxes() throws IOException {
        Path file = Files.writeString(folder.resolve("site.yaml"), "job: { id: J-1, title: Test }\naxes: []\n");

        assertThat(new SiteBench(folder).problems(file))
                .containsExactly("site.yaml:2:7: axes: expected at least 1 entry, found 0");
    }

    @Test
    void defaultSpeedBeyondTheEnvelope() {
        assertThat(new SiteBench(folder)
                        .site(
                                "scale: { countsPerRevolution: 65536 }",
                                "scale: { countsPerRevolution: 65536 }\n    speed: 15 rev/s")
                        .problems())
                .containsExactly("site.yaml:7:12: axes[0].speed: \"15 rev/s\" is beyond envelope.speed, \"600 rpm\"");
    }

    @Test
    void samplePeriodOutOfRange() {
        assertThat(new SiteBench(folder)
                        .site(
                                "scale: { countsPerRevolution: 65536 }",
                                "scale: { countsPerRevolution: 65536 }\n    samplePeriod: 2 s")
                        .problems())
                .containsExactly("site.yaml:7:19: axes[0].samplePeriod: expected 1 ms … 1 s, found \"2 s\"");
    }

    @Test
    void linkDeadlineOutOfRange() {
        assertThat(new SiteBench(folder)
                        .site(
                                "scale: { countsPerRevolution: 65536 }",
                                "scale: { countsPerRevolution: 65536 }\n    linkDeadline: 5 ms")
                        .problems())
                .containsExactly("site.yaml:7:19: axes[0].linkDeadline: expected 10 ms … 60 s, found \"5 ms\"");
    }

    @Test
    void standstillShorterThanTwoSamples() {
        assertThat(new SiteBench(folder)
                        .site(
                                "scale: { countsPerRevolution: 65536 }",
                                "scale: { countsPerRevolution: 65536 }\n    standstill: { time: 10 ms }")
                        .problems())
                .containsExactly(
                        "site.yaml:7:25: axes[0].standstill.time: expected at least two sample periods, 20 ms, found \"10 ms\"");
    }

    @Test
    void stopTimeShorterThanTheRamp() {
        assertThat(new SiteBench(folder)
                        .site(
                                "scale: { countsPerRevolution: 65536 }",
                                "scale: { countsPerRevolution: 65536 }\n    stopTime: 100 ms")
                        .problems())
                .containsExactly(
                        "site.yaml:7:15: axes[0].stopTime: from envelope.speed the axis needs 500 ms to stop at its default acceleration and to prove standstill; found \"100 ms\"");
    }

    @Test
    void portOutOfRange() {
        assertThat(new SiteBench(folder)
                        .site("host: 192.0.2.2", "host: 192.0.2.2, port: 70000")
                        .problems())
                .containsExactly("site.yaml:13:40: axes[1].endpoint.port: expected 1 … 65535, found 70000");
    }

    @Test
    void twoAxesOnOneDrive() {
        assertThat(new SiteBench(folder)
                        .site("host: 192.0.2.2", "host: 192.0.2.1")
                        .problems())
                .containsExactly(
                        "site.yaml:13:15: axes[1].endpoint: the endpoint 192.0.2.1:502 unit 255 is taken by axes[0]");
    }

    @Test
    void twoAxesOfOneName() {
        assertThat(new SiteBench(folder).site("SLIDE", "TABLE").problems())
                .containsExactly("site.yaml:11:11: axes[1].name: the name TABLE is taken by axes[0]");
    }

    @Test
    void axisNameThatIsNoWord() {
        assertThat(new SiteBench(folder).site("SLIDE", "9 axes").problems())
                .containsExactly(
                        "site.yaml:11:11: axes[1].name: expected a letter, then up to 31 letters, digits, _ or -, found \"9 axes\"");
    }

    @Test
    void driveDescriptionThatIsNotThere() {
        assertThat(new SiteBench(folder)
                        .site("drive: drive.yaml", "drive: driv.yaml")
                        .problems())
                .containsExactly(
                        "site.yaml:4:12: axes[0].drive: there is no drive description \"driv.yaml\"; paths count from the folder of this file");
    }

    @Test
    void scriptsThatAreNotThereOrTwice() {
        assertThat(new SiteBench(folder)
                        .site("axes:", "scripts: [a.js, a.js]\naxes:")
                        .problems())
                .containsExactly(
                        "site.yaml:2:11: scripts[0]: there is no script \"a.js\" in the folder of this file",
                        "site.yaml:2:17: scripts[1]: there is no script \"a.js\" in the folder of this file");
    }

    @Test
    void inertiaOnALinearAxis() {
        assertThat(new SiteBench(folder).site("mass: 10 kg", "inertia: 10 kgm2").problems())
                .containsExactly(
                        "site.yaml:21:7: axes[1].simulate.load.mass: missing: axis SLIDE is linear and needs the mass it moves",
                        "site.yaml:21:15: axes[1].simulate.load.inertia: axis SLIDE is linear: its load is told by mass");
    }

    @Test
    void gravityWithoutAWordOnTorqueAfterTheTrial() {
        assertThat(new SiteBench(folder)
                        .site("mass: 10 kg", "mass: 10 kg, gravity: -98 N")
                        .problems())
                .containsExactly(
                        "site.yaml:11:5: axes[1].afterTrial: missing: gravity pulls at axis SLIDE, so say hold (the motor keeps carrying the load) or disable (only if a brake holds it)");
    }

    @Test
    void envelopeBeyondTheSimulatedMotor() {
        assertThat(new SiteBench(folder)
                        .site("speed: 100 mm/s", "speed: 600 mm/s")
                        .problems())
                .containsExactly(
                        "site.yaml:17:14: axes[1].envelope.speed: \"600 mm/s\" needs 3600 rpm at the motor shaft, but simulate.motor.maxSpeed is 3000 rpm");
    }

    @Test
    void shareAboveTheWhole() {
        assertThat(new SiteBench(folder)
                        .site(
                                "load: { mass: 10 kg }",
                                "load: { mass: 10 kg }\n      loops: { speedFeedForward: 120 % }")
                        .problems())
                .containsExactly(
                        "site.yaml:22:34: axes[1].simulate.loops.speedFeedForward: expected 0 % … 100 %, found \"120 %\"");
    }

    @Test
    void gainInHertz() {
        assertThat(new SiteBench(folder)
                        .site("load: { mass: 10 kg }", "load: { mass: 10 kg }\n      loops: { positionGain: 80 Hz }")
                        .problems())
                .containsExactly(
                        "site.yaml:22:30: axes[1].simulate.loops.positionGain: \"80 Hz\" is a frequency; expected a gain, in 1/s");
    }

    @Test
    void longestReplyBelowTheShortest() {
        assertThat(new SiteBench(folder)
                        .site("load: { mass: 10 kg }", "load: { mass: 10 kg }\n      wire: { longestReply: 100 us }")
                        .problems())
                .containsExactly(
                        "site.yaml:22:29: axes[1].simulate.wire.longestReply: expected at least shortestReply, 500 us, found \"100 us\"");
    }

    @Test
    void startBetweenCounts() {
        assertThat(new SiteBench(folder)
                        .site("load: { mass: 10 kg }", "load: { mass: 10 kg }\n      feedback: { start: 1.5 count }")
                        .problems())
                .containsExactly(
                        "site.yaml:22:26: axes[1].simulate.feedback.start: expected a whole number of counts, found \"1.5 count\"");
    }

    @Test
    void switchesInTheWrongOrder() {
        assertThat(new SiteBench(folder)
                        .site(
                                "load: { mass: 10 kg }",
                                "load: { mass: 10 kg }\n      reference: { negativeLimit: 5 mm, positiveLimit: 5 mm,"
                                        + " homeFrom: 3 mm, homeTo: -3 mm }")
                        .problems())
                .containsExactly(
                        "site.yaml:22:56: axes[1].simulate.reference.positiveLimit: expected more than negativeLimit, found \"5 mm\"",
                        "site.yaml:22:86: axes[1].simulate.reference.homeTo: expected more than homeFrom, found \"-3 mm\"");
    }

    @Test
    void integralTimeWithoutGain() {
        assertThat(new SiteBench(folder)
                        .site(
                                "load: { mass: 10 kg }",
                                "load: { mass: 10 kg }\n      loops: { speedIntegralTime: 6 ms }")
                        .problems())
                .containsExactly(
                        "site.yaml:22:7: axes[1].simulate.loops.speedGain: missing: speedIntegralTime alone does not tell how the speed loop is tuned");
    }
}
