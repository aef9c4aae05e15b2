package org.axtrial.quantity;

import java.util.Collection;
import java.util.Locale;
import java.util.Optional;

/** Finds the word that was probably meant: a unit, or a word, key or name of a file or script that holds quantities. */
public final class NearMiss {

    private NearMiss() {}

    /** {@code "; did you mean \"speed\"?"}, or nothing if no known word is close. */
    public static String hint(String found, Collection<String> known) {
        return find(found, known)
                .map(word -> "; did you mean \"" + word + "\"?")
                .orElse("");
    }

    /** {@code did you mean "speed"?}, or all known words if none is close; for the end of a message. */
    public static String hintOrAll(String found, Collection<String> known) {
        return find(found, known)
                .map(word -> "did you mean \"" + word + "\"?")
                .orElseGet(() -> "known: " + String.join(", ", known));
    }

    /** The closest known word, if one is close: a third of the letters may differ, at least one. */
    public static Optional<String> find(String found, Collection<String> known) {
        Optional<String> best = Optional.empty();
        int least = Math.max(1, found.length() / 3) + 1;
        for (String word : known) {
            int distance = distance(found.toLowerCase(Locale.ROOT), word.toLowerCase(Locale.ROOT));
            if (distance < least) {
                least = distance;
                best = Optional.of(word);
            }
        }
        return best;
    }

    /** Insertions, deletions, substitutions and swaps of neighbours that lead from one word to the other. */
    static int distance(String from, String to) {
        int[][] cost = new int[from.length() + 1][to.length() + 1];
        for (int i = 0; i <= from.length(); i++) {
            for (int j = 0; j <= to.length(); j++) {
                if (i == 0 || j == 0) {
                    cost[i][j] = i + j;
                    continue;
                }
                int replace = cost[i - 1][j - 1] + (from.charAt(i - 1) == to.charAt(j - 1) ? 0 : 1);
                cost[i][j] = Math.min(replace, Math.min(cost[i - 1][j], cost[i][j - 1]) + 1);
                boolean swapped = i > 1
                        && j > 1
                        && from.charAt(i - 1) == to.charAt(j - 2)
                        && from.charAt(i - 2) == to.charAt(j - 1);
                if (swapped) {
                    cost[i][j] = Math.min(cost[i][j], cost[i - 2][j - 2] + 1);
                }
            }
        }
        return cost[from.length()][to.length()];
    }
}
