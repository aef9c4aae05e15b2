/** The commands: reads the command line, wires the other packages together, prints progress and sets the exit code. */
@NullMarked
package org.axtrial.cli;

import org.jspecify.annotations.NullMarked;
