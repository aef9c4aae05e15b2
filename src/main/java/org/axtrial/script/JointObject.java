package org.axtrial.script;

/** Motions that were made at once, as a script holds them: one for each axis that moved, by its name. */
final class JointObject extends WordObject {

    JointObject(WordHost host) {
        super(host, "the result of moveTogether");
    }

    void add(String axis, MotionObject motion) {
        member(axis, motion);
    }

    @Override
    String printed() {
        return String.join(", ", words());
    }
}
