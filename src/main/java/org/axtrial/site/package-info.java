/** Loads the site file and its drive descriptions, opens the axes, real or simulated, and owns them until they are closed. */
@NullMarked
package org.axtrial.site;

import org.jspecify.annotations.NullMarked;
