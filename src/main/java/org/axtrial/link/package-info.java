/**
 * Register access over Modbus TCP. Reads may be repeated, a write is sent at most once, and one deadline bounds each
 * exchange.
 */
@NullMarked
package org.axtrial.link;

import org.jspecify.annotations.NullMarked;
