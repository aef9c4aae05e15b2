// What the trials must know of this machine beside the site file. Invented, like the whole rig: edit it for yours.
// Lengths are at the load. 1 rev is one turn of pulley, screw or table.

export const machine = {
  CARRIAGE: {
    serialNumber: 21156, productCode: 0xC4F25E91, firmware: 3.07,
    identification: { productCode: "TYPE-F", revision: "V1.4" },
    instrument: { instrument: "IND-1", unit: "mm" },
    hanging: false,
  },
  HOIST: {
    serialNumber: 29811, productCode: 0xC4F25E91, firmware: 3.07,
    identification: { productCode: "TYPE-F", revision: "V1.4" },
    instrument: { instrument: "IND-1", unit: "mm" },
    hanging: true,
  },
  TABLE: {
    serialNumber: 28030, productCode: 0xC4F25E91, firmware: 3.07,
    identification: { productCode: "TYPE-F", revision: "V1.4" },
    instrument: { instrument: "IND-2", unit: "deg" },
    hanging: false,
  },
};

// Bits of the digital inputs, CiA 402 object 60FDh.
export const input = { negativeLimit: 0x1, positiveLimit: 0x2, home: 0x4 };

// Homing methods of CiA 402.
export const homing = { negativeLimit: 17, positiveLimit: 18, homeSwitch: 23, homeSwitchAndIndex: 7 };

// Speeds at the motor shaft for every homing of these trials; put back when the trial ends.
export function setUpHoming(axis, method) {
  axis.setParameter("homingSpeedSwitch", 300, "rpm");
  axis.setParameter("homingSpeedZero", 60, "rpm");
  axis.setParameter("homingAcceleration", 3000, "rpm/s");
  axis.setParameter("homingMethod", method, "1");
}
