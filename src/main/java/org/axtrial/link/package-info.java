/**
 * Register access over Modbus TCP, over serial Modbus through a TCP gateway, and over a serial port. Reads may be
 * repeated, a write is sent at most once, one deadline bounds each exchange, and one connection serves all units behind
 * an endpoint.
 */
@NullMarked
package org.axtrial.link;

import org.jspecify.annotations.NullMarked;
