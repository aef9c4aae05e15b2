/** Signals by name over a link, and the ways in which a drive takes commands: the CiA 402 states and the direct style. */
@NullMarked
package org.axtrial.drive;

import org.jspecify.annotations.NullMarked;
