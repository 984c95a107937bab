export { chartsForComparison } from "./charts-for-comparison.ts";
