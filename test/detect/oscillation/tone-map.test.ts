import { expect, test } from "vitest";
import { toneMap } from "../../../src/detect/oscillation/tone-map.ts";
import { numbers } from "../../support/index.ts";

const RATE = 100;
const piece = (values: Float64Array) => ({ start: 0, rate: RATE, values });
const tone = (amplitude: number, frequency: number, seconds: number) =>
  numbers(seconds * RATE, (i) => amplitude * Math.sin((2 * Math.PI * frequency * i) / RATE));

test("the frame of a tone's own frequency shows its amplitude, whatever the octave", () => {
  for (const frequency of [0.625, 2.5, 10]) {
    const track = toneMap([piece(tone(0.7, frequency, 40))], RATE, 0.2, 40).find(
      (one) => Math.abs(one.frequency / frequency - 1) < 0.01,
    )!;
    for (const amplitude of track.amplitude.subarray(2, -2)) expect(amplitude).toBeCloseTo(0.7, 1);
  }
});

test("a tone an octave away hardly shows: the Hann frame of four cycles holds it 30 dB down or more", () => {
  const tracks = toneMap([piece(tone(1, 2.5, 40))], RATE, 0.2, 40);
  for (const wanted of [1.25, 5]) {
    const track = tracks.find((one) => Math.abs(one.frequency / wanted - 1) < 0.01)!;
    for (const amplitude of track.amplitude.subarray(3, -3)) expect(amplitude).toBeLessThan(0.035);
  }
});

test("no frame crosses a gap", () => {
  const tracks = toneMap([piece(tone(1, 2, 10)), { start: 30, rate: RATE, values: tone(1, 2, 10) }], RATE, 1, 4);
  for (const { time, frequency } of tracks) {
    for (const middle of time) {
      // A frame is a whole number of samples, of which a cycle holds six or more.
      const reach = 2 / frequency - 1 / (6 * frequency);
      expect(middle + reach < 10.05 || middle - reach > 29.95).toBe(true);
    }
  }
});
