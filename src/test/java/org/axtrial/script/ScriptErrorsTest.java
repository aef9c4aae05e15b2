package org.axtrial.script;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.axtrial.evidence.RunEvent;
import org.axtrial.evidence.ScriptPlace;
import org.axtrial.measure.Verdict;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Every kind of mistake ends its trial as ERROR and names the place; the texts are what a user reads. */
@Timeout(60)
class ScriptErrorsTest {

    @TempDir
    Path folder;

    /**
     * A mistake inside a trial, whose function begins in line 3 of the script.
     *
     * @param body lines of the trial function
     * @param line one-based line in the script
     * @param column one-based
     * @param message the whole message
     */
    record Mistake(String body, int line, int column, String message) {

        @Override
        public String toString() {
            return body;
        }
    }

    @ParameterizedTest
    @MethodSource("inATrial")
    void mistakeInATrial(Mistake mistake) {
        ScriptBench bench = new ScriptBench(folder);
        TrialOutcome outcome = bench.run(ScriptBench.trial(mistake.body));

        RunEvent.TrialBroken broken = bench.broken();
        assertThat(broken.message()).isEqualTo(mistake.message);
        String text = mistake.body.split("\n", -1)[mistake.line - 3].strip();
        assertThat(broken.place()).contains(new ScriptPlace("t.js", mistake.line, mistake.column, text));
        assertThat(outcome.verdict()).isEqualTo(Verdict.ERROR);
        assertThat(outcome.reason()).isEqualTo(mistake.message + " [t.js:" + mistake.line + ":" + mistake.column + "]");
        assertThat(bench.axis.log()).noneMatch(line -> line.contains("NaN")).endsWith("endTrial");
    }

    static List<Mistake> inATrial() {
        return List.of(
                new Mistake("axis.movBy(1, 'rev');", 3, 1, "an axis has no word \"movBy\"; did you mean \"moveBy\"?"),
                new Mistake(
                        "const out = axis.moveBy(1, 'rev');\nt.check('x', out.settlingg(), atMost(1, 's'));",
                        4,
                        14,
                        "the result of moveBy has no word \"settlingg\"; did you mean \"settling\"?"),
                new Mistake(
                        "axis.moveBy(1, 'furlong');",
                        3,
                        1,
                        "moveBy: unknown unit \"furlong\"; known: rev, deg, arcmin, arcsec, rad, m, mm, um, count, rpm, rev/s, deg/s, rad/s, m/s, m/min, mm/s, mm/min, count/s, rev/s2, rpm/s, deg/s2, rad/s2, m/s2, mm/s2, count/s2, rev/s3, rpm/s2, m/s3, mm/s3, count/s3, min, s, ms, us, Nm, mNm, %, permille, degC, kgm2, kgcm2, kg, N, N/m, N/mm, Ns/m, Ns/mm, Nms/rad, Nm/rad, Hz, 1/s, V, A, 1"),
                new Mistake("axis.moveBy(1, 'Deg');", 3, 1, "moveBy: unknown unit \"Deg\"; did you mean \"deg\"?"),
                new Mistake(
                        "axis.moveBy(1, 'rpm');",
                        3,
                        1,
                        "moveBy: the distance needs a unit of distance such as rev, deg, arcmin, arcsec, rad, m, mm, um, count, but \"rpm\" is a unit of speed"),
                new Mistake(
                        "axis.moveBy(1, 'mm');",
                        3,
                        1,
                        "moveBy: distance: this axis is rotary and has no lead, so mm means nothing on it; use deg, rev or count"),
                new Mistake(
                        "axis.moveBy(1);",
                        3,
                        1,
                        "moveBy: the distance 1 has no unit; write axis.moveBy(1, \"rev\", { speed: [300, \"rpm\"] })"),
                new Mistake(
                        "axis.moveBy();",
                        3,
                        1,
                        "moveBy takes 1 to 3 arguments but got 0; write axis.moveBy(1, \"rev\", { speed: [300, \"rpm\"] })"),
                new Mistake(
                        "axis.moveBy('1', 'rev');",
                        3,
                        1,
                        "moveBy: the distance must be a number but is \"1\"; write axis.moveBy(1, \"rev\", { speed: [300, \"rpm\"] })"),
                new Mistake(
                        "axis.moveBy(undefined, 'rev');",
                        3,
                        1,
                        "moveBy: the distance must be a number but is undefined; write axis.moveBy(1, \"rev\", { speed: [300, \"rpm\"] })"),
                new Mistake(
                        "axis.moveBy(0 / 0, 'rev');",
                        3,
                        1,
                        "moveBy: the distance is NaN; check the computation that it comes from"),
                new Mistake(
                        "axis.moveBy(1 / 0, 'rev');",
                        3,
                        1,
                        "moveBy: the distance is Infinity; check the computation that it comes from"),
                new Mistake(
                        "axis.moveBy(null, 'rev');",
                        3,
                        1,
                        "moveBy: the distance must be a number but is null; write axis.moveBy(1, \"rev\", { speed: [300, \"rpm\"] })"),
                new Mistake(
                        "axis.moveBy(1, 60);",
                        3,
                        1,
                        "moveBy: the distance needs a unit in quotes, such as \"mm\", but got 60; write axis.moveBy(1, \"rev\", { speed: [300, \"rpm\"] })"),
                new Mistake(
                        "axis.moveBy(0, 'rev');",
                        3,
                        1,
                        "moveBy: the distance is 0, which moves nothing; use axis.dwell(…) to wait"),
                new Mistake(
                        "axis.moveBy(1, 'rev', { sped: [1, 'rpm'] });",
                        3,
                        1,
                        "moveBy has no option \"sped\"; did you mean \"speed\"?"),
                new Mistake(
                        "axis.moveBy(1, 'rev', { speed: 300 });",
                        3,
                        1,
                        "moveBy: option speed must be a value and a unit in brackets, such as [300, \"rpm\"], but is 300"),
                new Mistake(
                        "axis.moveBy(1, 'rev', { speed: undefined });",
                        3,
                        1,
                        "moveBy: option speed is undefined; give a value or leave the option out"),
                new Mistake(
                        "axis.moveBy(1, 'rev', { speed: [-3, 'rpm'] });",
                        3,
                        1,
                        "moveBy: option speed must be more than 0, got -3 rpm"),
                new Mistake(
                        "axis.moveBy(1, 'rev', { speed: [3, 'rev'] });",
                        3,
                        1,
                        "moveBy: the option speed needs a unit of speed such as rpm, rev/s, deg/s, rad/s, m/s, m/min, mm/s, mm/min, count/s, but \"rev\" is a unit of distance"),
                new Mistake(
                        "axis.moveBy(1, 'rev', { acceleration: [3, 'rpm'] });",
                        3,
                        1,
                        "moveBy: the option acceleration needs a unit of acceleration such as rev/s2, rpm/s, deg/s2, rad/s2, m/s2, mm/s2, count/s2, but \"rpm\" is a unit of speed"),
                new Mistake(
                        "axis.moveBy(1, 'rev', { settle: [3, 'rev'] });",
                        3,
                        1,
                        "moveBy: option settle needs a unit of time such as s or ms, but \"rev\" is a unit of distance"),
                new Mistake(
                        "axis.moveBy(1, 'rev', [3, 'rpm']);",
                        3,
                        1,
                        "moveBy: the options must be in braces but are a list of 2; write axis.moveBy(1, \"rev\", { speed: [300, \"rpm\"] })"),
                new Mistake(
                        "axis.moveBy(1, 'rev', {}, 2);",
                        3,
                        1,
                        "moveBy takes 1 to 3 arguments but got 4; write axis.moveBy(1, \"rev\", { speed: [300, \"rpm\"] })"),
                new Mistake(
                        "axis.holdSpeed(600, 'rpm');",
                        3,
                        1,
                        "holdSpeed: option for is missing; write axis.holdSpeed(600, \"rpm\", { for: [5, \"s\"] })"),
                new Mistake(
                        "axis.holdSpeed(0, 'rpm', { for: [1, 's'] });",
                        3,
                        1,
                        "holdSpeed: the speed is 0; use axis.dwell(…) to watch a standing axis"),
                new Mistake(
                        "axis.holdSpeed(6, 'rpm', { for: [0, 's'] });",
                        3,
                        1,
                        "holdSpeed: option for must be more than 0 and at most a week, got 0 s"),
                new Mistake(
                        "axis.dwell(2, 'mm');",
                        3,
                        1,
                        "dwell: the time needs a unit of time such as s or ms, but \"mm\" is a unit of distance"),
                new Mistake(
                        "axis.position();", 3, 1, "position takes 1 argument but got 0; write axis.position(\"mm\")"),
                new Mistake(
                        "axis.read('temprature');", 3, 1, "the drive has no signal \"temprature\"; it has temperature"),
                new Mistake(
                        "axis.speed = 5;",
                        3,
                        1,
                        "a script cannot change an axis: \"speed\" was assigned; keep the value in a variable"),
                new Mistake("delete axis.name;", 3, 1, "a script cannot change an axis: \"name\" was deleted"),
                new Mistake(
                        "const { moveby } = axis;", 3, 9, "an axis has no word \"moveby\"; did you mean \"moveBy\"?"),
                new Mistake(
                        "new axis.moveBy(1, 'rev');", 3, 1, "\"new\" does not belong here; call the word without it"),
                new Mistake(
                        "axis();",
                        3,
                        1,
                        "this cannot be called; only words such as axis.moveBy(…) are followed by parentheses"),
                new Mistake(
                        "if (axis.moveBy(1, 'rev').travel() > 5) {}",
                        3,
                        5,
                        "the measurement \"position change\" cannot be compared or computed with; write .value(\"rev\") to take its number"),
                new Mistake(
                        "axis.moveBy(1, 'rev').travel() + 1;",
                        3,
                        1,
                        "the measurement \"position change\" cannot be compared or computed with; write .value(\"rev\") to take its number"),
                new Mistake(
                        "axis + 1;",
                        3,
                        1,
                        "an axis cannot be compared or computed with; write axis.position(\"rev\") to take its position"),
                new Mistake(
                        "axis.moveBy(1, 'rev').travel().value('s');",
                        3,
                        1,
                        "position change is in rev, a unit of distance, and cannot be told in s: cannot convert rev into s"),
                new Mistake(
                        "axis.moveBy(1, 'rev').travel().value();",
                        3,
                        1,
                        "value takes 1 argument but got 0; write value(\"mm\")"),
                new Mistake(
                        "axis.moveBy(1, 'rev').settling();",
                        3,
                        1,
                        "settling: option window is missing; write settling({ window: [10, \"count\"], from: \"command\" })"),
                new Mistake(
                        "axis.moveBy(1, 'rev').settling({ window: [1, 'deg'], from: 'start' });",
                        3,
                        1,
                        "settling: option from is \"start\"; it is \"command\" or \"profile end\""),
                new Mistake(
                        "axis.moveBy(1, 'rev').meanSpeed();",
                        3,
                        1,
                        "meanSpeed() needs a time of steady speed, which moveBy does not have; use it on the result of axis.holdSpeed(…)"),
                new Mistake(
                        "axis.moveBy(1, 'rev').drift();",
                        3,
                        1,
                        "drift() needs a standing axis; use it on the result of axis.dwell(…)"),
                new Mistake(
                        "axis.dwell(1, 's').overshoot();",
                        3,
                        1,
                        "overshoot() needs a target position, which dwell does not have; use it on the result of moveBy or moveTo"),
                new Mistake(
                        "t.check('x', 3, atMost(1, 'mm'));",
                        3,
                        1,
                        "check: the measured value is the bare number 3, which has neither unit nor uncertainty; pass a measurement such as out.travel(), or state both with t.computed(3.2, \"mm\", { from: [out.travel()], uncertainty: [0.01, \"mm\"] })"),
                new Mistake(
                        "t.check('x', undefined, atMost(1, 'mm'));",
                        3,
                        1,
                        "check: the second argument must be a measurement such as out.travel() but is undefined"),
                new Mistake(
                        "const out = axis.moveBy(1, 'rev');\nt.check('x', out.travel, atMost(1, 'mm'));",
                        4,
                        1,
                        "check: the second argument must be a measurement such as out.travel() but is a function (are the parentheses \"()\" missing?)"),
                new Mistake(
                        "const out = axis.moveBy(1, 'rev');\nt.check('x', out, atMost(1, 'mm'));",
                        4,
                        1,
                        "check: the second argument must be a measurement such as out.travel() but is the result of moveBy"),
                new Mistake(
                        "const out = axis.moveBy(1, 'rev');\nt.check('x', out.travel(), 5);",
                        4,
                        1,
                        "check: the third argument must be a criterion such as nominal(1, \"rev\").plusMinus(0.5, \"deg\"), atMost, atLeast or between, but is 5"),
                new Mistake(
                        "const out = axis.moveBy(1, 'rev');\nt.check('x', out.travel(), atMost(5, 'ms'));",
                        4,
                        1,
                        "check: position change is in rev, a unit of distance, but the criterion \"at most 5 ms\" is in ms, a unit of time"),
                new Mistake(
                        "const out = axis.moveBy(1, 'rev');\nt.check('x', out.travel(), atMost(5, 'mm'));",
                        4,
                        1,
                        "this axis is rotary and has no lead, so mm means nothing on it; use deg, rev or count"),
                new Mistake(
                        "const out = axis.moveBy(1, 'rev');\nt.check('x', out.travel(), nominal(5, 'deg'));",
                        4,
                        1,
                        "nominal 5 deg has no tolerance; write nominal(…).plusMinus(0.5, \"deg\") or .plusMinus(0.5, \"%\")"),
                new Mistake(
                        "const out = axis.moveBy(1, 'rev');\nt.check('', out.travel(), atMost(5, 'deg'));",
                        4,
                        1,
                        "check: the name is empty; write t.check(\"Position change\", out.travel(), atMost(1, \"mm\"))"),
                new Mistake(
                        "nominal(1, 'rev').plusMinus(1, 's');",
                        3,
                        1,
                        "plusMinus: the nominal is in rev and the tolerance in s, a unit of time; give both in units of distance"),
                new Mistake(
                        "nominal(1, 'rev').plusMinus(0, 'deg');",
                        3,
                        1,
                        "plusMinus: the tolerance must be more than 0, got 0 deg"),
                new Mistake(
                        "nominal(0, 'rev').plusMinus(1, '%');",
                        3,
                        1,
                        "plusMinus: 1 % of a nominal 0 is no tolerance; give it in a unit, such as plusMinus(0.1, \"rev\")"),
                new Mistake(
                        "nominal(0, 'rev').plusminus(1, '%');",
                        3, 1, "the criterion \"nominal 0 rev\" has no word \"plusminus\"; did you mean \"plusMinus\"?"),
                new Mistake(
                        "between(3, 2, 'mm');",
                        3,
                        1,
                        "between: the lower limit 3 mm must be below the upper limit 2 mm"),
                new Mistake("atMost(5);", 3, 1, "atMost: the limit 5 has no unit; write atMost(80, \"ms\")"),
                new Mistake(
                        "t.computed(5, 'mm');",
                        3,
                        1,
                        "computed: option from is missing; write t.computed(3.2, \"mm\", { from: [out.travel()], uncertainty: [0.01, \"mm\"] })"),
                new Mistake(
                        "t.computed(5, 'mm', { from: [], uncertainty: [1, 'mm'] });",
                        3,
                        1,
                        "computed: option from must list the measurements that the value comes from but is a list of 0; write t.computed(3.2, \"mm\", { from: [out.travel()], uncertainty: [0.01, \"mm\"] })"),
                new Mistake(
                        "t.computed(5, 'mm', { from: ['position'], uncertainty: [1, 'mm'] });",
                        3,
                        1,
                        "computed: option from may list measurements, \"position\" and signals that the trial has read; \"position\" is none of them"),
                new Mistake(
                        "axis.position('rev');\nt.computed(5, 'mm', { from: ['position'], uncertainty: [0, 'mm'] });",
                        4,
                        1,
                        "computed: option uncertainty must be more than 0, got 0 mm"),
                new Mistake(
                        "axis.position('rev');\nt.computed(5, 'mm', { from: ['position'], uncertainty: [1, 's'] });",
                        4,
                        1,
                        "computed: the value is in mm and its uncertainty in s; give both in units of distance"),
                new Mistake(
                        "t.note(5);", 3, 1, "note: the text must be a text in quotes but is 5; write t.note(\"text\")"),
                new Mistake(
                        "t.expect(5);",
                        3,
                        1,
                        "the trial has no word \"expect\"; known: check, computed, limit, note, step, punch, homingSpread, homingRange, lostMotion, pointsOutside, positioning, scale, coulombFriction, viscousFriction, poseRepeatability, poseAccuracy, reading, hold, witness, operate, enableTogether, moveTogether, skew"),
                new Mistake(
                        "t.limit('settling');",
                        3,
                        1,
                        "limit: this trial declares no limit \"settling\"; declare it in its options, limits: { settling: [80, \"ms\"] }"),
                new Mistake(
                        "axis.moveUntilStopped(1, 'rev', { by: 'wall' });",
                        3,
                        1,
                        "moveUntilStopped: option by is \"wall\"; it is \"limit\" or \"trip\""),
                new Mistake(
                        "axis.deviceIdentification({});",
                        3,
                        1,
                        "deviceIdentification: name at least one text of the equipment list; write"
                                + " axis.deviceIdentification({ productCode: \"X-100\", revision: \"2.11\" })"),
                new Mistake(
                        "axis.linkTimes({ reads: 0 });",
                        3,
                        1,
                        "linkTimes: option reads must be a whole number from 1 to 100000 but is 0"),
                new Mistake(
                        "axis.moveWithoutLink(1, 'rev', { cut: 'close', lasts: [1, 's'] });",
                        3,
                        1,
                        "moveWithoutLink: option after is missing; write axis.moveWithoutLink(100, \"mm\", { cut: \"silence\", after: [300, \"ms\"], lasts: [1, \"s\"] })"),
                new Mistake(
                        "trial('inner', { id: 'I' }, () => {});",
                        3,
                        1,
                        "trial(…) belongs at the top of a script, not inside a trial"),
                new Mistake(
                        "console.log('x');",
                        3,
                        1,
                        "console is not defined; use t.note(\"text\") to write into the record"),
                new Mistake(
                        "setTimeout(() => {}, 10);",
                        3,
                        1,
                        "setTimeout is not defined; use axis.dwell(2, \"s\") to wait"),
                new Mistake("atmost(5, 'mm');", 3, 1, "atmost is not defined; did you mean \"atMost\"?"),
                new Mistake(
                        "Java.type('java.lang.System');",
                        3,
                        1,
                        "Java is not defined; scripts can reach nothing but the axis; there are no files, network or classes"),
                new Mistake(
                        "let o = {};\no.a.b;",
                        4,
                        1,
                        "\"b\" was asked of a value that is undefined; check the spelling of what stands before it and whether it was ever set"),
                new Mistake(
                        "null.x;",
                        3,
                        1,
                        "\"x\" was asked of a value that is null; check the spelling of what stands before it and whether it was ever set"),
                new Mistake("throw new Error('gave up');", 3, 7, "the script stopped with Error: gave up"),
                new Mistake(
                        "class Own extends Error {}\nthrow new Own('gave up');",
                        4,
                        7,
                        "the script stopped with Own: gave up"),
                new Mistake("throw 'text';", 3, 1, "the script stopped with text"),
                new Mistake(
                        "const f = () => f();\nf();",
                        3,
                        11,
                        "a function calls itself without end; give it an end, or use a loop"),
                new Mistake("Promise.reject(new Error('late'));", 3, 16, "the script stopped with Error: late"),
                new Mistake(
                        "return import('./nope.js');", 3, 15, "there is no file \"nope.js\" in the scripts folder"));
    }
}
