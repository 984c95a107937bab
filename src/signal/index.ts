export { areFinite } from "./checks.ts";
export { type Complex, type ComplexArray, magnitude, phase } from "./complex-array.ts";
export {
  analyticSignal,
  instantaneousFrequency,
  instantaneousPhase,
  unwrapPhase,
} from "./envelope/analytic-signal.ts";
export { robustEnvelope, runningMedian } from "./envelope/robust-envelope.ts";
export { ArgumentError, NotFiniteError, SignalError, SignalTooShortError } from "./errors.ts";
export { type ButterworthOptions, butterworth } from "./filters/butterworth.ts";
export { type Decimated, decimate } from "./filters/decimate.ts";
export { differentiate } from "./filters/differentiate.ts";
export { filterCausal, steadyState } from "./filters/filter-causal.ts";
export { filterZeroPhase } from "./filters/filter-zero-phase.ts";
export { notch } from "./filters/notch.ts";
export { type SecondOrderSections, sectionsResponse } from "./filters/second-order-sections.ts";
export { fourierTransform, inverseFourierTransform } from "./fourier/fourier-transform.ts";
export { nextPowerOfTwo } from "./fourier/next-power-of-two.ts";
export { addScaled } from "./linear-algebra/add-scaled.ts";
export { dot } from "./linear-algebra/dot.ts";
export { eigenvalues } from "./linear-algebra/eigenvalues.ts";
export {
  type LeastSquaresFit,
  leastSquares,
  leastSquaresOrNull,
  matrixOfColumns,
} from "./linear-algebra/least-squares.ts";
export { type Matrix, matrix, multiply, SingularMatrixError, transpose } from "./linear-algebra/matrix.ts";
export { polynomialRoots } from "./linear-algebra/polynomial-roots.ts";
export { pseudoInverse } from "./linear-algebra/pseudo-inverse.ts";
export {
  conditionNumber,
  type SingularValueDecomposition,
  singularValueDecomposition,
} from "./linear-algebra/singular-values.ts";
export { type SymmetricEigen, symmetricEigen } from "./linear-algebra/symmetric-eigen.ts";
export { type Autoregression, autoregression, autoregressionOrder } from "./modes/autoregression.ts";
export { autoregressiveModes } from "./modes/autoregressive-modes.ts";
export { cyclesToHalf, dampingRatioOf, growthRateOf, timeToFactor } from "./modes/damping.ts";
export { type GrowthRateOptions, growthRate } from "./modes/growth-rate.ts";
export {
  type LogarithmicDecrement,
  logarithmicDecrement,
  logarithmicDecrementOfPeaks,
} from "./modes/logarithmic-decrement.ts";
export { type MatrixPencilOptions, matrixPencil, type RingDown, type RingDownMode } from "./modes/matrix-pencil.ts";
export { type Estimate, estimate, type Mode } from "./modes/mode.ts";
export {
  type AutocorrelationDecay,
  autocorrelationDecayRatio,
  decayRatioOf,
} from "./oscillation/autocorrelation-decay-ratio.ts";
export { halfPeriodSimilarity } from "./oscillation/half-period-similarity.ts";
export {
  type LoadDisturbanceOptions,
  type LoadDisturbances,
  loadDisturbances,
} from "./oscillation/load-disturbances.ts";
export { type Regularity, zeroCrossingRegularity, zeroCrossings } from "./oscillation/zero-crossing-regularity.ts";
export { linearCongruential } from "./random/linear-congruential.ts";
export { type RandomGenerator, randomGenerator } from "./random/random-generator.ts";
export { aliasedFrequency } from "./spectra/aliased-frequency.ts";
export { bandPower } from "./spectra/band-power.ts";
export { type Coherence, coherence, coherenceSignificanceLevel } from "./spectra/coherence.ts";
export { type CrossSpectralDensity, crossSpectralDensity } from "./spectra/cross-spectral-density.ts";
export { densityInterval } from "./spectra/density-interval.ts";
export { effectiveAverages } from "./spectra/effective-averages.ts";
export { type FrequencyResponse, frequencyResponse, frequencyResponseError } from "./spectra/frequency-response.ts";
export { type MultitaperDensity, multitaperSpectralDensity } from "./spectra/multitaper-spectral-density.ts";
export { powerSpectralDensity, type SpectralDensity, type WelchOptions } from "./spectra/power-spectral-density.ts";
export type { Detrend, SegmentOptions, Stretches } from "./spectra/segments.ts";
export { type ShortTimeSpectra, shortTimeSpectra } from "./spectra/short-time-spectra.ts";
export { type SpectralPeak, type SpectralPeakOptions, spectralPeak } from "./spectra/spectral-peak.ts";
export { type Tone, toneEstimate } from "./spectra/tone-estimate.ts";
export { type WindowName, window } from "./spectra/window.ts";
export { overlapCorrelation, type WindowProperties, windowProperties } from "./spectra/window-properties.ts";
export { autocorrelation, autocovariance } from "./statistics/autocorrelation.ts";
export {
  type BootstrapInterval,
  type BootstrapOptions,
  movingBlockBootstrap,
  type Statistic,
  stationaryBootstrap,
} from "./statistics/block-bootstrap.ts";
export { type BlockLength, blockLength } from "./statistics/block-length.ts";
export { type ChangePoint, changePoint } from "./statistics/change-point.ts";
export { chiSquareCdf, chiSquareQuantile } from "./statistics/chi-square.ts";
export { crossCorrelationDelay, type Delay } from "./statistics/cross-correlation-delay.ts";
export { type Cusum, type CusumOptions, cusum } from "./statistics/cusum.ts";
export { effectiveSampleSize, effectiveSampleSizeOf } from "./statistics/effective-sample-size.ts";
export { endsOf } from "./statistics/ends-of.ts";
export { type MeanInterval, meanInterval } from "./statistics/mean-interval.ts";
export { medianAbsoluteDeviation } from "./statistics/median-absolute-deviation.ts";
export { centred, mean, standardDeviation, variance } from "./statistics/moments.ts";
export { benjaminiHochberg, holm } from "./statistics/multiple-comparisons.ts";
export { normalCdf, normalDensity, normalQuantile } from "./statistics/normal.ts";
export { median, quantile, quantiles } from "./statistics/quantile.ts";
export { type RatioInterval, ratioInterval } from "./statistics/ratio-interval.ts";
export { studentTCdf, studentTQuantile, studentTTwoSided } from "./statistics/student-t.ts";
export { type TheilSenLine, theilSen } from "./statistics/theil-sen.ts";
export { type TwoSampleTest, welchTTest } from "./statistics/welch-t-test.ts";
export { wrapAngle } from "./wrap-angle.ts";
