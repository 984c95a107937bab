import { controlAxes } from "../control/control-axes.ts";
import { type Controller, createController, type Wanted } from "../control/controller.ts";
import type { Fault } from "../faults/fault.ts";
import type { Patient } from "../faults/fault-effect.ts";
import { type Plan, planMission } from "../mission/plan.ts";
import { createBattery } from "../physics/battery.ts";
import { createRigidBody, STATE, type Surroundings } from "../physics/rigid-body.ts";
import { rotorPower } from "../physics/rotor-power.ts";
import { createVehicle } from "../physics/vehicle.ts";
import type { Scenario } from "../scenario/scenario.ts";
import { GRAVITY, type Setup, setUp } from "../scenario/setup.ts";
import { createAir } from "./air.ts";
import { channelReaders } from "./channel-readers.ts";
import { delayLine } from "./delay-line.ts";
import { eulerAngles } from "./euler-angles.ts";
import { createFaultDesk } from "./fault-desk.ts";
import { createGround } from "./ground.ts";
import { createNavigation } from "./navigation.ts";
import { createRecorder, type Recording } from "./recorder.ts";
import { rotorShaking } from "./rotor-shaking.ts";
import { inertialSensors } from "./sensors.ts";

/** s between two ticks of the plan: guidance, slow sensors and fault strengths are renewed at each */
const PLAN_INTERVAL = 0.02;

/** s, the longest that commands and outputs can be held up */
const LONGEST_DELAY = 0.5;

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

/**
 * One step: plan and guidance (now and then), gyro, rate loop, motors' commands on their way, air and faults, a row of
 * the log, and the body moves. Nothing in it makes new objects, apart from rows of the plan.
 */
function run(setup: Setup, plan: Plan, faults: readonly Fault[]): Recording {
  const { scenario, rotor } = setup;
  const { aircraft, step: dt, air, sensors, controller: control, log } = scenario;
  const vehicle = createVehicle(aircraft, setup.vehicle.body, GRAVITY);
  const { motors, exponent } = vehicle;
  const axes = controlAxes(aircraft, vehicle);
  const around: Surroundings = {
    gravity: GRAVITY,
    density: air.density,
    wind: new Float64Array(3),
    push: new Float64Array(6),
    command: new Float64Array(motors),
    thrustFactor: 1,
  };
  const body = createRigidBody(vehicle, around);
  const { state, specificForce, airVelocity, thrust } = body;
  const hover = (vehicle.mass * GRAVITY) / vehicle.maxThrust.reduce((sum, most) => sum + most, 0);
  const controller = createController({
    gains: setup.gains,
    axes,
    allocation: control.allocation,
    windup: control.windup,
    limit: setup.integratorLimit,
    floor: setup.idle ** exponent,
    tilt: control.tilt,
    hover,
    gravity: GRAVITY,
    motors,
  });
  const { signals } = controller;
  const patient: Patient = {
    vehicle,
    controller,
    outputDelay: new Float64Array(3),
    air: { gusts: air.gusts },
    gyro: { limit: sensors.gyro.limit },
    shake: new Float64Array(motors),
  };
  const desk = createFaultDesk(setup, axes, patient, faults);
  const instant = { time: 0, dt, state, specificForce, airVelocity, density: air.density };
  const wanted = nothingWanted();
  const shaking = rotorShaking(vehicle, rotor, patient.shake);
  const inertial = inertialSensors(setup, shaking);
  const navigation = createNavigation(scenario, PLAN_INTERVAL, signals);
  const surroundingAir = createAir(setup, around);
  const battery = createBattery(setup.battery);
  const ground = createGround(plan.flying[0] === 0);

  const fraction = new Float64Array(motors);
  for (let i = 0; i < motors; i++) {
    fraction[i] = ground.isTouched ? setup.idle : Math.max(setup.idle, (axes.lift[i]! * hover) ** (1 / exponent));
  }
  state.set(fraction, STATE.rotor);
  state[STATE.position + 2] = plan.position[2][0]!;
  shaking.turn(state, 1, 0);
  const depth = Math.ceil(LONGEST_DELAY / dt);
  const commands = delayLine(motors, depth);
  commands.fill(fraction);
  const outputs = delayLine(3, depth);
  const late = new Float64Array(3);
  const commandDelay = Math.round(control.delay / dt);

  const total = Math.round((plan.ticks * PLAN_INTERVAL) / dt);
  const perPlan = Math.round(PLAN_INTERVAL / dt);
  const perControl = Math.max(1, Math.round(1 / (control.frequency * dt)));
  const euler = new Float64Array(3);
  let tick = 0;
  let hasLanded = false;
  const recorder = createRecorder({
    capacity: Math.ceil(total * dt * log.rate) + 2,
    rate: log.rate,
    jitter: log.jitter,
    seed: scenario.seed,
    readers: channelReaders({
      setup,
      signals,
      fraction,
      rotorSpeed: shaking.speed,
      battery,
      acceleration: inertial.acceleration,
      body,
      plan,
      tick: () => tick,
      isAloft: () => !ground.isTouched && !hasLanded,
    }),
  });

  for (let n = 0; n < total; n++) {
    const time = n * dt;
    instant.time = time;

    if (n % perPlan === 0) {
      tick = Math.min(plan.ticks - 1, n / perPlan);
      desk.renew(time);
      navigation.renew(state);
      readPlan(plan, tick, wanted);
      const isPlannedAloft = plan.flying[tick] === 1;
      // Once down, the motors idle, however the aircraft may rock on its legs.
      hasLanded = isPlannedAloft && (hasLanded || (ground.isTouched && wanted.velocity[2]! > 0));
      wanted.flying = isPlannedAloft && ground.crash === null && !hasLanded;
      controller.guide(wanted, PLAN_INTERVAL);
      surroundingAir.tune(state, patient.air.gusts);
    }

    inertial.feelRates(state, patient.gyro.limit, signals.rateMeasured);
    const isControlTick = n % perControl === 0;
    if (isControlTick) {
      eulerAngles(state, euler);
      navigation.attitude(euler);
      controller.steer(wanted, perControl * dt);
    }
    outputs.push(signals.output);
    if (isControlTick) {
      for (let k = 0; k < 3; k++) late[k] = outputs.read(k, Math.round(patient.outputDelay[k]! / dt));
      commandMotors(controller, late, wanted.flying, exponent, fraction);
    }
    commands.push(fraction);
    for (let i = 0; i < motors; i++) around.command[i] = commands.read(i, commandDelay);

    surroundingAir.step(wanted.heading, patient.air.gusts);
    desk.push(instant, around.push);
    recorder.at(time);

    body.step(dt);
    ground.hold(state, time);
    const across = Math.hypot(airVelocity[0]!, airVelocity[1]!);
    let shaft = 0;
    for (let i = 0; i < motors; i++) shaft += rotorPower(thrust[i]!, rotor, air.density, across, -airVelocity[2]!);
    shaking.turn(state, around.thrustFactor, dt);
    battery.draw(shaft, dt);
    if (setup.battery.sag) around.thrustFactor = (battery.voltage / setup.battery.nominal) ** 2;
    inertial.feelAcceleration(specificForce, ground.isTouched);
  }
  return recorder.finish(plan.modes, ground.crash);
}

/** Thrust shares for outputs that may come late, as command fractions. */
function commandMotors(
  controller: Controller,
  output: Float64Array,
  isFlying: boolean,
  exponent: number,
  fraction: Float64Array,
): void {
  controller.share(output, isFlying);
  const { share } = controller.signals;
  for (let i = 0; i < share.length; i++) {
    fraction[i] = exponent === 2 ? Math.sqrt(share[i]!) : share[i]! ** (1 / exponent);
  }
}

function readPlan(plan: Plan, tick: number, wanted: Wanted): void {
  for (let k = 0; k < 3; k++) {
    wanted.position[k] = plan.position[k]![tick]!;
    wanted.velocity[k] = plan.velocity[k]![tick]!;
    wanted.acceleration[k] = plan.acceleration[k]![tick]!;
    wanted.stick[k] = plan.stick[k]![tick]!;
  }
  const later = plan.heading[Math.min(plan.ticks - 1, tick + 1)]!;
  wanted.heading = plan.heading[tick]!;
  wanted.headingRate = (later - wanted.heading) / plan.interval;
}

function nothingWanted(): Wanted {
  return {
    position: new Float64Array(3),
    velocity: new Float64Array(3),
    acceleration: new Float64Array(3),
    heading: 0,
    headingRate: 0,
    stick: new Float64Array(3).fill(Number.NaN),
    flying: false,
  };
}
