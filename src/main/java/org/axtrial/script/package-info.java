/** The sandbox in which JavaScript trials run, and the words they may use. */
@NullMarked
package org.axtrial.script;

import org.jspecify.annotations.NullMarked;
