/**
 * The words of acceptance scripts. Editors complete and check them when a script imports from "axtrial".
 * A test of the program compares this file with the words that it really offers.
 */
declare module "axtrial" {
    /** Units as they are written in scripts. Angles, distances and speeds belong to the load, not to the motor. */
    export type Unit =
        | "rev" | "deg" | "arcmin" | "arcsec" | "rad"
        | "m" | "mm" | "um"
        | "count"
        | "rpm" | "rev/s" | "deg/s" | "rad/s"
        | "m/s" | "m/min" | "mm/s" | "mm/min"
        | "count/s"
        | "rev/s2" | "rpm/s" | "deg/s2" | "rad/s2"
        | "m/s2" | "mm/s2"
        | "count/s2"
        | "rev/s3" | "rpm/s2" | "m/s3" | "mm/s3" | "count/s3"
        | "min" | "s" | "ms" | "us"
        | "Nm" | "mNm"
        | "%" | "permille"
        | "degC"
        | "kgm2" | "kgcm2" | "kg" | "N" | "N/m" | "N/mm" | "Ns/m" | "Ns/mm" | "Nms/rad" | "Nm/rad"
        | "Hz" | "1/s"
        | "V" | "A"
        | "1";

    /** A value with its unit, for example `[300, "rpm"]`. */
    export type Pair = [value: number, unit: Unit];

    export interface TrialOptions {
        /** Unique in the script, fit for a file name: letters, digits, "-", "_" and ".", at most 60. */
        id: string;
        /** The axes that the trial is for; "all" if left out. */
        axes?: "all" | string | string[];
        /** Axes that move at once with the one on trial, by t.moveTogether; `axes` must then name that one. */
        with?: string | string[];
        /** The requirement that the trial answers. */
        clause?: string;
        /** Number of the trial in the catalogue of acceptance trials, docs/trials.md. */
        number?: number;
        /** Words that describe the trial; `--tag` chooses by them. */
        tags?: string | string[];
        /** Named limits with their defaults, for t.limit; the site file may set others in their place. */
        limits?: Record<string, Pair>;
        /**
         * What the trial proves of its axis. Until such a trial has passed in the run, an axis with a first motion (site file)
         * is held to short, slow moves.
         */
        proves?: "sense and scale";
        /** Longest time the trial may take, a time; 5 min if left out. */
        limit?: Pair;
    }

    /** Declares a trial. Stands at the top of a script; the function runs later, once for each axis. */
    export function trial(title: string, options: TrialOptions, body: (axis: Axis, t: Trial) => void | Promise<void>): void;

    /** What a measured value is held against. */
    export interface Criterion {}

    /** A nominal value; it becomes a criterion by its tolerance. */
    export interface Nominal {
        /** Tolerance to both sides, more than 0. "%" and "permille" are of the nominal value. */
        plusMinus(tolerance: number, unit: Unit): Criterion;
        plusMinus(tolerance: Limit): Criterion;
    }

    /** A named limit of a trial with the value in force. It may stand wherever a value and its unit stand in brackets. */
    export interface Limit extends ReadonlyArray<any> {
        readonly 0: number;
        readonly 1: Unit;
        readonly length: 2;
        [Symbol.iterator](): IterableIterator<any>;
        /** Its number in a unit of its own kind. */
        in(unit: Unit): number;
    }

    /** The expected value. */
    export function nominal(value: number, unit: Unit): Nominal;
    export function nominal(value: Limit): Nominal;
    /** An upper limit, itself accepted. */
    export function atMost(limit: number, unit: Unit): Criterion;
    export function atMost(limit: Limit): Criterion;
    /** A lower limit, itself accepted. */
    export function atLeast(limit: number, unit: Unit): Criterion;
    export function atLeast(limit: Limit): Criterion;
    /** Two limits, themselves accepted; `low` below `high`. */
    export function between(low: number, high: number, unit: Unit): Criterion;
    export function between(low: Limit, high: Limit): Criterion;

    export interface MoveOptions {
        /** Speed of the move, more than 0; that of the site file if left out. */
        speed?: Pair;
        /** Acceleration and deceleration, more than 0; that of the site file if left out. */
        acceleration?: Pair;
        /** How long to go on sampling after arrival, a time; 200 ms if left out. */
        settle?: Pair;
    }

    /** What one of several axes is to do: either a distance or a target. */
    export interface JointMove extends MoveOptions {
        /** Signed distance. */
        by?: Pair;
        /** Target on the zero that the site file names. */
        to?: Pair;
    }

    export interface HoldOptions {
        /** How long to hold the speed, a time; with operate the longest time that the person has. */
        for: Pair;
        /** Acceleration up to the speed and down from it; that of the site file if left out. */
        acceleration?: Pair;
        /** What a person does to the real device while the axis moves; its stop is then recorded and no trouble. */
        operate?: string;
        /** What is struck on a simulated axis in place of the person; belongs to operate. */
        rehearse?: MachineFault | MachineFault[];
    }

    export interface DwellOptions {
        /** What a person does to the real device while the axis is watched. */
        operate?: string;
        /** What is struck on a simulated axis in place of the person; belongs to operate. */
        rehearse?: MachineFault | MachineFault[];
    }

    export interface OperateOptions {
        /** What is struck on a simulated axis when the step has been answered. */
        rehearse?: MachineFault | MachineFault[];
    }

    export interface HomeOptions {
        /** How far the axis may go from where it stands, either way, a distance. */
        within: Pair;
        /** How long to go on sampling after it stands, a time; 200 ms if left out. */
        settle?: Pair;
    }

    /** An entry of machineFaults as the site file takes it; quantities are texts such as "2 deg". */
    export interface MachineFault {
        kind: "more friction" | "encoder slip" | "stuck switch" | "switch pressed" | "switch released" | "turned by hand" | "drive trip" | "lost zero"
            | "cable pulled" | "power cycle";
        factor?: number;
        counts?: number;
        angle?: string;
        torque?: string;
        input?: "negative limit" | "positive limit" | "home";
        active?: boolean;
        code?: number;
        /** How long it lasts, such as "2 s". */
        lasts?: string;
        /** When it comes about, counted from now, such as "2 s". */
        after?: string;
    }

    export interface ParameterOptions {
        /** Whether the value stays after the trial; false if left out. */
        keep?: boolean;
    }

    export interface SettlingOptions {
        /** The axis has settled once it stays within ± this around the target, a distance. */
        window: Pair;
        /** Where the time begins; "command" if left out. */
        from?: "command" | "profile end";
    }

    export interface StoppingOptions {
        /** The axis stands once it stays within ± this around its rest position, a distance. */
        window: Pair;
    }

    export interface UntilStoppedOptions extends MoveOptions {
        /** What is expected to end the move: a limit that holds the axis, or a drive that takes its torque away. */
        by: "limit" | "trip";
    }

    export interface WithoutLinkOptions extends MoveOptions {
        /** How the link is lost: the program closes it, keeps silent, or somebody pulls the cable (in a rehearsal the simulation). */
        cut: "close" | "silence" | "cable";
        /** When it is lost, a time from the start of the move; on a real axis the person with the cable decides. */
        after: Pair;
        /** How long nobody looks, a time; on a real axis with a pulled cable how long it may stay away. */
        lasts: Pair;
    }

    export interface RestartOptions {
        /** Longest time until the drive is off, and again until it is back, a time. */
        within: Pair;
    }

    /** Texts of an equipment list, as a drive tells them in its device identification; at least one. */
    export interface ListedTexts {
        vendorName?: string;
        productCode?: string;
        revision?: string;
        vendorUrl?: string;
        productName?: string;
        modelName?: string;
        userApplicationName?: string;
    }

    export interface LinkTimesOptions {
        /** How many looks, 1 to 100000. */
        reads: number;
    }

    /** A move during which the link was lost. */
    export interface LinkLoss {
        /** Time until the axis was seen at rest, a bound: nobody looked before. */
        time(): Measurement;
        /** How far the axis went from the last look before the loss to its rest, a distance. */
        distance(): Measurement;
        /** 1 if the axis was still under torque when it was seen again, else 0. */
        enabled(): Measurement;
    }

    /** How long looks at a drive took. */
    export interface LinkTimes {
        /** The time that half of the looks did not exceed. */
        median(): Measurement;
        /** The time that 99 % of the looks did not exceed. */
        p99(): Measurement;
        /** The longest time. */
        longest(): Measurement;
        /** How many looks brought no valid reply, a number. */
        errors(): Measurement;
    }

    /** The axis under test. */
    export interface Axis {
        /** Name in the site file. */
        readonly name: string;
        /** Switches the torque on. */
        enable(): void;
        /** Switches the torque off. */
        disable(): void;
        /** Acknowledges a fault of the drive, which stays without torque. */
        resetFault(): void;
        /** Moves by a signed distance and waits until the axis has settled. */
        moveBy(distance: number, unit: Unit, options?: MoveOptions): Motion;
        /** Moves to a position on the zero that the site file names. */
        moveTo(target: number, unit: Unit, options?: MoveOptions): Motion;
        /** Runs up to a signed speed, holds it, and stops. */
        holdSpeed(speed: number, unit: Unit, options: HoldOptions): Motion;
        /** Lets the drive find its reference as it is set up for, and waits until the axis stands. */
        home(options: HomeOptions): Motion;
        /** Watches the axis for a time without ordering anything. */
        dwell(time: number, unit: Unit, options?: DwellOptions): Motion;
        /** Moves by a signed distance that a limit or a trip is expected to end before; an axis that arrives fails the trial. */
        moveUntilStopped(distance: number, unit: Unit, options: UntilStoppedOptions): Motion;
        /** Moves by a signed distance with the start word sent twice, which must make one motion. The envelope must hold twice the distance. */
        moveStartedTwice(distance: number, unit: Unit, options?: MoveOptions): Motion;
        /** Moves by a signed distance and loses the link on the way; the envelope must hold the whole distance. */
        moveWithoutLink(distance: number, unit: Unit, options: WithoutLinkOptions): LinkLoss;
        /** Waits until the drive has been switched off and on again, by a person or in a rehearsal by the simulation; only looks. */
        awaitRestart(options: RestartOptions): void;
        /** Looks at the drive so many times and tells how long it took to answer. */
        linkTimes(options: LinkTimesOptions): LinkTimes;
        /**
         * Asks the drive what it says of itself (Modbus function 43) and counts the texts that are not as listed. It moves nothing.
         */
        deviceIdentification(listed: ListedTexts): Measurement;
        /** Names of the identity constants and parameters that the drive description declares. */
        parameterNames(): string[];
        /** Position on the zero that the site file names, as a number in the given unit. */
        position(unit: Unit): number;
        /** Chooses the targets of a positioning test between two positions (ISO 230-2); moves nothing. */
        positioningPlan(low: number, high: number, unit: Unit, options: PlanOptions): PositioningPlan;
        /** A signal of the drive description, as a number in the unit that the description gives it. */
        read(signal: string): number;
        /** A signal or parameter of the drive description with its unit, to check. */
        parameter(name: string): Measurement;
        /** Writes a parameter that the drive description lets the tool write, reads it back, and puts it back when the trial ends. */
        setParameter(name: string, value: number, unit: Unit, options?: ParameterOptions): void;
        /** Lets the drive keep its parameters over a power cycle, by the save command of the drive description; once in a trial. */
        saveParameters(command: string): void;
        /** Lets something go wrong with a simulated machine, to see whether the trial finds it; an error on a real axis. */
        strike(fault: MachineFault): void;
    }

    export interface PlanOptions {
        /** How far beyond the first and the last target the axis turns round, a distance, more than 0. */
        overrun: Pair;
        /** Period of the error that is expected, such as the lead of the screw, a distance; unknown if left out. */
        period?: Pair;
        /** A whole number; the same seed gives the same targets. */
        seed: number;
    }

    /** Where a positioning test stops. */
    export interface PositioningPlan {
        /** Target positions in growing order. */
        targets(unit: Unit): number[];
        /** How often each target is approached from each side. */
        cycles(): number;
        /** Where to turn round below the first target. */
        turnBelow(unit: Unit): number;
        /** Where to turn round above the last target. */
        turnAbove(unit: Unit): number;
    }

    /** One position of a scale: as ordered and as an instrument read it. */
    export interface ScalePosition {
        commanded: Pair;
        /** From t.reading; its zero may lie anywhere. */
        measured: Measurement;
    }

    /** What was measured at one target; the lists are as long as there were cycles. */
    export interface PositioningTarget {
        target: Pair;
        /** Rest positions after approaches in positive direction. */
        up: Measurement[];
        /** Rest positions after approaches in negative direction. */
        down: Measurement[];
    }

    /**
     * Results of a positioning test after ISO 230-2, each a distance. Accuracy, systematic and mean error are judged only if
     * every position is a reading of an instrument; of drive-reported positions a check on them is INCONCLUSIVE.
     */
    export interface Positioning {
        /** Bidirectional accuracy A. */
        accuracy(): Measurement;
        accuracyUp(): Measurement;
        accuracyDown(): Measurement;
        /** Bidirectional systematic error E. */
        systematicError(): Measurement;
        systematicErrorUp(): Measurement;
        systematicErrorDown(): Measurement;
        /** Mean bidirectional positioning error M. */
        meanError(): Measurement;
        /** Bidirectional repeatability R. */
        repeatability(): Measurement;
        repeatabilityUp(): Measurement;
        repeatabilityDown(): Measurement;
        /** Reversal error B, without sign. */
        reversalError(): Measurement;
        /** Mean reversal error, signed. */
        meanReversalError(): Measurement;
    }

    /** A motion that was made; every word measures on its samples. */
    export interface Motion {
        /** Position change, a distance. */
        travel(): Measurement;
        /** Time until the axis stays in the window, a time; of a move. */
        settling(options: SettlingOptions): Measurement;
        /** How far the axis went beyond its target, a distance; of a move. */
        overshoot(): Measurement;
        /** Displacement over time in the steady part, a speed; of a speed hold. */
        meanSpeed(): Measurement;
        /** Largest minus smallest speed in the steady part, in percent of the mean; of a speed hold. */
        speedRipple(): Measurement;
        /** Largest distance between demand and actual position, if the drive reports it; latched by the drive where it can. */
        peakFollowingError(): Measurement;
        /** Largest torque, in percent of rated, if the drive reports it; latched by the drive where it can. */
        peakTorque(): Measurement;
        /** Root mean square of the torque, in percent of rated, if the drive reports it. */
        rmsTorque(): Measurement;
        /** Last position minus the first while standing, a distance; of a dwell. */
        drift(): Measurement;
        /** Mean position at rest at the end of the record, on the zero of the axis; of a move, a homing or a dwell. */
        restPosition(): Measurement;
        /** How far the homing moved the zero of the position register, if the drive reports its internal position; of a homing. */
        newZero(): Measurement;
        /** Mean of the speed that the drive itself reports in the steady part; of a speed hold. */
        reportedSpeed(): Measurement;
        /** Size of the slope of the reported speed while it rises, an acceleration; of a speed hold. */
        acceleration(): Measurement;
        /** Size of the slope of the reported speed after the stop was ordered, an acceleration; of a speed hold. */
        deceleration(): Measurement;
        /** Time from the order to stop, with operate from the first sign of the stop, until the axis stays about where it comes to rest; of a speed hold. */
        stoppingTime(options: StoppingOptions): Measurement;
        /** Distance from where the axis was when the stop was ordered, with operate at its first sign, to where it comes to rest; of a speed hold. */
        stoppingDistance(): Measurement;
        /** Who stopped the axis, of a motion with operate: the machine, or this program when the time was over. */
        stoppedBy(): "machine" | "program";
        /** Time from the order to move until the machine began to stop the axis, a bound if it did not; of a motion with operate. */
        stoppedAfter(): Measurement;
        /** Time in which the reported speed rises from 10 % to 90 % of the ordered one, a time; of a speed hold. */
        riseTime(): Measurement;
        /** How far the reported speed goes beyond the ordered one, in percent of it; of a speed hold. */
        speedOvershoot(): Measurement;
        /** Change of the reported speed over the steady part, by a straight line, a speed; of a speed hold. */
        speedDrift(): Measurement;
        /** Frequency of the strongest oscillation of the reported speed below half the sample rate, in Hz; of a speed hold. */
        rippleFrequency(): Measurement;
        /** Amplitude, half of peak to peak, of that oscillation, a speed; of a speed hold. */
        rippleAmplitude(): Measurement;
        /** Mean following error in the steady part, if the drive reports it; of a speed hold. */
        steadyFollowingError(): Measurement;
        /** Mean speed over mean following error, in 1/s, if the drive reports it; of a speed hold. */
        positionGain(): Measurement;
        /** Half the difference of the torques of this and of a speed hold in the other direction, in percent of rated. */
        frictionTorque(back: Motion): Measurement;
        /** Half the sum of the torques of this and of a speed hold in the other direction, in percent of rated. */
        loadTorque(back: Motion): Measurement;
    }

    /** A measured value with unit, source and uncertainty. It is not a number: take one with `value`. */
    export interface Measurement {
        /** The value in a unit, to compute with. */
        value(unit: Unit): number;
        /** The standard uncertainty (k = 1) in a unit. */
        uncertainty(unit: Unit): number;
    }

    /** Two speed holds at the same speed in opposite directions. */
    export interface HoldPair {
        out: Motion;
        back: Motion;
    }

    export interface ComputedOptions {
        /** What the value was computed from: measurements, "position", or names of signals that the trial has read. */
        from: (Measurement | string)[];
        /** Standard uncertainty (k = 1) of the value, more than 0. */
        uncertainty: Pair;
    }

    export interface ReadingOptions {
        /** Id of an instrument of the site file. */
        instrument: string;
        /** Unit in which the value is asked for, of the kind that the instrument reads. */
        unit: Unit;
    }

    export interface PunchOptions {
        /** A bars acceptance until closed, B has a date, C is minor. */
        class: "A" | "B" | "C";
        /** Who has to do it. */
        owner?: string;
        /** By when, as 2027-01-31. */
        due?: string;
    }

    /** The trial that runs. */
    export interface Trial {
        /** Holds a measurement against a criterion and records both; tells whether it passed. */
        check(name: string, measured: Measurement, criterion: Criterion): boolean;
        /** Makes a measurement of a number that the script has computed. */
        computed(value: number, unit: Unit, options: ComputedOptions): Measurement;
        /** A named limit of this trial, with the value in force: the default of the script, or what the site file sets. */
        limit(name: string): Limit;
        /** A value that a person reads on an instrument, typed at the terminal or taken from the file of --answers. */
        reading(name: string, options: ReadingOptions): Measurement;
        /** Positioning of the axis from rest positions at targets that were approached from both sides (ISO 230-2). */
        positioning(targets: PositioningTarget[]): Positioning;
        /** Measured over commanded distance, in unit "1": slope of the line through at least three positions. */
        scale(positions: ScalePosition[]): Measurement;
        /** Four standard deviations of the rest positions after homing. */
        homingSpread(positions: Measurement[]): Measurement;
        /** Largest minus smallest of the rest positions after homing. */
        homingRange(positions: Measurement[]): Measurement;
        /** Mean rest position after travel in positive minus that after travel in negative direction. */
        lostMotion(up: Measurement[], down: Measurement[]): Measurement;
        /** Friction that is there at any speed, from holds at three speeds or more both ways, in percent of rated torque. */
        coulombFriction(speeds: HoldPair[]): Measurement;
        /** Friction that grows with the speed, at the highest of those speeds, in percent of rated torque. */
        viscousFriction(speeds: HoldPair[]): Measurement;
        /** RP of ISO 9283: how well axes of one unit of length come back to one place together. */
        poseRepeatability(poses: Record<string, Measurement>[]): Measurement;
        /** AP of ISO 9283: how far the middle of the attained places is from the commanded one; needs an instrument. */
        poseAccuracy(poses: Record<string, Measurement>[], commanded: Record<string, Pair>): Measurement;
        /** How many of the later values, in unit "1", lie outside the control limits of the values from a good time. */
        pointsOutside(well: Measurement[], later: Measurement[]): Measurement;
        /** Hold point: the trial waits until a named person releases it; refused, the trial is BLOCKED. */
        hold(text: string): void;
        /** Witness point: records who watches, or that nobody came; the trial goes on either way. */
        witness(text: string): void;
        /** Waits until a person has operated a real device of the machine; if it cannot be done, the trial is BLOCKED. */
        operate(text: string, options?: OperateOptions): void;
        /** Torque on for the axis on trial and those named by `with`. */
        enableTogether(): void;
        /**
         * Moves several axes of this trial at once, by their names, and waits until all have settled. None starts unless all may;
         * what stops one stops all. Axes that are not named are watched.
         */
        moveTogether(axes: Record<string, JointMove>): Record<string, Motion>;
        /** Largest difference of the ways of two axes of one unit that were moved at once, at the same time. */
        skew(one: Motion, other: Motion): Measurement;
        /** Raises a punch item: something still to be done on the machine. The verdict of the trial is not touched. */
        punch(text: string, options: PunchOptions): void;
        /** Writes a remark into the record. */
        note(text: string): void;
        /** Writes the heading of a step into the record. */
        step(text: string): void;
    }
}
