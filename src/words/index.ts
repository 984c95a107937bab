export { type DisplayUnit, displayUnit } from "./display-unit.ts";
export { firstSentence } from "./first-sentence.ts";
export { type MeasuredNumber, measureName, measureWords } from "./measure-words.ts";
export {
  capital,
  countWords,
  durationWords,
  lengthWords,
  numberWords,
  percentWords,
  secondsWords,
  spanWords,
  uncapital,
  withDecimals,
} from "./number-words.ts";
export { plainText } from "./plain-text.ts";
export { turnWords } from "./turn-words.ts";
