import type { Comparison } from "./comparison.ts";

/** How a comparison is computed, with sources; printed with every one. */
export const COMPARISON_METHODS: Comparison["methods"] = [
  {
    title: "Differences and their intervals",
    text: "Each leg of cruise, and each piece of hover, gives one value; neighbouring samples of one leg are not independent and are not counted as if they were. All legs of a flight share one spread, told by what is left after the level of every condition and the effect of the wind (Student's t with what is left over; Satterthwaite's degrees of freedom, because each flight has its own spread). A term for what changes from one flight of an unchanged aircraft to the next is added; two flights cannot show it, so it is set from repeated flights. Ratios are compared by their logarithms. Fewer than three degrees of freedom give no interval: not enough data. Pieces of hover are alike their neighbours; their correlation widens the interval.",
    sources: [
      "Student 1908, Biometrika 6(1):1-25",
      "Satterthwaite 1946, Biometrics Bulletin 2(6):110-114",
      "Kendall 1954, Biometrika 41(3/4):403-404 (correlation of few neighbours)",
    ],
  },
  {
    title: "Many comparisons",
    text: "A table of sixty numbers would show three differences by chance alone. The words better and worse stand only where the difference also survives the correction for all comparisons of its table; perhaps stands where its own interval leaves out no change but the correction does not. The intervals are those of each number by itself.",
    sources: ["Benjamini and Hochberg 1995, J. R. Stat. Soc. B 57(1):289-300"],
  },
  {
    title: "Smallest difference that the data can show",
    text: "The difference that would have been told from none four times out of five with so many legs of such a spread.",
    sources: ["Bloom 1995, Evaluation Review 19(5):547-556"],
  },
  {
    title: "Wind",
    text: "Legs up and down cancel the wind only to first order, because power does not grow in a straight line with speed. Where speed through the air is logged it is used. Else, where velocity over ground, heading and attitude are logged, the mean wind follows from the lean: a multirotor leans until its thrust balances the drag, and drag grows with the speed through the air; wind and drag are fitted together. What the speed through the air sets (power, commands, room) is then one smooth curve over it, shared by both flights, and a difference at each step, read off in still air; errors and swings, which gusts make, get a straight slope. The wind of a hover is not taken out; its interval allows for it. Where nothing tells the wind, legs out are set against legs back, and what wind squared does stays in.",
    sources: ["Neumann and Bartholmai 2015, Sensors and Actuators A 235:300-310"],
  },
  {
    title: "Power and energy",
    text: "Mean of the logged power, or of voltage times current at the current's own samples. Energy per distance is power over the speed over ground of the step in still air. The whole mission runs from the start of the first leg to the end of the last, turns in; its legs are matched in order and the ratio has the interval of a ratio estimator.",
    sources: ["Cochran 1977, Sampling Techniques, 3rd ed., section 6.4"],
  },
  {
    title: "Steadiness",
    text: "Error is measured less set point. An axis' own swing is the least damped mode between 0.4 and 6 Hz of an autoregressive model of its rate over all legs of both flights; its size is the 95th percentile of the envelope in a band about that frequency, its damping that of the nearest mode of each leg. A leg without such a mode has no damping to tell.",
    sources: ["Burg 1975, PhD thesis, Stanford University", "Box and Jenkins, Time Series Analysis, section 3.2"],
  },
  {
    title: "The next step",
    text: "Weighted least squares over the legs of the flight after: thrust left and room to turn over the square, the cube and the fourth power of speed, since drag and the moments of the air grow with the square and what they cost grows faster; the mean of the three is the trend, and how much they differ is part of its interval. Damping is a straight line over speed. The 90 % interval is for the mean of as many new legs. Where an axis has two modes whose frequencies approach each other, the flutter margin is followed over speed squared, because it falls while the damping still looks well. A trend says nothing of what comes suddenly.",
    sources: [
      "Draper and Smith, Applied Regression Analysis, sections 1.4 and 2.11",
      "Burnham and Anderson 2004, Sociological Methods and Research 33(2):261-304",
      "Zimmerman and Weissenburger 1964, J. Aircraft 1(4):190-202",
    ],
  },
];
