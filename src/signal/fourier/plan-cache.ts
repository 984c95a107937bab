/** Plans longer than this are made anew each time: kept, their scratch would hold hundreds of megabytes. */
const longestKept = 65_536;
/** Plans kept at most: a process that looks at many flights meets ever new lengths. */
const mostKept = 24;

/** Makes the plan for a length once and keeps it while it is in use, unless it is very long. */
export function planCache<Plan>(make: (length: number) => Plan): (length: number) => Plan {
  const kept = new Map<number, Plan>();
  return (length) => {
    const plan = kept.get(length) ?? make(length);
    if (length > longestKept) return plan;
    // A map holds its keys in the order in which they came: the first is the one that was not used for longest.
    kept.delete(length);
    kept.set(length, plan);
    if (kept.size > mostKept) kept.delete(kept.keys().next().value!);
    return plan;
  };
}
