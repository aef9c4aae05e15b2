/**
 * What comes after a run: punch items, agreed deviations, re-issues of the report, several runs put together, and how the
 * acceptance stands by stated rules. The pack of the run is not touched; what is added later has a
 * chain of hashes of its own.
 */
@NullMarked
@CheckReturnValue
package org.axtrial.acceptance;

import com.google.errorprone.annotations.CheckReturnValue;
import org.jspecify.annotations.NullMarked;
