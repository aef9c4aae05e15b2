package org.axtrial.site;

import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Pattern;

/**
 * What is taken as the name of a person who releases a hold point or witnesses a trial: a first and a last name, the first
 * may be an initial. Years later somebody must be able to ask this person, and a slip such as {@code y} must not set an axis
 * free. Common practice, no source.
 */
public final class PersonName {

    /** What is expected, for messages. */
    public static final String EXPECTED =
            "first and last name of the person, for example A. Example (who has one name adds the firm)";

    /** Words that people type to say yes or no, or that they are there; none of them names anybody. */
    private static final Set<String> NO_NAMES =
            Set.of(("y yes yep yeah ok okay sure true go ahead ready done released release"
                            + " accepted agreed present n no not nope none nobody false i me myself all clear good fine")
                    .split(" "));

    private static final Set<String> CONSENT = Set.of("yes", "ok", "okay", "yep", "yeah");

    private static final Pattern BLANKS = Pattern.compile("[\\s\\u00a0]+");

    private static final Pattern INITIAL = Pattern.compile("\\p{L}\\.,?");

    private PersonName() {}

    /**
     * Whether a text can be the full name of a person. Scripts without capital letters are often written without a blank
     * between the names; two letters are enough there.
     */
    public static boolean isFull(String text) {
        List<String> parts = BLANKS.splitAsStream(text.strip())
                .filter(part -> part.codePoints().anyMatch(Character::isLetter))
                .toList();
        if (parts.stream().allMatch(PersonName::isNoName)) {
            return false;
        }
        boolean cased = text.codePoints().anyMatch(c -> Character.isUpperCase(c) || Character.isLowerCase(c));
        boolean whole = parts.stream()
                .anyMatch(part -> part.codePoints().filter(Character::isLetter).count() >= 2);
        return whole && (!cased || parts.size() >= 2) && !isConsent(parts.get(0));
    }

    /** An initial is a part of a name, whatever a single letter may mean elsewhere. */
    private static boolean isNoName(String part) {
        return !INITIAL.matcher(part).matches() && NO_NAMES.contains(bare(part));
    }

    /** Who types yes before the name is not known by it. */
    private static boolean isConsent(String first) {
        return CONSENT.contains(bare(first));
    }

    private static String bare(String part) {
        return part.replaceAll("\\P{L}", "").toLowerCase(Locale.ROOT);
    }
}
