package org.axtrial.sim;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Function;
import org.axtrial.plant.Plant;
import org.axtrial.registers.CommandStyle;
import org.axtrial.registers.DriveDescription;
import org.axtrial.registers.SignalNames;
import org.jspecify.annotations.Nullable;

/**
 * A servo drive with its motor and load, as its description and its simulation tell. It answers Modbus requests at
 * whatever time it has been advanced to, so that the same drive serves real time over TCP and virtual time in process.
 *
 * <p>The register image follows from the description alone. Signals with a meaning are computed when they are read, all
 * registers of a reply at one instant. Identity constants show what is expected of them; parameters, and signals that
 * mean nothing to the simulation, hold what was written last, at first their start value or 0. Registers that are not
 * declared read as 0 between the first and the last declared one of their table and do not exist elsewhere (exception
 * 02). A value is written as a whole or not at all: half of it, a read-only register or a gap gives exception 02; what
 * the drive will not do gives exception 04.
 *
 * <p>Safe for several threads: each request acts and is answered in one piece.
 */
public final class SimulatedDrive {

    private final Object lock = new Object();
    private final String name;
    private final DriveDescription description;
    private final SimulationSpec spec;
    private final FaultOnsets faults;
    private final Servo servo;
    private final ShaftScale scale;
    private final DigitalInputs inputs;
    private final PositionRegister position;
    private final IndexMark index;
    private final IdentificationServer identification;
    private final LinkWatch linkWatch;
    private final DriveImage image;

    private Firmware firmware;
    private long motionsBefore;
    private boolean supplied = true;
    private long suppliedAgainNanos;
    private long pluggedAgainNanos;
    private long starts = 1;
    private boolean stepsAtRest;
    private long nanos;
    private long steps;
    private double turnsLost;
    private long requests;
    private @Nullable SlipWatch slipWatch;
    private volatile @Nullable CoupledDrives coupled;

    /** A drive whose parameters start at 0; errors as in the other constructor. */
    public SimulatedDrive(String name, DriveDescription description, SimulationSpec spec) {
        this(name, description, spec, Map.of());
    }

    /**
     * A drive at rest, without torque, at its start position.
     *
     * @param name for messages
     * @param startValues scaled values that parameters, settings and plain signals start with, by name
     * @throws IllegalArgumentException with every unit that cannot be simulated, every overlap of registers and every
     *     start value that does not fit, one in a line
     */
    public SimulatedDrive(
            String name, DriveDescription description, SimulationSpec sound, Map<String, Double> startValues) {
        this.name = name;
        this.description = description;
        this.linkWatch = new LinkWatch(description);
        this.spec = sound.asMade();
        this.faults = new FaultOnsets(spec.faults());
        this.servo = new Servo(spec);
        this.scale = new ShaftScale(description, spec);
        List<String> problems = new ArrayList<>(scale.problems());
        for (String required : SignalNames.required(description.style())) {
            if (!description.has(required)) {
                problems.add(required + ": not declared, but a " + description.style() + " drive needs it");
            }
        }
        refuse(problems);
        this.inputs = new DigitalInputs(spec.reference());
        inputs.see(servo.angle());
        this.position = new PositionRegister(
                description.signal(SignalNames.POSITION),
                spec.feedback().startCounts(),
                spec.reference().absolute());
        this.index = new IndexMark(spec.reference().indexOffset());
        this.firmware = newFirmware();
        this.image = new DriveImage(description, scale, linkWatch, () -> firmware, () -> nanos);
        refuse(image.startWith(startValues));
        this.identification = new IdentificationServer(description.deviceIdentification());
    }

    private Firmware newFirmware() {
        DriveParts parts = DriveParts.fresh(spec, scale, servo, inputs, position, index);
        return description.style() == CommandStyle.CIA402
                ? new Cia402Firmware(description, parts)
                : new DirectFirmware(description, parts);
    }

    private void refuse(List<String> problems) {
        if (!problems.isEmpty()) {
            throw new IllegalArgumentException("cannot simulate " + name + " as drive type " + description.type()
                    + ":\n  " + String.join("\n  ", problems));
        }
    }

    /**
     * Lets simulated time pass, in whole integration steps; a time already passed changes nothing. A drive that is coupled
     * takes those that it is coupled with to the same time.
     *
     * @param toNanos ns since the drive was made
     */
    public void advanceTo(long toNanos) {
        CoupledDrives together = coupled;
        if (together != null) { // without the lock, because that takes the locks of all in their order
            together.advanceTo(toNanos);
            return;
        }
        synchronized (lock) {
            pass(toNanos);
            long stepNanos = servo.stepNanos();
            long wanted = nanos / stepNanos;
            while (steps < wanted) {
                strikeDue();
                if (!supplied) {
                    stepWithoutSupply(wanted);
                } else if (restful()) {
                    // The first step at or after the next fault, or the present.
                    rest(Math.min(wanted, faults.nextStep(stepNanos)) - steps);
                } else {
                    step();
                }
            }
        }
    }

    /** Tells what time it is; the steps follow. */
    void pass(long toNanos) {
        nanos = Math.max(nanos, toNanos);
    }

    /** Lets every fault come about that is due. */
    void strikeDue() {
        long now = steps * servo.stepNanos();
        if (now >= faults.nextNanos()) {
            faults.strike(now, this);
        }
    }

    /** Whether time may pass without stepping, until the next fault. */
    boolean restful() {
        return supplied && !stepsAtRest && servo.steady() && !firmware.waiting();
    }

    /** The first interval of that width that begins at or after the next fault, counted from the start. */
    long nextFault(long intervalNanos) {
        return faults.nextStep(intervalNanos);
    }

    /** Lets so many steps pass at once, which only a restful drive allows. */
    void rest(long count) {
        servo.rest(count);
        steps += count;
    }

    private void step() {
        steps++;
        servo.step();
        firmware.step();
        image.latch();
        if (slipWatch != null) {
            slipWatch.look(servo);
        }
        if (linkWatch.silent(steps * servo.stepNanos())) {
            watch();
        }
    }

    /** Steps so often whatever happens. */
    void step(int count) {
        for (int i = 0; i < count; i++) {
            strikeDue();
            if (supplied) {
                step();
            } else {
                stepDead();
            }
        }
    }

    /** Lets at least one more step pass, because something has changed outside of it. */
    void look() {
        servo.look();
    }

    /** Width of a step in ns. */
    long stepNanos() {
        return servo.stepNanos();
    }

    /** The mechanics, for those who hold the lock. */
    Plant plant() {
        return servo.plant();
    }

    /** Acts while nobody else can touch this drive. */
    void whileHeld(Runnable action) {
        synchronized (lock) {
            action.run();
        }
    }

    /**
     * Travel of the load in one rad of the motor in the sense of the counts that the description was drawn for, in m or rad.
     */
    double travelPerRadian() {
        double travel = spec.load().travelPerRadian();
        return faults.mirrored() ? -travel : travel;
    }

    /**
     * From now on time passes for it together with others.
     *
     * @throws IllegalStateException if it is coupled already or has run
     */
    void coupleWith(CoupledDrives others) {
        synchronized (lock) {
            if (coupled != null || steps > 0) {
                throw new IllegalStateException(
                        name + (steps > 0 ? " has run and can no longer be coupled" : " is coupled already"));
            }
            coupled = others;
        }
    }

    /** Those that time passes for together with this drive, and what couples them; empty for a drive of its own. */
    public Optional<CoupledDrives> coupled() {
        return Optional.ofNullable(coupled);
    }

    /** Steps from now on even where nothing can change, so that a test can prove that nothing would have. */
    void stepAtRest() {
        stepsAtRest = true;
    }

    private void stepWithoutSupply(long wanted) {
        long stepNanos = servo.stepNanos();
        if (servo.steady()) {
            // The last step before the supply comes back, or the present.
            steps = Math.max(steps, Math.min(wanted, suppliedAgainNanos / stepNanos) - 1);
        }
        stepDead();
    }

    private void stepDead() {
        steps++;
        servo.step();
        if (steps * servo.stepNanos() >= suppliedAgainNanos) {
            start();
        }
    }

    /** The supply is back: settings as saved, position as the encoder knows it, state machine from its start. */
    private void start() {
        supplied = true;
        starts++;
        motionsBefore += firmware.motions();
        linkWatch.restart(nanos);
        if (spec.reference().absolute()) {
            double lost = servo.turnsLostWithSupply();
            position.shift(turnsLost - lost);
            turnsLost = lost;
        } else {
            position.forget(servo.counts());
        }
        firmware = newFirmware();
        inputs.see(servo.angle());
        image.restore();
        servo.look();
    }

    /**
     * Takes the supply away: no torque, no answer. When it is back the drive starts anew: the state machine at not ready to
     * switch on, without a fault; settings and parameters as they were saved by the register for that, or as they were at
     * first; commands at 0; the position register goes on if the encoder is absolute, as far as it tells its turns apart,
     * else it starts again and a homing is forgotten. The shaft runs out, and may be turned, meanwhile.
     *
     * @param off how long, in simulated time, positive
     */
    public void powerCycle(Duration off) {
        if (off.isNegative() || off.isZero()) {
            throw new IllegalArgumentException("the supply must be off for some time, got " + off);
        }
        synchronized (lock) {
            supplied = false;
            suppliedAgainNanos = nanos + off.toNanos();
            servo.release();
        }
    }

    /** Whether the drive has supply and can answer. */
    public boolean supplied() {
        synchronized (lock) {
            return supplied;
        }
    }

    /**
     * Pulls the cable of the network: no request reaches the drive and no reply comes back.
     *
     * @param off how long, in simulated time, positive
     */
    public void unplug(Duration off) {
        if (off.isNegative() || off.isZero()) {
            throw new IllegalArgumentException("the cable must be off for some time, got " + off);
        }
        synchronized (lock) {
            pluggedAgainNanos = nanos + off.toNanos();
        }
    }

    /** Whether the drive has supply, and a cable that leads to it. */
    boolean reachable() {
        synchronized (lock) {
            return supplied && nanos >= pluggedAgainNanos;
        }
    }

    /** How often the drive has been switched on, 1 at first. */
    long starts() {
        synchronized (lock) {
            return starts;
        }
    }

    private void watch() {
        if (servo.energised() && firmware.moving()) {
            firmware.connectionLost();
        }
    }

    /**
     * Acts on a request at the time the drive has been advanced to. Without supply it does not act; that nobody answers then
     * is for the wire to show.
     *
     * @param requestPdu function code and data, without MBAP header
     * @return the response PDU, an exception response included
     */
    public byte[] answer(byte[] requestPdu) {
        return answer(requestPdu, RegisterCell::words);
    }

    /** Acts on a request; a read sees the registers in its own way. */
    byte[] answer(byte[] requestPdu, Function<RegisterCell, int[]> sight) {
        synchronized (lock) {
            if (!supplied) {
                return RegisterServer.exception(requestPdu[0] & 0xFF, RegisterServer.SERVER_DEVICE_FAILURE);
            }
            requests++;
            linkWatch.heard(nanos);
            return identification.answers(requestPdu)
                    ? identification.answer(requestPdu)
                    : image.answer(requestPdu, sight);
        }
    }

    /**
     * Answers a request as another drive of the same type would: its identity constants differ and it takes no command.
     * This one hears nothing of it.
     */
    byte[] answerAsAnother(byte[] requestPdu) {
        int function = requestPdu[0] & 0xFF;
        if (function == RegisterServer.WRITE_SINGLE || function == RegisterServer.WRITE_MULTIPLE) {
            return RegisterServer.exception(function, RegisterServer.SERVER_DEVICE_FAILURE);
        }
        synchronized (lock) {
            return image.answerAsAnother(requestPdu);
        }
    }

    /** What every register shows now. */
    RegisterImage.Snapshot snapshot() {
        synchronized (lock) {
            return image.snapshot();
        }
    }

    /**
     * Trips the drive as if something had broken; a fault that already stands remains.
     *
     * @param faultCode 1 … 65535
     */
    public void trip(int faultCode) {
        if (faultCode < 1 || faultCode > 0xFFFF) {
            throw new IllegalArgumentException("a fault code is 1 … 65535, got " + faultCode);
        }
        synchronized (lock) {
            firmware.trip(faultCode);
        }
    }

    /**
     * Turns the shaft as a hand would, so that a look at its position can be rehearsed.
     *
     * @param radians at the motor shaft, positive towards growing positions
     * @throws IllegalStateException if the drive gives torque; nobody turns such a shaft by hand
     */
    public void turnByHand(double radians) {
        if (!Double.isFinite(radians)) {
            throw new IllegalArgumentException("an angle must be finite, got " + radians);
        }
        synchronized (lock) {
            if (servo.energised()) {
                throw new IllegalStateException(name + " gives torque; a shaft under torque is not turned by hand");
            }
            servo.turnByHand(faults.mirrored() ? -radians : radians);
            inputs.see(servo.angle());
        }
    }

    /**
     * Lets something go wrong now.
     *
     * @throws IllegalStateException if the axis does not have what shall go wrong
     */
    public void strike(MachineFault.Arising fault) {
        synchronized (lock) {
            fault.strike(this);
        }
    }

    /**
     * Lets something go wrong after a time from now.
     *
     * @param after not negative
     */
    public void strikeAfter(Duration after, MachineFault.Arising fault) {
        synchronized (lock) {
            if (after.isZero()) {
                fault.strike(this);
            } else {
                faults.add(new MachineFault.Onset(fault, after.plusNanos(nanos)));
            }
        }
    }

    /** From now on the encoder slips by so many rad whenever the torque rises above so many percent of rated. */
    void slipAbove(double percent, double radians) {
        synchronized (lock) {
            slipWatch = new SlipWatch(servo.ratedTorque() * percent / 100, radians);
        }
    }

    /** Lets the position register read so many counts more from now on, as if somebody had set it. */
    void shiftZero(long counts) {
        synchronized (lock) {
            position.shift((double) counts);
        }
    }

    /** Breaks a switch of the axis, or makes it work again. */
    public void switchBecomes(SwitchInput input, SwitchCondition condition) {
        synchronized (lock) {
            inputs.become(input, condition);
            servo.look();
        }
    }

    /** Turns the shaft by hand if the drive gives no torque. */
    void turnedByHand(double radians) {
        synchronized (lock) {
            if (!servo.energised()) {
                turnByHand(radians);
            }
        }
    }

    /** A hand holds a switch of the axis down, or lets go of it. */
    void switchHeld(SwitchInput input, boolean held) {
        synchronized (lock) {
            inputs.hold(input, held);
            servo.look();
        }
    }

    /** Loses the index mark of the encoder, or brings it back. */
    public void indexMarkBecomes(boolean present) {
        synchronized (lock) {
            index.be(present);
        }
    }

    /** Whether the position is known, by a homing or an absolute encoder. */
    public boolean referenced() {
        synchronized (lock) {
            return position.referenced();
        }
    }

    public String name() {
        return name;
    }

    public DriveDescription description() {
        return description;
    }

    SimulationSpec spec() {
        return spec;
    }

    /** Simulated time so far in ns. */
    public long nanos() {
        synchronized (lock) {
            return nanos;
        }
    }

    /** What the mechanics truly do now, finer than any register; no script can reach it. */
    public Truth truth() {
        synchronized (lock) {
            return Truth.of(servo);
        }
    }

    /**
     * Changes the mechanics while they run, as wear or damage would.
     *
     * @param change is given the mechanics and must not keep them
     */
    public void change(Consumer<Plant> change) {
        synchronized (lock) {
            servo.change(change);
        }
    }

    /**
     * Lets the encoder slip on the motor shaft.
     *
     * @param radians at the motor shaft; positive makes it read more
     */
    public void slipEncoder(double radians) {
        synchronized (lock) {
            servo.slipEncoder(radians);
        }
    }

    /** True shaft angle in rad since the start, not wrapped, finer than any register. */
    public double shaftAngle() {
        synchronized (lock) {
            return servo.angle();
        }
    }

    /** True shaft speed in rad/s. */
    public double shaftSpeed() {
        synchronized (lock) {
            return servo.speed();
        }
    }

    /** Torque of the motor in N·m. */
    public double torque() {
        synchronized (lock) {
            return servo.torque();
        }
    }

    /** What it is doing, in words for a person, such as {@code enabled, moving} or {@code fault 0x7500}. */
    public String state() {
        synchronized (lock) {
            return DriveWords.of(
                    description.style(),
                    firmware.statusWord(),
                    firmware.faultCode(),
                    servo.energised(),
                    firmware.moving());
        }
    }

    /** 0 when there is none. */
    public int faultCode() {
        synchronized (lock) {
            return firmware.faultCode();
        }
    }

    /** Requests received, those with an exception response included. */
    public long requests() {
        synchronized (lock) {
            return requests;
        }
    }

    /**
     * What one declared value reads now, scaled.
     *
     * @throws IllegalArgumentException if none of that name is declared
     */
    public double value(String signal) {
        synchronized (lock) {
            return image.value(signal)
                    .orElseThrow(() -> new IllegalArgumentException(name + " declares no \"" + signal + "\""));
        }
    }

    /** How often it was told to keep its parameters over a power cycle. */
    public int saves() {
        synchronized (lock) {
            return image.saves();
        }
    }

    /** Writes accepted, to whatever register. */
    public int writes() {
        synchronized (lock) {
            return image.writes();
        }
    }

    /** Writes accepted by the value that stands at the holding register address. */
    public int writes(int address) {
        synchronized (lock) {
            return image.writes(address);
        }
    }

    /** Motions started: set-points taken, relative and absolute moves, speeds other than 0 ordered. */
    public long motionsStarted() {
        synchronized (lock) {
            return motionsBefore + firmware.motions();
        }
    }
}
