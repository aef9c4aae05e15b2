package org.axtrial.survey;

/**
 * A line of a file that a person should look at.
 *
 * @param file empty string if unknown
 * @param line from 1; 0 if unknown
 * @param key the key to change
 * @param was what stands there; empty string if the key is not there yet
 * @param becomes what would explain the value
 */
record Correction(String file, int line, String key, String was, String becomes) {

    String printed() {
        String place = file.isEmpty() ? "" : file + ":" + line + ": ";
        return place + (was.isEmpty() ? "add " + key + ": " + becomes : key + ": " + was + " → " + becomes);
    }
}
