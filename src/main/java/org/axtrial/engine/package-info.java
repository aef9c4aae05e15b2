/** The JUnit Platform test engine: discovers trials, orders them, locks axes, cancels, and writes the evidence. */
@NullMarked
package org.axtrial.engine;

import org.jspecify.annotations.NullMarked;
