import type { SettingTopic } from "./setting-topic"

export const accessTopics: readonly SettingTopic[] = [
  {
    id: "own-panel",
    group: "access",
    name: "Own panel",
    question: "Who sees only the people whose clinician they are?",
    keys: ["access.ownPanel"],
    choices: [
      {
        id: "none",
        name: "Nobody: all who treat see the clinic",
        sets: { "access.ownPanel": "none" },
        source: "common practice in a small clinic, no source",
      },
      {
        id: "nephrologist",
        name: "Nephrologists",
        sets: { "access.ownPanel": "nephrologist" },
        source: "The minimum necessary: 45 CFR 164.502(b) and 164.514(d)(2) (from memory)",
      },
    ],
    fields: [],
    note: "A nephrologist without a link to the staff list then sees nobody; sites limit anybody, by their account. An emergency lifts both for an hour. This changes no figure of the whole clinic.",
  },
]
