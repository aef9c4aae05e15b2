package org.axtrial.script;

/** Both clocks of a trial's time limit, which stand still while a person is waited for. */
final class TrialLimit {

    private final TrialClock axisTime;
    private final WallClockLimit wallTime;

    TrialLimit(TrialClock axisTime, WallClockLimit wallTime) {
        this.axisTime = axisTime;
        this.wallTime = wallTime;
    }

    void pause() {
        wallTime.pause();
        axisTime.pause();
    }

    void resume() {
        axisTime.resume();
        wallTime.resume();
    }
}
