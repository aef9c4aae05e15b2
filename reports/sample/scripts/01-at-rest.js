// Before anything moves: does the axis stand still, and does it stay where it is when torque comes on?
// Invented demonstration. The limits are common practice, no source; edit them for your machine.
import { trial, nominal, atMost } from "axtrial";

trial("Stands still without torque", { id: "RST-01", axes: "all", clause: "DEMO 3.1" }, (axis, t) => {
  const rest = axis.dwell(500, "ms");
  t.check("Drift in 0.5 s", rest.drift(), nominal(0, "count").plusMinus(8, "count"));
});

trial("Torque comes on without a jump", { id: "RST-02", axes: "all", clause: "DEMO 3.2" }, (axis, t) => {
  axis.enable();
  const held = axis.dwell(500, "ms");
  t.check("Drift in 0.5 s under torque", held.drift(), nominal(0, "count").plusMinus(8, "count"));
  t.check("Torque to hold the load", held.peakTorque(), atMost(60, "%"));
});
