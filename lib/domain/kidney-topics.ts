import { numberTopic, type SettingTopic } from "./setting-topic"

const kdigo2024 = "KDIGO 2024 CKD guideline, Kidney Int 105(4S):S117-S314, doi:10.1016/j.kint.2023.10.018"

export const kidneyTopics: readonly SettingTopic[] = [
  numberTopic({
    id: "egfr-window",
    group: "kidney",
    name: "eGFR window",
    question: "How long does an eGFR speak for a person?",
    field: { key: "egfr.windowMonths", unit: "months", least: 1, most: 60 },
    note: "24 months: common practice, no source.",
  }),
  numberTopic({
    id: "urine-window",
    group: "kidney",
    name: "Urine window",
    question: "How long does a urine albumin or protein speak for a person?",
    field: { key: "acr.windowMonths", unit: "months", least: 1, most: 60 },
    note: "24 months: common practice, no source.",
  }),
  {
    id: "a3",
    group: "kidney",
    name: "Where category A3 begins",
    question: "Is a urine albumin of exactly 300 mg/g (30 mg/mmol) A2 or A3?",
    keys: ["acr.a3"],
    choices: [
      {
        id: "kdigo",
        name: "A3 above 300 mg/g, above 30 mg/mmol",
        sets: { "acr.a3": "kdigo" },
        source: kdigo2024,
      },
      {
        id: "ada",
        name: "A3 from 300 mg/g, from 30 mg/mmol",
        sets: { "acr.a3": "ada" },
        source:
          "American Diabetes Association 2024, Standards of Care in Diabetes, section 11, Diabetes Care 47(Suppl 1):S219-S230, doi:10.2337/dc24-S011",
      },
    ],
    fields: [],
    note: null,
  },
  numberTopic({
    id: "confirm",
    group: "kidney",
    name: "Confirming albuminuria",
    question: "How many days before the latest raised result must another one lie?",
    field: { key: "acr.confirmDays", unit: "days", least: 30, most: 365 },
    choices: [
      {
        id: "90-days",
        name: "90 days",
        sets: { "acr.confirmDays": 90 },
        source: `More than three months: ${kdigo2024}`,
      },
    ],
  }),
  {
    id: "ras-from",
    group: "kidney",
    name: "ACE inhibitor or ARB from",
    question: "From which urine category on is an ACE inhibitor or ARB asked for?",
    keys: ["ras.fromCategory"],
    choices: [
      {
        id: "a2",
        name: "A2 (from 30 mg/g or 3 mg/mmol)",
        sets: { "ras.fromCategory": "A2" },
        source: `Recommended from A2 with diabetes, suggested from A2 without: ${kdigo2024}, section 3.6`,
      },
      {
        id: "a3",
        name: "A3 only (about 300 mg/g or 30 mg/mmol)",
        sets: { "ras.fromCategory": "A3" },
        source:
          "Above 300 mg/g: the measure MIPS 489 (NQF 1662), ACE inhibitor or ARB therapy in adult kidney disease",
      },
    ],
    fields: [],
    note: "Albuminuria must be confirmed either way.",
  },
  {
    id: "failure-region",
    group: "kidney",
    name: "Kidney failure risk: region",
    question: "Which calibration of the kidney failure risk equation fits the clinic's people?",
    keys: ["kfre.region"],
    choices: [
      {
        id: "north-america",
        name: "North America",
        sets: { "kfre.region": "north_america" },
        source:
          "Tangri 2016, Multinational assessment of accuracy of equations for predicting risk of kidney failure, JAMA 315:164-174, doi:10.1001/jama.2015.18202",
      },
      {
        id: "other",
        name: "Elsewhere",
        sets: { "kfre.region": "other" },
        source:
          "Tangri 2016, Multinational assessment of accuracy of equations for predicting risk of kidney failure, JAMA 315:164-174, doi:10.1001/jama.2015.18202",
      },
    ],
    fields: [],
    note: null,
  },
  numberTopic({
    id: "failure-gap",
    group: "kidney",
    name: "Kidney failure risk: tests apart",
    question: "How many days may eGFR and urine albumin lie apart in the kidney failure risk?",
    field: { key: "kfre.maxGapDays", unit: "days", least: 7, most: 365 },
    choices: [
      {
        id: "183-days",
        name: "183 days",
        sets: { "kfre.maxGapDays": 183 },
        source: "At most six months apart: local laboratory rule after NICE NG203 (2021)",
      },
      {
        id: "30-days",
        name: "30 days",
        sets: { "kfre.maxGapDays": 30 },
        source: "Ideally within a month: local laboratory rule after NICE NG203 (2021)",
      },
    ],
  }),
]
