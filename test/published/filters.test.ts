// Filters and the analytic signal against closed forms and fixed examples of SciPy 1.10.1 and Octave 7.3.
import { describe, expect, test } from "vitest";
import {
  analyticSignal,
  butterworth,
  filterCausal,
  filterZeroPhase,
  instantaneousFrequency,
  magnitude,
  notch,
  phase,
  sectionsResponse,
  steadyState,
} from "../../src/signal/index.ts";
import { expectClose, expectNear, sine } from "../signal/support.ts";

const tenth = butterworth(2, 0.1, 1);

describe("Butterworth coefficients (bilinear transform; SciPy and Octave agree)", () => {
  test("second order at a tenth of the sample rate, by its closed form", () => {
    const k = Math.tan(Math.PI * 0.1);
    const scale = 1 + Math.SQRT2 * k + k * k;
    const b0 = (k * k) / scale;
    const closed = [b0, 2 * b0, b0, (2 * (k * k - 1)) / scale, (1 - Math.SQRT2 * k + k * k) / scale];
    expectClose(tenth.coefficients, closed, 1e-12);
    expectClose(tenth.coefficients.slice(3), [-1.1429805025399, 0.41280159809619], 1e-12);
    expectNear(tenth.coefficients[0]!, 0.06745527388907, 1e-12);
  });

  test.each([
    [30, 1000, 0.007820208033, -1.734725768809, 0.766006600943],
    [20, 250, 0.046131802093, -1.307285028849, 0.491812237223],
    [80, 4000, 0.003621681515, -1.822694925196, 0.837181651256],
  ])("second order, %d Hz of %d Hz", (cutoff, rate, b0, a1, a2) => {
    expectClose(butterworth(2, cutoff, rate).coefficients, [b0, 2 * b0, b0, a1, a2], 1e-11);
  });

  test("fourth order, 30 Hz of 1000 Hz, as one polynomial", () => {
    const [s, t] = [0, 5].map((at) => [...butterworth(4, 30, 1000).coefficients.slice(at, at + 5)]);
    const [gain, other] = [s![0]! * t![0]!, 6.238698354848e-5];
    expectNear(gain, other, 1e-9);
    const [p, q] = [
      [1, s![3]!, s![4]!],
      [1, t![3]!, t![4]!],
    ];
    const product = [0, 0, 0, 0, 0];
    for (let i = 0; i < 3; i++) for (let j = 0; j < 3; j++) product[i + j]! += p[i]! * q[j]!;
    expectClose(product, [1, -3.507786207391, 4.640902412687, -2.74265282112, 0.610534807561], 1e-11);
  });

  test("fourth order, 100 Hz of 1000 Hz, as sections", () => {
    const { coefficients } = butterworth(4, 100, 1000);
    const pairs = [coefficients.slice(3, 5), coefficients.slice(8, 10)].sort((a, b) => b[0]! - a[0]!);
    expectClose(pairs[0]!, [-1.048599576363, 0.296140357562], 1e-11);
    expectClose(pairs[1]!, [-1.320913430819, 0.632738792885], 1e-11);
    expectNear(coefficients[0]! * coefficients[5]!, 0.004824343358, 1e-9);
  });

  test.each([1, 2, 3, 5, 8])("order %d passes half the power at the cut-off", (order) => {
    for (const pass of ["low", "high"] as const) {
      const gain = magnitude(sectionsResponse(butterworth(order, 13, 100, { pass }), Float64Array.of(13)))[0]!;
      expect(20 * Math.log10(gain)).toBeCloseTo(-3.0103, 6);
    }
  });
});

test("a tone at the cut-off comes out 6.0206 dB down and not delayed from the zero-phase filter", () => {
  const tone = sine({ frequency: 10, sampleRate: 100, count: 2000, phase: 0.3 });
  const out = filterZeroPhase(tenth, tone).slice(500, 1500);
  expectClose(
    out,
    tone.slice(500, 1500).map((x) => x / 2),
    1e-6,
  );
});

test("step response, causal (SciPy lfilter)", () => {
  const step = Float64Array.from({ length: 21 }, (_, n) => (n < 10 ? 0 : 1));
  const expected = [0.067455273889, 0.279465884516, 0.561399507822, 0.79612582339, 0.948030775261, 1.024759775306];
  expectClose(filterCausal(tenth, step).slice(10, 16), expected, 1e-11);
});

test("step response, zero-phase with an odd extension of 9 (SciPy filtfilt)", () => {
  const step = Float64Array.from({ length: 21 }, (_, n) => (n < 10 ? 0 : 1));
  const out = filterZeroPhase(tenth, step, { padding: 9 });
  const expected = [
    -0.033380163, -0.003989779, 0.069815436, 0.202972714, 0.392872556, 0.607127426, 0.797027267, 0.930184548,
    1.003989774, 1.033380187, 1.036505966,
  ];
  expectClose(out.slice(5, 16), expected, 2e-9);
  // Nearly antisymmetric; the missing 2e-8 is the end of the record.
  for (let k = 0; k < 5; k++) expect(out[9 - k]! + out[10 + k]!).toBeCloseTo(1, 7);
});

test("steady-state start (SciPy lfilter_zi)", () => {
  expectClose(steadyState(tenth), [0.932544726111, -0.345346324207], 1e-11);
});

test("delay budget of the second-order filter at 30 Hz of 1000 Hz", () => {
  const angles = phase(sectionsResponse(butterworth(2, 30, 1000), Float64Array.of(0.01, 10, 15)));
  expectNear((-angles[0]! / (2 * Math.PI * 0.01)) * 1000, 7.4804, 1e-4);
  expect((angles[1]! * 180) / Math.PI).toBeCloseTo(-27.86, 3);
  expect((angles[2]! * 180) / Math.PI).toBeCloseTo(-43.208, 3);
});

test("notch at 60 Hz of quality 30 (SciPy iirnotch)", () => {
  const { coefficients } = notch(60, 30, 1000);
  expectClose(coefficients.slice(0, 3), [0.993755964954, -1.84794185785, 0.993755964954], 1e-11);
  expectNear(coefficients[4]!, 0.987511929907, 1e-11);
});

describe("analytic signal (Marple 1999; SciPy and Octave agree)", () => {
  test("of 1, 2, 3, 4 and of 1, 2, 3, 4, 5", () => {
    expectClose(analyticSignal(Float64Array.of(1, 2, 3, 4)).im, [1, -1, -1, 1], 1e-12);
    const five = analyticSignal(Float64Array.of(1, 2, 3, 4, 5));
    expectClose(five.im, [1.701301616704, -1.376381920471, -0.649839392466, -1.376381920471, 1.701301616704], 1e-11);
    expectClose(five.re, [1, 2, 3, 4, 5], 1e-12);
  });

  test("of a tone on a bin has an envelope of 1", () => {
    const tone = Float64Array.from({ length: 64 }, (_, n) => Math.cos((2 * Math.PI * 5 * n) / 64));
    for (const value of magnitude(analyticSignal(tone))) expect(Math.abs(value - 1)).toBeLessThan(1e-14);
  });

  test("of a chirp of changing amplitude follows both", () => {
    const time = Float64Array.from({ length: 2000 }, (_, n) => n / 1000);
    const amplitude = time.map((t) => 1 + 0.3 * Math.cos(2 * Math.PI * t));
    const analytic = analyticSignal(time.map((t, n) => amplitude[n]! * Math.cos(2 * Math.PI * (20 * t + 15 * t * t))));
    const envelope = magnitude(analytic);
    const frequency = instantaneousFrequency(analytic, 1000);
    for (let n = 200; n < 1800; n++) {
      expect(Math.abs(envelope[n]! - amplitude[n]!)).toBeLessThan(2e-3);
      expect(Math.abs(frequency[n]! - (20 + 30 * (time[n]! + 0.0005)))).toBeLessThan(0.1);
    }
    expect(frequency[1000]).toBeCloseTo(50.0154, 3);
  });
});
