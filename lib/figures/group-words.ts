import type { GroupKind } from "../questions/measure-groups"
import { languageName, sentenceCase } from "../speech/format"

const titles: Record<GroupKind, string> = {
  clinician: "Clinician",
  site: "Site",
  sex: "Sex on record",
  age: "Age",
  language: "Language",
  race: "Race",
  ethnicity: "Ethnicity",
}

const absent: Record<GroupKind, string> = {
  clinician: "No clinician on record",
  site: "No site on record",
  sex: "Not recorded",
  age: "Not recorded",
  language: "Not recorded",
  race: "Not asked",
  ethnicity: "Not asked",
}

export function groupTitle(kind: GroupKind): string {
  return titles[kind]
}

/** How a group is called: "Vietnamese", "More than one", "Declined"; null is nobody's answer. */
export function groupName(kind: GroupKind, name: string | null): string {
  if (name === null) return absent[kind]
  return sentenceCase(kind === "language" && /^[a-z]{2,3}$/.test(name) ? languageName(name) : name)
}
