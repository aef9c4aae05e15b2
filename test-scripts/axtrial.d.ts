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
        | "min" | "s" | "ms" | "us"
        | "Nm" | "mNm"
        | "%" | "permille"
        | "degC"
        | "kgm2" | "kgcm2" | "kg" | "N" | "Nms/rad" | "Nm/rad"
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
        /** The requirement that the trial answers. */
        clause?: string;
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
    }

    /** The expected value. */
    export function nominal(value: number, unit: Unit): Nominal;
    /** An upper limit, itself accepted. */
    export function atMost(limit: number, unit: Unit): Criterion;
    /** A lower limit, itself accepted. */
    export function atLeast(limit: number, unit: Unit): Criterion;
    /** Two limits, themselves accepted; `low` below `high`. */
    export function between(low: number, high: number, unit: Unit): Criterion;

    export interface MoveOptions {
        /** Speed of the move, more than 0; that of the site file if left out. */
        speed?: Pair;
        /** Acceleration and deceleration, more than 0; that of the site file if left out. */
        acceleration?: Pair;
        /** How long to go on sampling after arrival, a time; 200 ms if left out. */
        settle?: Pair;
    }

    export interface HoldOptions {
        /** How long to hold the speed, a time. */
        for: Pair;
        /** Acceleration up to the speed and down from it; that of the site file if left out. */
        acceleration?: Pair;
    }

    export interface SettlingOptions {
        /** The axis has settled once it stays within ± this around the target, a distance. */
        window: Pair;
        /** Where the time begins; "command" if left out. */
        from?: "command" | "profile end";
    }

    /** The axis under test. */
    export interface Axis {
        /** Name in the site file. */
        readonly name: string;
        /** Switches the torque on. */
        enable(): void;
        /** Switches the torque off. */
        disable(): void;
        /** Moves by a signed distance and waits until the axis has settled. */
        moveBy(distance: number, unit: Unit, options?: MoveOptions): Motion;
        /** Moves to a position on the zero that the site file names. */
        moveTo(target: number, unit: Unit, options?: MoveOptions): Motion;
        /** Runs up to a signed speed, holds it, and stops. */
        holdSpeed(speed: number, unit: Unit, options: HoldOptions): Motion;
        /** Watches the axis for a time without ordering anything. */
        dwell(time: number, unit: Unit): Motion;
        /** Position on the zero that the site file names, as a number in the given unit. */
        position(unit: Unit): number;
        /** A signal of the drive description, as a number in the unit that the description gives it. */
        read(signal: string): number;
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
        /** Largest distance between demand and actual position, if the drive reports it. */
        peakFollowingError(): Measurement;
        /** Largest torque, in percent of rated, if the drive reports it. */
        peakTorque(): Measurement;
        /** Root mean square of the torque, in percent of rated, if the drive reports it. */
        rmsTorque(): Measurement;
        /** Last position minus the first while standing, a distance; of a dwell. */
        drift(): Measurement;
        /** Mean position at rest at the end of the record, on the zero of the axis; of a move or a dwell. */
        restPosition(): Measurement;
        /** Mean of the speed that the drive itself reports in the steady part; of a speed hold. */
        reportedSpeed(): Measurement;
    }

    /** A measured value with unit, source and uncertainty. It is not a number: take one with `value`. */
    export interface Measurement {
        /** The value in a unit, to compute with. */
        value(unit: Unit): number;
        /** The standard uncertainty (k = 1) in a unit. */
        uncertainty(unit: Unit): number;
    }

    export interface ComputedOptions {
        /** What the value was computed from: measurements, "position", or names of signals that the trial has read. */
        from: (Measurement | string)[];
        /** Standard uncertainty (k = 1) of the value, more than 0. */
        uncertainty: Pair;
    }

    /** The trial that runs. */
    export interface Trial {
        /** Holds a measurement against a criterion and records both; tells whether it passed. */
        check(name: string, measured: Measurement, criterion: Criterion): boolean;
        /** Makes a measurement of a number that the script has computed. */
        computed(value: number, unit: Unit, options: ComputedOptions): Measurement;
        /** Writes a remark into the record. */
        note(text: string): void;
        /** Writes the heading of a step into the record. */
        step(text: string): void;
    }
}
