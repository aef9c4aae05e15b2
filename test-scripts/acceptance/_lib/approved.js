// The approved set of parameters, by axis and name, in the unit of the drive description. Invented: put the numbers here
// that the parties have agreed on. A declared parameter that is missing here fails the trial, so nothing is forgotten.

const typeF = {
  productCode: [0xC4F25E91, "1"],
  firmware: [3.07, "1"],
  encoderCounts: [0, "count"],
  gearNumerator: [0, "1"],
  gearDenominator: [0, "1"],
  ratedTorque: [0, "Nm"],
  watchdogTime: [150, "ms"],
  positionWindow: [10, "count"],
  followingErrorTrip: [10000, "count"],
};

export const approved = {
  CARRIAGE: { ...typeF, serialNumber: [21156, "1"] },
  HOIST: { ...typeF, serialNumber: [29811, "1"] },
  TABLE: { ...typeF, serialNumber: [28030, "1"] },
};
