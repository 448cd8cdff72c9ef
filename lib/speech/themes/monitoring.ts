import type { Speech } from "../measure-words"

export const monitoringSpeech: Speech = {
  "acr-tested": {
    headline:
      "{met} of {total} {total:person:people} with CKD had urine albumin measured in the last 12 months.",
    met: "tested",
    notMet: "not tested",
    gained: "newly tested",
    lost: "fell out of the window",
    notMetLook: "hatched",
  },
  "kidney-tests-in-diabetes": {
    headline:
      "{met} of {total} {total:person:people} with diabetes had eGFR and urine ACR measured in the last 12 months.",
    met: "both tested",
    notMet: "one or both missing",
    gained: "newly tested",
    lost: "fell out of the window",
    notMetLook: "hatched",
  },
  "monitoring-on-schedule": {
    headline:
      "{met} of {total} {total:person:people} with CKD {met:was:were} tested as often as the risk cell asks.",
    met: "on schedule",
    notMet: "behind schedule",
    gained: "newly on schedule",
    lost: "fell behind",
    notMetLook: "hatched",
  },
  "fast-decline": {
    headline: "{met} {met:person loses:people lose} 5 or more mL/min/1.73\u00a0m² of eGFR a year.",
    nobody: { when: "met", says: "No one loses 5 or more mL/min/1.73\u00a0m² of eGFR a year." },
    rateOf: "of the {total} with enough results for a slope",
    met: "falling fast",
    notMet: "not falling fast",
    gained: "newly falling fast",
    lost: "no longer so",
  },
  "failure-risk": {
    headline: "{met} {met:person has:people have} a risk of kidney failure above 10% within 2 years.",
    nobody: { when: "met", says: "No one has a computed risk of kidney failure above 10% within 2 years." },
    rateOf: "of the {total} with a computed risk",
    met: "above 10%",
    notMet: "at 10% or under",
    unknown: "not computable",
    gained: "newly above 10%",
    lost: "no longer above it",
  },
  "ras-start-checked": {
    headline:
      "{met} of {total} {total:person:people} who started an ACE inhibitor or ARB had potassium and creatinine checked within 28 days.",
    met: "checked",
    notMet: "not checked in time",
    gained: "newly checked",
    lost: "no longer so",
    notMetLook: "hatched",
  },
  "followed-after-stopping": {
    headline:
      "{met} of {total} {total:person:people} who stopped a drug class had a pressure within 30 days.",
    met: "measured after",
    notMet: "not measured after",
    gained: "newly measured after",
    lost: "no longer so",
    notMetLook: "hatched",
  },
}
