import type { SettingKey, Settings } from "./settings"

/** The groups in which settings are shown, in that order. */
export const settingGroups = [
  { id: "panel", title: "Panel" },
  { id: "pressure", title: "Pressure" },
  { id: "drugs", title: "Drugs" },
  { id: "kidney", title: "Kidney and urine" },
  { id: "diet", title: "Diet" },
  { id: "decisions", title: "Decisions" },
  { id: "outreach", title: "People to contact" },
  { id: "reports", title: "Small groups" },
  { id: "access", title: "Who sees whom" },
  { id: "keep", title: "How long things are kept" },
  { id: "import", title: "Import" },
] as const

export type SettingGroup = (typeof settingGroups)[number]["id"]

/** A number the clinic gives itself, with the range that makes sense; `isOptional` may be left empty. */
export type SettingField = {
  readonly key: SettingKey
  readonly name: string
  readonly unit: string
  readonly least: number
  readonly most: number
  /** The smallest step between two values; 1 for whole numbers. */
  readonly step: number
  readonly isOptional?: boolean
}

/** A text the clinic gives itself; `problemOf` tells what is wrong with one. */
export type SettingText = {
  readonly key: SettingKey
  readonly name: string
  readonly problemOf: (text: string) => string | null
  /** How a text is read. */
  readonly wordsOf: (text: string) => string
}

/** A named value, or values, that a published source stands for. */
export type SettingChoice = {
  readonly id: string
  readonly name: string
  readonly sets: Partial<Settings>
  readonly source: string
}

/** One question that the clinic answers: by a named choice, by numbers of its own, or by either. */
export type SettingTopic = {
  readonly id: string
  readonly group: SettingGroup
  readonly name: string
  readonly question: string
  readonly keys: readonly SettingKey[]
  readonly choices: readonly SettingChoice[]
  readonly fields: readonly SettingField[]
  /** Texts are changed on a screen of their own. */
  readonly texts?: readonly SettingText[]
  /** What stands behind the default where no choice is named, or what else is worth knowing. */
  readonly note: string | null
}

/** A topic of one number. */
export function numberTopic(topic: {
  id: string
  group: SettingGroup
  name: string
  question: string
  field: Omit<SettingField, "name" | "step"> & { step?: number }
  choices?: readonly SettingChoice[]
  note?: string
}): SettingTopic {
  const { field, choices = [], note = null, ...rest } = topic
  return {
    ...rest,
    keys: [field.key],
    choices,
    fields: [{ step: 1, ...field, name: topic.name }],
    note,
  }
}
