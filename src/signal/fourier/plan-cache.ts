/** Length of all plans kept at most, together: a value takes up to 200 bytes of scratch, and lengths are ever new. */
const mostKept = 1 << 18;

/** Makes the plan for a length once and keeps it while it is in use, unless it is very long. */
export function planCache<Plan>(make: (length: number) => Plan): (length: number) => Plan {
  const kept = new Map<number, Plan>();
  let total = 0;
  return (length) => {
    const known = kept.get(length);
    const plan = known ?? make(length);
    if (length > mostKept) return plan;
    // A map holds its keys in the order in which they came: the first is the one that was not used for longest.
    kept.delete(length);
    kept.set(length, plan);
    if (known === undefined) total += length;
    for (const oldest of kept.keys()) {
      if (total <= mostKept) break;
      kept.delete(oldest);
      total -= oldest;
    }
    return plan;
  };
}
