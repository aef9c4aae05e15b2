/** Sampled signals with their time stamps, and the gaps between them where no sample came. */
@NullMarked
package org.axtrial.trace;

import org.jspecify.annotations.NullMarked;
