/** Reports for people and for other programs, made from evidence alone, so that any of them can be rebuilt years later. */
@NullMarked
package org.axtrial.report;

import org.jspecify.annotations.NullMarked;
