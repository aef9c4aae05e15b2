/**
 * Clocks (system and virtual), deadlines and delays. The only package that sleeps or reads a clock, so that everything
 * else runs unchanged in real and in virtual time.
 */
@NullMarked
package org.axtrial.time;

import org.jspecify.annotations.NullMarked;
