import type { SettingTopic } from "./setting-topic"

const mostDays = 3653

export const keepTopics: readonly SettingTopic[] = [
  {
    id: "keep",
    group: "keep",
    name: "Rows, uploads and sessions",
    question: "How long are rejected rows, uploads, ended sessions and failed sign-ins kept?",
    keys: ["keep.rejectedDays", "keep.uploadDays", "keep.sessionDays", "keep.failureDays"],
    choices: [
      {
        id: "year",
        name: "Rejected rows for a year, uploads and sessions for weeks",
        sets: {
          "keep.rejectedDays": 365,
          "keep.uploadDays": 30,
          "keep.sessionDays": 90,
          "keep.failureDays": 366,
        },
        source: "common practice, no source",
      },
      {
        id: "six-years",
        name: "Six years for rows, sessions and failures",
        sets: {
          "keep.rejectedDays": 2192,
          "keep.uploadDays": 30,
          "keep.sessionDays": 2192,
          "keep.failureDays": 2192,
        },
        source:
          "The six years of 45 CFR 164.316(b)(2)(i) for documentation (from memory); whether it reaches these is the clinic's to judge",
      },
    ],
    fields: [
      { key: "keep.rejectedDays", name: "Rejected rows", unit: "days", least: 1, most: mostDays, step: 1 },
      {
        ...{ key: "keep.uploadDays", name: "Uploads that wait for an answer", unit: "days" },
        ...{ least: 1, most: mostDays, step: 1 },
      },
      {
        ...{ key: "keep.sessionDays", name: "Ended sessions and used links", unit: "days" },
        ...{ least: 30, most: mostDays, step: 1 },
      },
      {
        ...{ key: "keep.failureDays", name: "Failed sign-ins", unit: "days" },
        ...{ least: 366, most: mostDays, step: 1 },
      },
    ],
    note: "Removed at each start of the site and once a day. Sessions tell for 30 days which addresses a person has signed in from, failed sign-ins slow guessing for a year. Facts and the audit log are kept for good; law and local policy apply.",
  },
]
