/**
 * Records of what was done and measured: the journal on disk, the record with its schema, hashes, and comparison.
 * Nothing here is ever rewritten, only appended.
 */
@NullMarked
package org.axtrial.evidence;

import org.jspecify.annotations.NullMarked;
