// The one-way street: a room of src imports only from the rooms named beside it (and from itself).
const rooms = {
  input: [],
  words: [],
  signal: [],
  log: ["input", "signal"],
  aircraft: ["input", "signal"],
  flight: ["input", "signal", "log", "aircraft"],
  detect: ["signal", "log", "aircraft", "flight"],
  compare: ["signal", "log", "aircraft", "flight", "detect"],
  findings: ["words", "detect", "compare"],
  charts: ["words", "signal", "log", "aircraft", "flight", "detect", "compare", "findings"],
  report: ["words", "findings", "charts"],
  simulate: ["input", "signal", "log", "aircraft"],
};

const oneWay = Object.entries(rooms).map(([room, allowed]) => ({
  name: `${room}-imports-only-from-above`,
  severity: "error",
  from: { path: `^src/${room}/` },
  to: { path: "^(src|cli)/", pathNot: `^src/(${[room, ...allowed].join("|")})/` },
}));

module.exports = {
  forbidden: [
    ...oneWay,
    {
      name: "cli-only-through-the-public-face",
      severity: "error",
      from: { path: "^cli/" },
      to: { path: "^src/", pathNot: "^src/index\\.ts$" },
    },
    { name: "src-never-imports-cli", severity: "error", from: { path: "^src/" }, to: { path: "^cli/" } },
    {
      name: "no-cycles",
      severity: "error",
      from: {},
      to: { circular: true, viaOnly: { dependencyTypesNot: ["type-only"] } },
    },
    {
      name: "signal-has-three-libraries",
      severity: "error",
      from: { path: "^src/signal/" },
      to: { path: "node_modules", pathNot: "node_modules/(@types/)?(fft\\.js|ndarray|quickselect)" },
    },
  ],
  options: {
    doNotFollow: { path: "node_modules" },
    tsConfig: { fileName: "tsconfig.json" },
    tsPreCompilationDeps: true,
    enhancedResolveOptions: { exportsFields: ["exports"], conditionNames: ["import", "node", "default", "types"] },
  },
};
