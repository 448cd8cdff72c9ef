import { topicOf } from "./setting-choices"
import { settingKeys, settingText } from "./setting-values"
import { Settings, type SettingKey } from "./settings"
import type { SettingField } from "./setting-topic"

/** Why a proposed value cannot be used, at the setting it was given for. */
export type SettingProblem = { key: SettingKey; message: string }

export type Proposal = {
  /** The settings as they would be; those of now while there are problems. */
  settings: Settings
  changed: SettingKey[]
  problems: SettingProblem[]
}

export function isSettingKey(key: string): key is SettingKey {
  return settingKeys.some((one) => one === key)
}

/** What the settings would be with some values, given as text, in place of those of now. */
export function proposeSettings(
  current: Settings,
  texts: Readonly<Partial<Record<SettingKey, string>>>,
): Proposal {
  const given = settingKeys.flatMap((key) => {
    const text = texts[key]
    return text === undefined ? [] : [{ key, text: text.trim() }]
  })
  const problems = given.flatMap(({ key, text }) => {
    const message = problemOf(key, text)
    return message === null ? [] : [{ key, message }]
  })
  if (problems.length > 0) return { settings: current, changed: [], problems }
  const values = Object.fromEntries(given.map(({ key, text }) => [key, valueOf(key, text)]))
  const settings = Settings.parse({ ...current, ...values })
  const contradictions = contradictionsOf(settings)
  if (contradictions.length > 0) return { settings: current, changed: [], problems: contradictions }
  const changed = settingKeys.filter((key) => settings[key] !== current[key])
  return { settings, changed, problems: [] }
}

/** The values of the given keys as text, for an address or a form. */
export function settingTexts(
  settings: Settings,
  keys: readonly SettingKey[],
): Partial<Record<SettingKey, string>> {
  return Object.fromEntries(keys.map((key) => [key, settingText(settings[key])]))
}

function fieldOf(key: SettingKey): SettingField | undefined {
  return topicOf(key).fields.find((field) => field.key === key)
}

function problemOf(key: SettingKey, text: string): string | null {
  const own = topicOf(key).texts?.find((one) => one.key === key)
  if (own) return own.problemOf(text)
  const field = fieldOf(key)
  if (!field) {
    const words = topicOf(key).choices.map((choice) => settingText(choice.sets[key] ?? null))
    return words.includes(text) ? null : `Must be one of ${words.join(", ")}.`
  }
  if (text === "") return field.isOptional ? null : "A number is needed."
  if (!/^\d+(\.\d+)?$/.test(plain(text))) return "Must be a number."
  const number = Number(plain(text))
  const range = `${field.least.toLocaleString("en-US")} to ${field.most.toLocaleString("en-US")}`
  if (number < field.least || number > field.most)
    return `Must be ${range} ${field.unit}; ${number} is outside.`
  if (field.step >= 1 && !Number.isInteger(number)) return "Must be a whole number."
  return null
}

function valueOf(key: SettingKey, text: string): string | number | null {
  if (!fieldOf(key)) return text
  return text === "" ? null : Number(plain(text))
}

/** A thousands separator is no part of the number. */
function plain(text: string): string {
  return /^\d{1,3}(,\d{3})+(\.\d+)?$/.test(text) ? text.replaceAll(",", "") : text
}

const pairs = [
  { systolic: "bp.systolicTarget", diastolic: "bp.diastolicTarget" },
  { systolic: "bp.homeSystolicTarget", diastolic: "bp.homeDiastolicTarget" },
  { systolic: "bp.ambulatorySystolicTarget", diastolic: "bp.ambulatoryDiastolicTarget" },
] as const

/** Values that are each in range and yet say nothing together. */
function contradictionsOf(settings: Settings): SettingProblem[] {
  const found: SettingProblem[] = []
  for (const { systolic, diastolic } of pairs) {
    const upper = settings[systolic]
    const lower = settings[diastolic]
    if ((upper === null) !== (lower === null))
      found.push({ key: lower === null ? diastolic : systolic, message: "Give both numbers, or neither." })
    if (upper !== null && lower !== null && lower >= upper)
      found.push({ key: diastolic, message: "The diastolic target must lie below the systolic one." })
  }
  if (settings["bp.lowSystolic"] >= settings["bp.systolicTarget"])
    found.push({
      key: "bp.lowSystolic",
      message: `Must lie below the systolic target of ${settings["bp.systolicTarget"]}.`,
    })
  if (settings["outreach.channels"] > settings["outreach.attempts"])
    found.push({ key: "outreach.channels", message: "So many channels need at least as many attempts." })
  if (settings["bp.homeMinDays"] > settings["bp.homeWindowDays"])
    found.push({ key: "bp.homeMinDays", message: "There are fewer days within which to measure." })
  if (settings["bp.homeMinDays"] > settings["bp.homeMinReadings"])
    found.push({ key: "bp.homeMinDays", message: "So many days need at least as many readings." })
  return found
}
