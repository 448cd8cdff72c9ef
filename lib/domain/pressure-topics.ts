import { numberTopic, type SettingField, type SettingTopic } from "./setting-topic"

const equivalents =
  "equivalents out of the office: Whelton 2018, ACC/AHA guideline, Hypertension 71:e13-e115, Table 11, doi:10.1161/HYP.0000000000000065"

/** The pairs out of the office follow the published equivalents while the clinic gives none of its own. */
const noOwnPairs = {
  "bp.homeSystolicTarget": null,
  "bp.homeDiastolicTarget": null,
  "bp.ambulatorySystolicTarget": null,
  "bp.ambulatoryDiastolicTarget": null,
} as const

const systolicRange = { unit: "mmHg", least: 90, most: 200, step: 1 } as const
const diastolicRange = { unit: "mmHg", least: 50, most: 120, step: 1 } as const

const targetFields: readonly SettingField[] = [
  { key: "bp.systolicTarget", name: "Office systolic below", ...systolicRange },
  { key: "bp.diastolicTarget", name: "Office diastolic below", ...diastolicRange },
  { key: "bp.homeSystolicTarget", name: "Home systolic below", ...systolicRange, isOptional: true },
  { key: "bp.homeDiastolicTarget", name: "Home diastolic below", ...diastolicRange, isOptional: true },
  { key: "bp.ambulatorySystolicTarget", name: "24-hour systolic below", ...systolicRange, isOptional: true },
  {
    key: "bp.ambulatoryDiastolicTarget",
    name: "24-hour diastolic below",
    ...diastolicRange,
    isOptional: true,
  },
]

export const pressureTopics: readonly SettingTopic[] = [
  {
    id: "pressure-target",
    group: "pressure",
    name: "Target",
    question: "Below which pressure is a person at target?",
    keys: targetFields.map((field) => field.key),
    choices: [
      {
        id: "120-80",
        name: "Below 120/80 (home 120/80, 24-hour 115/75)",
        sets: { "bp.systolicTarget": 120, "bp.diastolicTarget": 80, ...noOwnPairs },
        source: `Systolic below 120 in CKD by standardised office measurement, no diastolic named: KDIGO 2021 blood pressure guideline, Kidney Int 99(3S):S1-S87, recommendation 3.1.1, doi:10.1016/j.kint.2020.11.003 (DOI from memory); it is not meant for readings taken in routine; ${equivalents}`,
      },
      {
        id: "130-80",
        name: "Below 130/80 (home 130/80, 24-hour 125/75)",
        sets: { "bp.systolicTarget": 130, "bp.diastolicTarget": 80, ...noOwnPairs },
        source: `In CKD: Whelton 2018, ACC/AHA guideline, Hypertension 71:e13-e115, section 9.3 and Table 11, doi:10.1161/HYP.0000000000000065`,
      },
      {
        id: "140-90",
        name: "Below 140/90 (home 135/85, 24-hour 130/80)",
        sets: { "bp.systolicTarget": 140, "bp.diastolicTarget": 90, ...noOwnPairs },
        source: `CKD with ACR below 70 mg/mmol: NICE NG203 (2021); the threshold of CMS165, Controlling High Blood Pressure; ${equivalents}`,
      },
    ],
    fields: targetFields,
    note: "Both numbers must be below. Where a pair of the clinic's own has no pair for home and 24-hour readings, the office pair serves for all unless a published equivalent exists.",
  },
  {
    id: "same-day",
    group: "pressure",
    name: "Several office readings on one day",
    question: "Which reading of the day speaks for it?",
    keys: ["bp.sameDay"],
    choices: [
      {
        id: "mean",
        name: "Their mean, systolic and diastolic each on its own",
        sets: { "bp.sameDay": "mean" },
        source:
          "Mean of two or more readings of a visit: Whelton 2018, ACC/AHA guideline, Hypertension 71:e13-e115, doi:10.1161/HYP.0000000000000065",
      },
      {
        id: "lowest",
        name: "The lowest systolic and the lowest diastolic",
        sets: { "bp.sameDay": "lowest" },
        source: "CMS165, Controlling High Blood Pressure, on the most recent day with a reading",
      },
    ],
    fields: [],
    note: "High pressure under 140/90 always takes the lowest of the day, as the measure it is adapted from does.",
  },
  numberTopic({
    id: "pressure-window",
    group: "pressure",
    name: "Pressure window",
    question: "How long does a pressure speak for a person?",
    field: { key: "bp.windowMonths", unit: "months", least: 1, most: 36 },
    choices: [
      {
        id: "12-months",
        name: "12 months",
        sets: { "bp.windowMonths": 12 },
        source: "The measurement period of CMS165, Controlling High Blood Pressure, here rolling",
      },
      {
        id: "6-months",
        name: "6 months",
        sets: { "bp.windowMonths": 6 },
        source: "common practice, no source",
      },
    ],
  }),
  {
    id: "home-average",
    group: "pressure",
    name: "Home average",
    question: "When do home readings make an average that counts?",
    keys: ["bp.homeMinReadings", "bp.homeMinDays", "bp.homeWindowDays"],
    choices: [
      {
        id: "12-on-3",
        name: "12 readings on 3 days, within 30 days",
        sets: { "bp.homeMinReadings": 12, "bp.homeMinDays": 3, "bp.homeWindowDays": 30 },
        source:
          "The least that serves: Shimbo 2020, AHA/AMA joint policy statement on self-measured blood pressure, Circulation 142:e42-e63, doi:10.1161/CIR.0000000000000803; the 30 days: common practice, no source",
      },
      {
        id: "28-on-7",
        name: "28 readings on 7 days, within 30 days",
        sets: { "bp.homeMinReadings": 28, "bp.homeMinDays": 7, "bp.homeWindowDays": 30 },
        source:
          "The full series, two readings morning and evening for a week: Shimbo 2020, AHA/AMA joint policy statement on self-measured blood pressure, Circulation 142:e42-e63, doi:10.1161/CIR.0000000000000803",
      },
    ],
    fields: [
      { key: "bp.homeMinReadings", name: "At least", unit: "readings", least: 1, most: 60, step: 1 },
      { key: "bp.homeMinDays", name: "On at least", unit: "days", least: 1, most: 30, step: 1 },
      { key: "bp.homeWindowDays", name: "Within", unit: "days", least: 1, most: 90, step: 1 },
    ],
    note: null,
  },
  numberTopic({
    id: "fresh",
    group: "pressure",
    name: "Readings out of the office go first",
    question: "For how long does a home average or a 24-hour mean go before an office reading?",
    field: { key: "bp.freshDays", unit: "days", least: 1, most: 365 },
    note: "90 days: common practice, no source.",
  }),
  numberTopic({
    id: "low",
    group: "pressure",
    name: "Low pressure",
    question: "Below which systolic is the pressure low?",
    field: { key: "bp.lowSystolic", unit: "mmHg systolic", least: 80, most: 130 },
    note: "110 on treatment, from memory of the cautions of the intensive-treatment trials; 100 and 120 are used too.",
  }),
]
