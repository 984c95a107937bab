import type { FindingKind } from "../kind.ts";
import { authorityKind } from "./authority.ts";
import { dataQualityKind } from "./data-quality.ts";
import { integratorWindupKind } from "./integrator-windup.ts";
import { motorHeadroomKind } from "./motor-headroom.ts";
import { motorFloorKind, motorSaturationKind } from "./motor-limits.ts";
import { motorResponseKind } from "./motor-response.ts";
import { oscillationKind } from "./oscillation.ts";
import { sensorClippingKind } from "./sensor-clipping.ts";
import { thrustImbalanceKind } from "./thrust-imbalance.ts";
import { trackingKind } from "./tracking.ts";
import { upsetKind } from "./upset.ts";
import { vibrationKind } from "./vibration.ts";

/** Every kind of finding that can be made, by name. */
export const FINDING_KINDS: ReadonlyMap<string, FindingKind<never>> = new Map(
  [
    dataQualityKind,
    motorSaturationKind,
    motorFloorKind,
    motorHeadroomKind,
    motorResponseKind,
    sensorClippingKind,
    authorityKind,
    integratorWindupKind,
    oscillationKind,
    upsetKind,
    thrustImbalanceKind,
    vibrationKind,
    trackingKind,
  ].map((kind) => [kind.kind, kind as FindingKind<never>]),
);
