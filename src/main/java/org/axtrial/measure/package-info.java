/**
 * Pure functions from a trace or from readings to a measurement with its standard uncertainty, and from a measurement
 * and a criterion to a verdict.
 */
@NullMarked
package org.axtrial.measure;

import org.jspecify.annotations.NullMarked;
