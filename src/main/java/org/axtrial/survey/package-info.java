/**
 * Looks at drives without writing: whether the link is sound, whether the right drive answers, whether its numbers are
 * read right, and what its parameters are. What does not fit is diagnosed; nothing is ever changed.
 */
@NullMarked
package org.axtrial.survey;

import org.jspecify.annotations.NullMarked;
