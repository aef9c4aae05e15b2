package org.axtrial.site;

import org.snakeyaml.engine.v2.exceptions.Mark;

/**
 * A place in a YAML file.
 *
 * @param line from 1; 0 if unknown
 * @param column from 1; 0 if unknown
 */
record YamlPlace(int line, int column) {

    static final YamlPlace NOWHERE = new YamlPlace(0, 0);
    static final YamlPlace TOP = new YamlPlace(1, 1);

    /** Marks of the parser count from 0. */
    static YamlPlace of(Mark mark) {
        return new YamlPlace(mark.getLine() + 1, mark.getColumn() + 1);
    }
}
