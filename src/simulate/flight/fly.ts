import { controlAxes } from "../control/control-axes.ts";
import { createController, type Wanted, wrap } from "../control/controller.ts";
import type { Fault } from "../faults/fault.ts";
import { strengthAt } from "../faults/fault.ts";
import type { Patient } from "../faults/fault-effect.ts";
import { faultEffect } from "../faults/fault-effects.ts";
import { type Plan, planMission } from "../mission/plan.ts";
import { createBattery } from "../physics/battery.ts";
import { drydenGusts } from "../physics/dryden.ts";
import { noiseStream } from "../physics/noise-stream.ts";
import { createRigidBody, STATE, type Surroundings } from "../physics/rigid-body.ts";
import { rotorPower } from "../physics/rotor-power.ts";
import { createVehicle, placeMotors, restoreVehicle } from "../physics/vehicle.ts";
import type { Scenario } from "../scenario/scenario.ts";
import { GRAVITY, type Setup, setUp } from "../scenario/setup.ts";
import { createRecorder, type Recording } from "./recorder.ts";
import { runningLowpass, wanderer } from "./sensors.ts";

/** s between two ticks of the plan: guidance, slow sensors and fault strengths are renewed at each */
export const PLAN_INTERVAL = 0.02;

/** Numbers of the random streams; a fault's own noise begins at `faults`. */
const STREAM = {
  gusts: 0,
  gyro: 1,
  accelerometer: 2,
  unrest: 3,
  attitude: 4,
  position: 5,
  velocity: 6,
  rows: 7,
  faults: 100,
};

/** rad/s, bandwidth of the unsteady flow through the rotors */
const UNREST_BANDWIDTH = 18;

/** A flight as it happened. */
export interface Flown {
  readonly setup: Setup;
  readonly plan: Plan;
  readonly recording: Recording;
}

/**
 * Flies a scenario from its first second to its last, step by step.
 *
 * @param faults which of the scenario's faults take part; all if left out (those left out keep their random streams)
 */
export function fly(scenario: Scenario, faults: readonly Fault[] = scenario.faults): Flown {
  const setup = setUp(scenario);
  const plan = planMission(scenario.mission, PLAN_INTERVAL);
  return { setup, plan, recording: run(setup, plan, faults) };
}

function run(setup: Setup, plan: Plan, faults: readonly Fault[]): Recording {
  const { scenario, vehicle: healthy, rotor } = setup;
  const { aircraft, seed, step: dt, air, sensors, controller: control, log } = scenario;
  const vehicle = createVehicle(aircraft, healthy.body, GRAVITY);
  const motors = vehicle.motors;
  const around: Surroundings = {
    gravity: GRAVITY,
    density: air.density,
    wind: new Float64Array(3),
    push: new Float64Array(6),
    command: new Float64Array(motors),
    thrustFactor: 1,
  };
  const body = createRigidBody(vehicle, around);
  const { state } = body;
  const axes = controlAxes(aircraft, vehicle);
  const totalThrust = vehicle.maxThrust.reduce((sum, thrust) => sum + thrust, 0);
  const controller = createController({
    gains: setup.gains,
    axes,
    allocation: control.allocation,
    windup: control.windup,
    limit: setup.integratorLimit,
    floor: setup.idle ** vehicle.exponent,
    tilt: control.tilt,
    hover: (vehicle.mass * GRAVITY) / totalThrust,
    gravity: GRAVITY,
    motors,
  });
  const { signals } = controller;
  const wanted: Wanted = {
    position: new Float64Array(3),
    velocity: new Float64Array(3),
    acceleration: new Float64Array(3),
    heading: 0,
    headingRate: 0,
    stick: new Float64Array(3).fill(Number.NaN),
    flying: false,
  };

  // Faults
  const patient: Patient = {
    vehicle,
    controller,
    outputDelay: new Float64Array(3),
    air: { gusts: air.gusts },
    gyro: { limit: sensors.gyro.limit },
    shake: new Float64Array(motors),
  };
  const effects = faults.flatMap((fault) => {
    const effect = faultEffect(fault, setup, STREAM.faults + scenario.faults.indexOf(fault));
    return effect === null ? [] : [{ fault, effect, strength: 0 }];
  });
  const instant = {
    time: 0,
    dt,
    state,
    specificForce: body.specificForce,
    airVelocity: body.airVelocity,
    density: air.density,
  };
  function renewFaults(time: number): void {
    let changed = false;
    for (const entry of effects) {
      const strength = strengthAt(entry.fault, time);
      if (strength !== entry.strength) changed = true;
      entry.strength = strength;
    }
    if (!changed) return;
    restoreVehicle(vehicle, healthy);
    controller.gainFactor.fill(1);
    patient.outputDelay.fill(0);
    patient.shake.fill(0);
    patient.air.gusts = air.gusts;
    patient.gyro.limit = sensors.gyro.limit;
    for (const { effect, strength } of effects) if (strength > 0) effect.adjust?.(patient, strength);
    placeMotors(vehicle);
    findTrim();
  }

  /** The axis outputs that hold the aircraft level in hover, as its legs make the loops feel before lift-off. */
  function findTrim(): void {
    const each = (vehicle.mass * GRAVITY) / totalThrust;
    for (let k = 0; k < 3; k++) {
      let moment = 0;
      for (let i = 0; i < motors; i++) moment += vehicle.wrench[6 * i + 3 + k]! * vehicle.maxThrust[i]! * each;
      controller.trim[k] = -moment / axes.moment[k]!;
    }
  }
  findTrim();

  // Sensors and air
  const gusts = drydenGusts(dt, seed, STREAM.gusts);
  const gyroNoise = noiseStream(seed, STREAM.gyro);
  const accelerationNoise = noiseStream(seed, STREAM.accelerometer);
  const unrestNoise = noiseStream(seed, STREAM.unrest);
  const rowNoise = noiseStream(seed, STREAM.rows);
  const attitudeError = wanderer(3, 4, PLAN_INTERVAL, seed, STREAM.attitude);
  const positionError = wanderer(3, 15, PLAN_INTERVAL, seed, STREAM.position);
  const velocityError = wanderer(3, 3, PLAN_INTERVAL, seed, STREAM.velocity);
  const gyroFilter = runningLowpass(sensors.gyro.lowpass, 1 / dt, 3);
  const accelerationFilter = runningLowpass(sensors.gyro.lowpass, 1 / dt, 3);
  const acceleration = new Float64Array(3);
  // The size of white noise goes with the root of the rate at which it is drawn; it is stated for 1 kHz.
  const noiseScale = Math.sqrt(0.001 / dt);
  const unrest = new Float64Array(3);
  const unrestKeep = Math.exp(-UNREST_BANDWIDTH * dt);
  const unrestDrive = Math.sqrt(1 - unrestKeep * unrestKeep);
  const phase = new Float64Array(motors);
  const rotorSpeed = new Float64Array(motors);
  const windFrom = (air.wind.from * Math.PI) / 180;
  const steadyNorth = -air.wind.speed * Math.cos(windFrom);
  const steadyEast = -air.wind.speed * Math.sin(windFrom);
  const lever = 0.15 * Math.hypot(aircraft.motors[0]!.x, aircraft.motors[0]!.y);

  const battery = createBattery(setup.battery);
  const perShare = 1 / vehicle.exponent;
  const ring = 2 ** Math.ceil(Math.log2(0.5 / dt));
  const sent = new Float64Array(motors * ring);
  const outputs = new Float64Array(3 * ring);
  const held = new Float64Array(3);
  const fraction = new Float64Array(motors);
  const commandDelay = Math.round(control.delay / dt);
  let onGround = plan.flying[0] === 0;
  const hover = (vehicle.mass * GRAVITY) / totalThrust;
  for (let i = 0; i < motors; i++) {
    fraction[i] = onGround ? setup.idle : Math.max(setup.idle, (axes.lift[i]! * hover) ** perShare);
    state[STATE.rotor + i] = fraction[i]!;
    for (let slot = 0; slot < ring; slot++) sent[slot * motors + i] = fraction[i]!;
  }
  state[2] = plan.position[2]![0]!;

  const euler = new Float64Array(3);
  const total = Math.round((plan.ticks * PLAN_INTERVAL) / dt);
  const perPlan = Math.round(PLAN_INTERVAL / dt);
  const perControl = Math.max(1, Math.round(1 / (control.frequency * dt)));
  const perRow = 1 / log.rate;
  const recorder = createRecorder(
    Math.ceil(total * dt * log.rate) + 2,
    readers({
      setup,
      signals,
      fraction,
      rotorSpeed,
      battery,
      acceleration,
      state,
      body,
      plan,
      tick: () => tick,
      isAloft: () => !onGround,
    }),
  );
  // A second on the ground before the log begins, so that it does not begin with the filters' own start.
  for (let n = 0; n * dt < 1; n++) acceleration[2] = accelerationFilter.run(2, -GRAVITY);
  for (let i = 0; i < motors; i++) rotorSpeed[i] = speedOf(fraction[i]!);
  let tick = 0;
  let nextRow = 0;
  let rowNumber = 0;
  let crash: number | null = null;

  for (let n = 0; n < total; n++) {
    const time = n * dt;
    instant.time = time;

    if (n % perPlan === 0) {
      tick = Math.min(plan.ticks - 1, n / perPlan);
      renewFaults(time);
      attitudeError.step();
      positionError.step();
      velocityError.step();
      for (let k = 0; k < 3; k++) {
        wanted.position[k] = plan.position[k]![tick]!;
        wanted.velocity[k] = plan.velocity[k]![tick]!;
        wanted.acceleration[k] = plan.acceleration[k]![tick]!;
        wanted.stick[k] = plan.stick[k]![tick]!;
        signals.position[k] = state[k]! + sensors.position * positionError.values[k]!;
        signals.velocity[k] = state[3 + k]! + sensors.velocity * velocityError.values[k]!;
      }
      const later = plan.heading[Math.min(plan.ticks - 1, tick + 1)]!;
      wanted.heading = plan.heading[tick]!;
      wanted.headingRate = (later - wanted.heading) / PLAN_INTERVAL;
      const hasLanded = onGround && wanted.velocity[2]! > 0;
      wanted.flying = plan.flying[tick] === 1 && crash === null && !hasLanded;
      controller.guide(wanted, PLAN_INTERVAL);
      const speed = Math.hypot(state[3]! - steadyNorth, state[4]! - steadyEast, state[5]!);
      gusts.tune(speed, -state[2]!, patient.air.gusts);
    }

    // What the gyro shows
    for (let k = 0; k < 3; k++) {
      const shaken = vibration(k);
      const raw = state[STATE.rate + k]! + shaken + sensors.gyro.noise * noiseScale * gyroNoise.gaussian();
      const { limit } = patient.gyro;
      signals.rateMeasured[k] = gyroFilter.run(k, Math.max(-limit, Math.min(limit, raw)));
    }

    if (n % perControl === 0) {
      readEuler(state, euler);
      for (let k = 0; k < 3; k++) {
        signals.attitudeMeasured[k] = euler[k]! + sensors.attitude * attitudeError.values[k]!;
      }
      controller.steer(wanted, perControl * dt);
    }
    const slot = n & (ring - 1);
    for (let k = 0; k < 3; k++) {
      outputs[3 * slot + k] = signals.output[k]!;
      const back = Math.min(n, Math.round(patient.outputDelay[k]! / dt));
      held[k] = outputs[3 * ((n - back) & (ring - 1)) + k]!;
    }
    if (n % perControl === 0) {
      controller.share(held, wanted.flying);
      for (let i = 0; i < motors; i++) {
        const share = signals.share[i]!;
        fraction[i] = vehicle.exponent === 2 ? Math.sqrt(share) : share ** perShare;
      }
    }
    const from = ((n - Math.min(n, commandDelay)) & (ring - 1)) * motors;
    for (let i = 0; i < motors; i++) {
      sent[slot * motors + i] = fraction[i]!;
      around.command[i] = sent[from + i]!;
    }

    // Air, and moments from outside
    gusts.step();
    const cos = Math.cos(wanted.heading);
    const sin = Math.sin(wanted.heading);
    around.wind[0] = steadyNorth + cos * gusts.velocity[0]! - sin * gusts.velocity[1]!;
    around.wind[1] = steadyEast + sin * gusts.velocity[0]! + cos * gusts.velocity[1]!;
    around.wind[2] = gusts.velocity[2]!;
    around.push.fill(0);
    const rough = setup.unrest * (1 + patient.air.gusts / 15);
    for (let k = 0; k < 3; k++) {
      unrest[k] = unrestKeep * unrest[k]! + unrestDrive * unrestNoise.gaussian();
      around.push[3 + k] = rough * unrest[k]! * (k === 2 ? 0.3 : 1);
    }
    for (const { effect, strength } of effects) {
      if (strength > 0 && effect.push !== undefined) effect.push(instant, strength, around.push);
    }

    if (time >= nextRow) {
      recorder.record(time);
      rowNumber++;
      nextRow = rowNumber * perRow + Math.min(0.4 * perRow, Math.abs(log.jitter * rowNoise.gaussian()));
    }

    body.step(dt);
    keepAboveGround(time);
    const { airVelocity, specificForce, thrust } = body;
    const across = Math.hypot(airVelocity[0]!, airVelocity[1]!);
    let shaft = 0;
    for (let i = 0; i < motors; i++) {
      shaft += rotorPower(thrust[i]!, rotor, air.density, across, -airVelocity[2]!);
      rotorSpeed[i] = speedOf(state[STATE.rotor + i]!);
      phase[i] = (phase[i]! + rotorSpeed[i]! * dt) % (2 * Math.PI);
    }
    battery.draw(shaft, dt);
    if (setup.battery.sag) around.thrustFactor = (battery.voltage / setup.battery.nominal) ** 2;
    for (let k = 0; k < 3; k++) {
      const felt = onGround ? (k === 2 ? -GRAVITY : 0) : specificForce[k]!;
      const raw = felt + shaking(k) + sensors.accelerometer * noiseScale * accelerationNoise.gaussian();
      acceleration[k] = accelerationFilter.run(k, raw);
    }
  }

  const aloft = recorder.channels().get("true.aloft")!;
  return {
    rows: recorder.count(),
    time: recorder.time(),
    channels: withoutPrefix(recorder.channels(), "true."),
    mode: Array.from(recorder.channels().get("true.mode")!, (index) => plan.modes[index]!),
    isAloft: (row) => aloft[row] === 1,
    trueRate: ["roll", "pitch", "yaw"].map((axis) => recorder.channels().get(`true.${axis}`)!) as unknown as [
      Float64Array,
      Float64Array,
      Float64Array,
    ],
    crash,
  };

  /** rad/s of a rotor that has reached this command fraction: thrust goes with the square of its speed. */
  function speedOf(reached: number): number {
    const relative = vehicle.exponent === 2 ? reached : Math.max(0, reached) ** (vehicle.exponent / 2);
    return rotor.speed * relative * Math.sqrt(around.thrustFactor);
  }

  /** N, what the imbalance of rotor i pulls with now: it grows with the square of its speed. */
  function pull(i: number): number {
    const relative = rotorSpeed[i]! / rotor.speed;
    return (rotor.imbalance + patient.shake[i]!) * relative * relative;
  }

  /** rad/s that rotor imbalance shakes into the gyro on an axis. */
  function vibration(k: number): number {
    let rate = 0;
    for (let i = 0; i < motors; i++) {
      const turning = rotorSpeed[i]!;
      if (turning < 1) continue;
      const arm = k === 2 ? 0.2 * lever : lever;
      rate += (pull(i) * arm * (k === 0 ? Math.sin(phase[i]!) : Math.cos(phase[i]!))) / (vehicle.inertia[k]! * turning);
    }
    return rate;
  }

  /** m/s^2 that rotor imbalance shakes into the accelerometer on an axis. */
  function shaking(k: number): number {
    let force = 0;
    for (let i = 0; i < motors; i++) {
      force += pull(i) * (k === 0 ? Math.cos(phase[i]!) : k === 1 ? Math.sin(phase[i]!) : 0.5 * Math.cos(phase[i]!));
    }
    return force / vehicle.mass;
  }

  /** The ground holds the aircraft level where it stands; a hard or tilted arrival ends the flight. */
  function keepAboveGround(time: number): void {
    onGround = state[2]! >= 0;
    if (!onGround) return;
    readEuler(state, euler);
    const isHard = state[5]! > 4 || Math.abs(euler[0]!) > 0.7 || Math.abs(euler[1]!) > 0.7;
    if (isHard && crash === null) crash = time;
    state[2] = 0;
    if (state[5]! < 0) return;
    state.fill(0, STATE.velocity, STATE.velocity + 3);
    state.fill(0, STATE.rate, STATE.rate + 3);
    state[6] = Math.cos(euler[2]! / 2);
    state[7] = 0;
    state[8] = 0;
    state[9] = Math.sin(euler[2]! / 2);
  }
}

interface Readable {
  readonly setup: Setup;
  readonly signals: ReturnType<typeof createController>["signals"];
  readonly fraction: Float64Array;
  readonly rotorSpeed: Float64Array;
  readonly battery: ReturnType<typeof createBattery>;
  readonly acceleration: Float64Array;
  readonly state: Float64Array;
  readonly body: ReturnType<typeof createRigidBody>;
  readonly isAloft: () => boolean;
  readonly plan: Plan;
  readonly tick: () => number;
}

/** What is written down at each row, by contract name. */
function readers(from: Readable): Map<string, () => number> {
  const { setup, signals, fraction, rotorSpeed, battery, acceleration, state, body, plan, tick } = from;
  const { min, max } = setup.scenario.aircraft.command;
  const map = new Map<string, () => number>();
  for (const [k, axis] of (["roll", "pitch", "yaw"] as const).entries()) {
    map.set(`rate.${axis}.measured`, () => signals.rateMeasured[k]!);
    map.set(`rate.${axis}.setpoint`, () => signals.rateSetpoint[k]!);
    map.set(`rate.${axis}.integrator`, () => signals.integrator[k]!);
    map.set(`rate.${axis}.output`, () => signals.output[k]!);
    map.set(`attitude.${axis}.measured`, () => wrap(signals.attitudeMeasured[k]!));
    map.set(`attitude.${axis}.setpoint`, () => wrap(signals.attitudeSetpoint[k]!));
    map.set(`true.${axis}`, () => state[STATE.rate + k]!);
  }
  for (let i = 0; i < fraction.length; i++) {
    map.set(`motor.${i + 1}.command`, () => min + fraction[i]! * (max - min));
    map.set(`motor.${i + 1}.speed`, () => rotorSpeed[i]!);
  }
  const heading = () => signals.attitudeMeasured[2]!;
  map.set("collective.demand", () => signals.collective);
  map.set("acceleration.x", () => acceleration[0]!);
  map.set("acceleration.y", () => acceleration[1]!);
  map.set("acceleration.z", () => acceleration[2]!);
  map.set("altitude", () => -signals.position[2]!);
  map.set("velocity.north", () => signals.velocity[0]!);
  map.set("velocity.east", () => signals.velocity[1]!);
  map.set("velocity.down", () => signals.velocity[2]!);
  map.set("velocity.forward", () => along(signals.velocity, heading()));
  map.set("velocity.right", () => along(signals.velocity, heading() + Math.PI / 2));
  map.set("speed.ground", () => Math.hypot(signals.velocity[0]!, signals.velocity[1]!));
  map.set("speed.air", () => Math.hypot(body.airVelocity[0]!, body.airVelocity[1]!, body.airVelocity[2]!));
  map.set("heading", () => (heading() + 2 * Math.PI) % (2 * Math.PI));
  map.set("battery.voltage", () => battery.voltage);
  map.set("battery.current", () => battery.current);
  map.set("true.aloft", () => (from.isAloft() ? 1 : 0));
  map.set("true.mode", () => plan.mode[tick()]!);
  return map;
}

function along(velocity: Float64Array, heading: number): number {
  return Math.cos(heading) * velocity[0]! + Math.sin(heading) * velocity[1]!;
}

/** Euler angles (yaw, then pitch, then roll; ISO 1151-2) of the attitude quaternion. */
function readEuler(state: Float64Array, euler: Float64Array): void {
  const a = state[6]!;
  const b = state[7]!;
  const c = state[8]!;
  const d = state[9]!;
  euler[0] = Math.atan2(2 * (a * b + c * d), 1 - 2 * (b * b + c * c));
  euler[1] = Math.asin(Math.max(-1, Math.min(1, 2 * (a * c - d * b))));
  euler[2] = Math.atan2(2 * (a * d + b * c), 1 - 2 * (c * c + d * d));
}

function withoutPrefix(channels: ReadonlyMap<string, Float64Array>, prefix: string): Map<string, Float64Array> {
  return new Map([...channels].filter(([name]) => !name.startsWith(prefix)));
}
