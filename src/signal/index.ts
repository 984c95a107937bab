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
export { type SpectralPeak, spectralPeak } from "./spectra/spectral-peak.ts";
export { type WindowName, window } from "./spectra/window.ts";
export { overlapCorrelation, type WindowProperties, windowProperties } from "./spectra/window-properties.ts";
export { autocorrelation, autocovariance } from "./statistics/autocorrelation.ts";
export { chiSquareCdf, chiSquareQuantile } from "./statistics/chi-square.ts";
export { effectiveSampleSize, effectiveSampleSizeOf } from "./statistics/effective-sample-size.ts";
export { type MeanInterval, meanInterval } from "./statistics/mean-interval.ts";
export { medianAbsoluteDeviation } from "./statistics/median-absolute-deviation.ts";
export { mean, standardDeviation, variance } from "./statistics/moments.ts";
export { benjaminiHochberg, holm } from "./statistics/multiple-comparisons.ts";
export { normalCdf, normalQuantile } from "./statistics/normal.ts";
export { median, quantile, quantiles } from "./statistics/quantile.ts";
export { studentTCdf, studentTQuantile, studentTTwoSided } from "./statistics/student-t.ts";
export { type TheilSenLine, theilSen } from "./statistics/theil-sen.ts";
export { type TwoSampleTest, welchTTest } from "./statistics/welch-t-test.ts";
