import type { Setup } from "../scenario/setup.ts";
import { controllerFaults } from "./controller-faults.ts";
import { type Fault, isLoggingFault, type LoggingFault } from "./fault.ts";
import type { FaultEffect, FaultMaker, FaultMakers } from "./fault-effect.ts";
import { loadFaults } from "./load-faults.ts";
import { momentFaults } from "./moment-faults.ts";
import { motorFaults } from "./motor-faults.ts";

/** Every fault that touches the flight itself. */
const makers: FaultMakers<Exclude<Fault["kind"], LoggingFault["kind"]>> = {
  ...controllerFaults,
  ...motorFaults,
  ...momentFaults,
  ...loadFaults,
};

/** The effect of a fault on the flight; null for a fault of the log alone. */
export function faultEffect(fault: Fault, setup: Setup, stream: number): FaultEffect | null {
  if (isLoggingFault(fault)) return null;
  return (makers[fault.kind] as FaultMaker)(fault, setup, stream);
}
