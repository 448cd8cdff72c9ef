import { numberTopic, type SettingTopic } from "./setting-topic"

const resistance =
  "Carey 2018, AHA scientific statement on resistant hypertension, Hypertension 72:e53-e90, doi:10.1161/HYP.0000000000000084"

export const drugTopics: readonly SettingTopic[] = [
  {
    id: "counting",
    group: "drugs",
    name: "Counting classes",
    question: "Which drugs count as one class?",
    keys: ["drugs.counting"],
    choices: [
      {
        id: "together",
        name: "RAS blockers together one class, diuretics together one",
        sets: { "drugs.counting": "together" },
        source: `Classes as resistance is defined by: ${resistance}`,
      },
      {
        id: "ras-separate",
        name: "ACE inhibitors, ARBs and renin inhibitors each a class",
        sets: { "drugs.counting": "ras_separate" },
        source: "common practice in counts of dispensed classes, no source",
      },
      {
        id: "diuretics-by-kind",
        name: "Thiazides, loop diuretics and potassium-sparing diuretics each a class",
        sets: { "drugs.counting": "diuretics_by_kind" },
        source: "common practice in counts of dispensed classes, no source",
      },
      {
        id: "both-separate",
        name: "Both of these apart",
        sets: { "drugs.counting": "both_separate" },
        source: "common practice in counts of dispensed classes, no source",
      },
    ],
    fields: [],
    note: "A steroidal mineralocorticoid antagonist is a class of its own in every way of counting.",
  },
  numberTopic({
    id: "several",
    group: "drugs",
    name: "Several classes",
    question: "From how many classes on is a pressure above target looked at as resistant?",
    field: { key: "drugs.several", unit: "classes", least: 2, most: 8 },
    choices: [
      {
        id: "three",
        name: "3 or more",
        sets: { "drugs.several": 3 },
        source: `Above goal on three classes: ${resistance}`,
      },
      {
        id: "four",
        name: "4 or more",
        sets: { "drugs.several": 4 },
        source: `Four classes are resistance at any pressure: ${resistance}`,
      },
      {
        id: "five",
        name: "5 or more",
        sets: { "drugs.several": 5 },
        source: `Refractory, above goal on five: ${resistance} (from memory)`,
      },
    ],
  }),
  numberTopic({
    id: "grace",
    group: "drugs",
    name: "Days after a supply has run out",
    question: "How long after its supply has run out does an order count as active?",
    field: { key: "drugs.graceDays", unit: "days", least: 0, most: 180 },
    note: "30 days: common practice, no source; 0 and 90 are used too.",
  }),
  numberTopic({
    id: "overlap",
    group: "drugs",
    name: "Two RAS blockers: more than a switch",
    question: "After how many days together are two kinds of RAS blocker no longer a switch?",
    field: { key: "drugs.overlapDays", unit: "days", least: 0, most: 90 },
    note: "30 days: common practice, no source; 0 and 60 are used too. The patient screen cautions at once whatever is set.",
  }),
]
