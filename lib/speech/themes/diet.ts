import type { Speech } from "../measure-words"

export const dietSpeech: Speech = {
  "diet-sodium-within-limit": {
    headline:
      "{met} of {total} {total:person:people} with CKD {met:is:are} known to eat {diet.limitMg} mg of sodium a day or less.",
    met: "within the limit",
    notMet: "above it",
    unknown: "without a record",
    gained: "newly within the limit",
    lost: "no longer within it",
  },
  "seen-by-dietitian": {
    headline:
      "{met} of {total} {total:person:people} with CKD and an eGFR under 45 saw a dietitian in the last 12 months.",
    met: "seen",
    notMet: "not seen",
    gained: "newly seen",
    lost: "fell out of the window",
  },
}
