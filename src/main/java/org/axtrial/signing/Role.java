package org.axtrial.signing;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** As what somebody signs. */
public enum Role {
    /** Ran the trials. */
    TESTER,
    /** Was there and saw them. */
    WITNESS,
    /** Takes the machine over. */
    CUSTOMER,
    /** Answers for the result. */
    APPROVER;

    /** The role as it stands in commands, statements and file names. */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** The role of a word. */
    public static Optional<Role> of(String word) {
        return Arrays.stream(values()).filter(role -> role.word().equals(word)).findFirst();
    }
}
