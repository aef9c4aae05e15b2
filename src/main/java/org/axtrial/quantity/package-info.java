/** Units, values with their uncertainty, and the conversion between encoder counts and engineering units. */
@NullMarked
package org.axtrial.quantity;

import org.jspecify.annotations.NullMarked;
