package org.axtrial.script;

import java.util.Collection;
import java.util.Comparator;
import java.util.Locale;
import java.util.Optional;

/** Finds the word that was probably meant. */
final class NearMiss {

    private NearMiss() {}

    /** The closest known word, if it is so close that a slip of the fingers explains the difference. */
    static Optional<String> of(String asked, Collection<String> known) {
        return known.stream()
                .filter(word -> distance(asked, word) <= tolerated(asked))
                .min(Comparator.comparingInt((String word) -> distance(asked, word))
                        .thenComparing(Comparator.naturalOrder()));
    }

    /** A half sentence for the end of a message: the near miss if there is one, else all that is known. */
    static String hint(String asked, Collection<String> known) {
        return of(asked, known)
                .map(word -> "did you mean \"" + word + "\"?")
                .orElseGet(() -> "known: " + String.join(", ", known));
    }

    private static int tolerated(String asked) {
        return Math.max(1, asked.length() / 3);
    }

    /** Edit distance with swapped neighbours as one edit, capitals apart (Damerau, optimal string alignment). */
    private static int distance(String first, String second) {
        String a = first.toLowerCase(Locale.ROOT);
        String b = second.toLowerCase(Locale.ROOT);
        int[][] d = new int[a.length() + 1][b.length() + 1];
        for (int i = 0; i <= a.length(); i++) {
            d[i][0] = i;
        }
        for (int j = 0; j <= b.length(); j++) {
            d[0][j] = j;
        }
        for (int i = 1; i <= a.length(); i++) {
            for (int j = 1; j <= b.length(); j++) {
                int change = a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1;
                d[i][j] = Math.min(Math.min(d[i - 1][j] + 1, d[i][j - 1] + 1), d[i - 1][j - 1] + change);
                if (i > 1 && j > 1 && a.charAt(i - 1) == b.charAt(j - 2) && a.charAt(i - 2) == b.charAt(j - 1)) {
                    d[i][j] = Math.min(d[i][j], d[i - 2][j - 2] + 1);
                }
            }
        }
        return d[a.length()][b.length()];
    }
}
