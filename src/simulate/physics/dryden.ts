import { noiseStream } from "./noise-stream.ts";

const FOOT = 0.3048;
const KNOT = 1852 / 3600;

/** Intensities in m/s and scale lengths in m of the Dryden model; those across the wind equal those along it. */
export interface DrydenScales {
  readonly along: { readonly sigma: number; readonly length: number };
  readonly vertical: { readonly sigma: number; readonly length: number };
}

/**
 * Low-altitude Dryden turbulence, below 1000 ft above ground.
 *
 * @param height m above ground; held within 10 and 1000 ft, where the formulas are meant to be used
 * @param wind20 kt, wind speed at 20 ft: 15 light, 30 moderate, 45 severe
 * @see MIL-F-8785C 3.7.3.4; MIL-HDBK-1797 appendix A
 */
export function drydenScales(height: number, wind20: number): DrydenScales {
  const feet = Math.min(1000, Math.max(10, height / FOOT));
  const shear = 0.177 + 0.000823 * feet;
  const sigma = 0.1 * wind20 * KNOT;
  return {
    along: { sigma: sigma / shear ** 0.4, length: (feet / shear ** 1.2) * FOOT },
    vertical: { sigma, length: feet * FOOT },
  };
}

/** Gust speeds in m/s, along and across the heading and downwards, that follow the Dryden spectra. */
export interface Gusts {
  /** along, across, down; renewed by `step` */
  readonly velocity: Float64Array;
  /** airspeed m/s, height m, wind at 20 ft in kt: what the spectra depend on; call when they have changed */
  tune(airspeed: number, height: number, wind20: number): void;
  step(): void;
}

/**
 * Gusts at a fixed time step, from white noise through the shaping filters of MIL-F-8785C, each made discrete
 * exactly (matrix exponential and its noise covariance) rather than by a rule of integration.
 *
 * @param dt s
 * @param seed of the random stream
 */
export function drydenGusts(dt: number, seed: number, stream = 0): Gusts {
  const noise = noiseStream(seed, stream);
  const velocity = new Float64Array(3);
  let along = 0;
  const across = doublePole(dt);
  const down = doublePole(dt);
  let phi = 0;
  let drive = 0;
  let sigmaAlong = 0;
  let sigmaDown = 0;
  return {
    velocity,
    tune(airspeed, height, wind20) {
      const scales = drydenScales(height, wind20);
      // Frozen turbulence needs some air to move past; below 1 m/s the gusts are taken to drift at 1 m/s.
      const speed = Math.max(1, airspeed);
      sigmaAlong = scales.along.sigma;
      sigmaDown = scales.vertical.sigma;
      phi = Math.exp((-speed * dt) / scales.along.length);
      drive = Math.sqrt(1 - phi * phi);
      across.tune(speed / scales.along.length);
      down.tune(speed / scales.vertical.length);
    },
    step() {
      along = phi * along + drive * noise.gaussian();
      velocity[0] = sigmaAlong * along;
      velocity[1] = sigmaAlong * across.step(noise.gaussian(), noise.gaussian());
      velocity[2] = sigmaDown * down.step(noise.gaussian(), noise.gaussian());
    },
  };
}

/**
 * (1 + sqrt(3) s / rate) / (1 + s / rate)^2 driven by white noise, scaled to unit variance: the shape of the lateral
 * and vertical Dryden spectra. It is split into two equal lags in a row, x and y, and read as sqrt(3) x + (1 - sqrt(3)) y.
 */
function doublePole(dt: number) {
  let x = 0;
  let y = 0;
  let decay = 0;
  let feed = 0;
  let noiseX = 0;
  let noiseXY = 0;
  let noiseY = 0;
  return {
    tune(rate: number) {
      const h = rate * dt;
      decay = Math.exp(-h);
      feed = decay * h;
      // Covariance of the noise of one step by Gauss-Legendre quadrature: the closed form cancels badly at small h.
      let xx = 0;
      let xy = 0;
      let yy = 0;
      for (let k = 0; k < NODES.length; k++) {
        const at = (h * (1 + NODES[k]!)) / 2;
        const weight = ((h * WEIGHTS[k]!) / 2) * Math.exp(-2 * at);
        xx += weight;
        xy += weight * at;
        yy += weight * at * at;
      }
      noiseX = Math.sqrt(xx);
      noiseXY = xy / noiseX;
      noiseY = Math.sqrt(Math.max(0, yy - noiseXY * noiseXY));
    },
    step(first: number, second: number) {
      y = decay * y + feed * x + noiseXY * first + noiseY * second;
      x = decay * x + noiseX * first;
      return Math.sqrt(3) * x + (1 - Math.sqrt(3)) * y;
    },
  };
}

const NODES = [-0.906179845938664, -0.538469310105683, 0, 0.538469310105683, 0.906179845938664];
const WEIGHTS = [0.236926885056189, 0.478628670499366, 0.568888888888889, 0.478628670499366, 0.236926885056189];
