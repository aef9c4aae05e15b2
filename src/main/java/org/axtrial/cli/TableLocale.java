package org.axtrial.cli;

import java.util.List;
import java.util.Locale;

/** How a table for spreadsheet programs writes numbers. */
final class TableLocale {

    /** What holds if nothing is asked for: a decimal point. */
    static final String DEFAULT = "en-GB";

    private TableLocale() {}

    /** @throws WrongUseException if this Java knows no such locale */
    static Locale of(String tag) {
        Locale known = Locale.forLanguageTag(tag);
        if (known.getLanguage().isEmpty()
                || !List.of(Locale.getAvailableLocales()).contains(known)) {
            throw new WrongUseException("--locale " + tag + " is not known; give one such as de-DE or en-GB");
        }
        return known;
    }
}
