import type { FindingKind } from "../kind.ts";
import { authorityKind } from "./authority.ts";
import { dataQualityKind } from "./data-quality.ts";
import { integratorWindupKind } from "./integrator-windup.ts";
import { motorHeadroomKind } from "./motor-headroom.ts";
import { motorFloorKind, motorSaturationKind } from "./motor-limits.ts";
import { oscillationKind } from "./oscillation.ts";
import { trackingKind } from "./tracking.ts";
import { upsetKind } from "./upset.ts";

/** Every kind of finding that can be made, by name. */
export const FINDING_KINDS: ReadonlyMap<string, FindingKind<never>> = new Map(
  [
    dataQualityKind,
    motorSaturationKind,
    motorFloorKind,
    motorHeadroomKind,
    authorityKind,
    integratorWindupKind,
    oscillationKind,
    upsetKind,
    trackingKind,
  ].map((kind) => [kind.kind, kind as FindingKind<never>]),
);
