/** Numbers of the random streams of a flight; a fault's own noise begins at `faults`. */
export const STREAM = {
  gusts: 0,
  gyro: 1,
  accelerometer: 2,
  unrest: 3,
  attitude: 4,
  position: 5,
  velocity: 6,
  rows: 7,
  stamps: 90,
  faults: 100,
};
