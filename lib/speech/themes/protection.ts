import type { Speech } from "../measure-words"

export const protectionSpeech: Speech = {
  "ras-blocker-in-albuminuria": {
    headline:
      "{notMet} {notMet:person has:people have} protein in the urine and {notMet:takes:take} neither an ACE inhibitor nor an ARB, with no reason on record.",
    nobody: {
      when: "notMet",
      says: "No one with protein in the urine goes without an ACE inhibitor or ARB, unless a reason is on record.",
    },
    rateOf: "of the {total} counted take one",
    met: "on one",
    notMet: "on neither",
    gained: "newly on one",
    lost: "no longer on one",
  },
  "sglt2-in-ckd": {
    headline:
      "{notMet} {notMet:person:people} for whom an SGLT2 inhibitor is recommended {notMet:takes:take} none, with no reason on record.",
    nobody: {
      when: "notMet",
      says: "No one for whom an SGLT2 inhibitor is recommended goes without, unless a reason is on record.",
    },
    rateOf: "of the {total} counted take one",
    met: "on one",
    notMet: "on none",
    gained: "newly on one",
    lost: "no longer on one",
  },
}
