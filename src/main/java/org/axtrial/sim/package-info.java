/** The simulated servo drive: plant, control loops, firmware and faults, served over Modbus TCP or linked in process. */
@NullMarked
package org.axtrial.sim;

import org.jspecify.annotations.NullMarked;
