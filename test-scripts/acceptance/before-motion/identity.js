// 1  Identity
//
// Purpose   The drive behind each address is the one of the equipment list, with the firmware that was approved.
// Method    Reads product code, firmware and serial number, and what the drive says of itself (Modbus function 43), and holds all
//           against the list in _lib/machine.js. Leave out the last check for a drive that does not know the function.
// Cautions  Nothing moves. A wrong drive that answers here would be moved by all that follows: stop at the first FAIL.
//           Rules of the place and people licensed for the work come first.
// Source    Common practice, no source.
import { trial, nominal, atMost } from "axtrial";
import { machine } from "../_lib/machine.js";

trial("The drive is the one of the equipment list", {
  id: "IDN-01", number: 1, axes: "all", tags: ["before motion"],
}, (axis, t) => {
  const listed = machine[axis.name];
  t.check("Product code", axis.parameter("productCode"), nominal(listed.productCode, "1").plusMinus(0.5, "1"));
  t.check("Firmware", axis.parameter("firmware"), nominal(listed.firmware, "1").plusMinus(0.005, "1"));
  t.check("Texts that differ", axis.deviceIdentification(listed.identification), atMost(0, "1"));
  t.check("Serial number", axis.parameter("serialNumber"), nominal(listed.serialNumber, "1").plusMinus(0.5, "1"));
});
