/** Moves in engineering units within an enforced envelope, sampling while in motion, and the latched safe stop. */
@NullMarked
package org.axtrial.axis;

import org.jspecify.annotations.NullMarked;
