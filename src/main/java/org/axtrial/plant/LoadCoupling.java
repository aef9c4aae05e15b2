package org.axtrial.plant;

/**
 * What joins the loads of two axes, told in the coordinates of the loads: m, kg and N on linear axes, rad, kg·m² and N·m on
 * rotary ones. Both axes are of one kind and their positive directions are the same in space.
 */
public sealed interface LoadCoupling permits GantryBeam, LoadTransfer {}
