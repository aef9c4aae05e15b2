/**
 * The mechanics of a servo axis as a physical model: train of inertias, friction, brake, end stops, winding and encoder.
 * Knows nothing of drives and registers; SI units throughout, referred to the motor shaft.
 */
@NullMarked
package org.axtrial.plant;

import org.jspecify.annotations.NullMarked;
