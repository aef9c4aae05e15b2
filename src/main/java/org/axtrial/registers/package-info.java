/**
 * The drive description and its register map: typed signals, word order, byte order and scale. Turns registers into
 * values and back and plans block reads; does no input or output itself.
 */
@NullMarked
package org.axtrial.registers;

import org.jspecify.annotations.NullMarked;
