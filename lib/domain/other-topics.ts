import { numberTopic, type SettingTopic } from "./setting-topic"

export const panelTopics: readonly SettingTopic[] = [
  numberTopic({
    id: "panel-visit",
    group: "panel",
    name: "Latest visit",
    question: "How recent must a visit be for a person to be in the panel?",
    field: { key: "panel.visitMonths", unit: "months", least: 1, most: 60 },
    note: "18 months: common practice, no source. Every measure counts the panel, so every figure changes with this.",
  }),
]

export const dietTopics: readonly SettingTopic[] = [
  numberTopic({
    id: "diet-limit",
    group: "diet",
    name: "Sodium limit",
    question: "Up to how much sodium a day is a person within the limit?",
    field: { key: "diet.limitMg", unit: "mg a day", least: 500, most: 5000, step: 100 },
    choices: [
      {
        id: "2300",
        name: "2,300 mg a day",
        sets: { "diet.limitMg": 2300 },
        source:
          "Chronic disease risk reduction intake: National Academies 2019, Dietary Reference Intakes for Sodium and Potassium, doi:10.17226/25353",
      },
      {
        id: "2000",
        name: "2,000 mg a day",
        sets: { "diet.limitMg": 2000 },
        source:
          "In CKD: KDIGO 2024 CKD guideline, Kidney Int 105(4S):S117-S314, section 3.3, doi:10.1016/j.kint.2023.10.018; WHO 2012 guideline on sodium intake",
      },
      {
        id: "1500",
        name: "1,500 mg a day",
        sets: { "diet.limitMg": 1500 },
        source:
          "Optimal goal: Whelton 2018, ACC/AHA guideline, Hypertension 71:e13-e115, section 6.2, doi:10.1161/HYP.0000000000000065 (from memory)",
      },
    ],
  }),
  numberTopic({
    id: "diet-window",
    group: "diet",
    name: "Diet window",
    question: "Over how many days are a person's diet records averaged?",
    field: { key: "diet.windowDays", unit: "days", least: 7, most: 365 },
    note: "90 days: common practice, no source.",
  }),
  numberTopic({
    id: "urine-recovery",
    group: "diet",
    name: "Sodium recovered in 24-hour urine",
    question: "Which share of the sodium eaten appears in a 24-hour urine?",
    field: { key: "diet.urineRecovery", unit: "share", least: 0.5, most: 1, step: 0.01 },
    choices: [
      {
        id: "as-excreted",
        name: "1.00: excretion as it is",
        sets: { "diet.urineRecovery": 1 },
        source: "As limits given per day of urine are usually read; common practice, no source",
      },
      {
        id: "pooled",
        name: "0.93: pooled recovery",
        sets: { "diet.urineRecovery": 0.93 },
        source:
          "92.8% (95% interval 90.7 to 95.0) over 35 studies: Lucko 2018, J Clin Hypertens 20:1220 (first page; read in abstract)",
      },
      {
        id: "reference-intakes",
        name: "0.90: about nine tenths",
        sets: { "diet.urineRecovery": 0.9 },
        source:
          "As used for reference intakes: National Academies 2019, Dietary Reference Intakes for Sodium and Potassium, doi:10.17226/25353 (from memory)",
      },
    ],
  }),
]

export const decisionTopics: readonly SettingTopic[] = [
  numberTopic({
    id: "decisions",
    group: "decisions",
    name: "Decisions in force",
    question: "How long does a clinician's decision hold when it names no end?",
    field: { key: "decisions.months", unit: "months", least: 1, most: 60 },
    note: "12 months: common practice, no source.",
  }),
]

export const importTopics: readonly SettingTopic[] = [
  {
    id: "import-question",
    group: "import",
    name: "When an import asks first",
    question: "How much must be rejected, held or withdrawn before an import asks a person?",
    keys: ["import.rejectShare", "import.rejectRows", "import.withdrawShare"],
    choices: [],
    fields: [
      {
        key: "import.rejectShare",
        name: "Rejected or held, more than",
        unit: "share of the rows of a file",
        least: 0.001,
        most: 1,
        step: 0.001,
      },
      {
        key: "import.rejectRows",
        name: "and at least",
        unit: "rows",
        least: 1,
        most: 100_000,
        step: 1,
      },
      {
        key: "import.withdrawShare",
        name: "Withdrawn, more than",
        unit: "share of the facts in force",
        least: 0.001,
        most: 1,
        step: 0.001,
      },
    ],
    note: "5%, 20 rows and 10%: common practice, no source. These change no figure; the next import reads them.",
  },
]

export const reportTopics: readonly SettingTopic[] = [
  numberTopic({
    id: "smallest-group",
    group: "reports",
    name: "Smallest group shown",
    question: "From how many people on is a group shown outside the care team?",
    field: { key: "reports.smallestGroup", unit: "people", least: 2, most: 50 },
    choices: [
      {
        id: "11",
        name: "11 people",
        sets: { "reports.smallestGroup": 11 },
        source:
          "US Centers for Medicare & Medicaid Services, cell size suppression policy: no cell of 1 to 10",
      },
      {
        id: "8",
        name: "8 people",
        sets: { "reports.smallestGroup": 8 },
        source: "common practice in hospital statistics in England, no source",
      },
      {
        id: "5",
        name: "5 people",
        sets: { "reports.smallestGroup": 5 },
        source: "common practice in health statistics, no source",
      },
    ],
    note: "In documents, and on screen for who sees counts only, groups with fewer people are left out, and as many more as it takes that nothing can be worked out. Who may open people sees every count. This changes no figure.",
  }),
]
