/** Plans longer than this are made anew each time: kept, their scratch would hold hundreds of megabytes. */
const longestKept = 65_536;

/** Makes the plan for a length once and keeps it, unless it is very long. */
export function planCache<Plan>(make: (length: number) => Plan): (length: number) => Plan {
  const kept = new Map<number, Plan>();
  return (length) => {
    const known = kept.get(length);
    if (known) return known;
    const plan = make(length);
    if (length <= longestKept) kept.set(length, plan);
    return plan;
  };
}
