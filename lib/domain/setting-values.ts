import { chosenOf, topicOf } from "./setting-choices"
import type { SettingTopic } from "./setting-topic"
import { Settings, type SettingKey } from "./settings"

/** Any value a setting may have. */
export type SettingValue = string | number | null

/** Every key of the settings, in their order. */
export const settingKeys: readonly SettingKey[] = Settings.keyof().options

/** A value as it stands in an address or a form; what is not set is empty. */
export function settingText(value: SettingValue): string {
  return value === null ? "" : String(value)
}

/** A value as it is read: a number with its unit, a word of a list by the name of its choice. */
export function settingWords(key: SettingKey, value: SettingValue): string {
  if (value === null) return "not set"
  const topic = topicOf(key)
  const own = topic.texts?.find((one) => one.key === key)
  if (own) return own.wordsOf(settingText(value))
  if (typeof value === "string") return choiceNamed(key, value) ?? value
  const unit = topic.fields.find((field) => field.key === key)?.unit
  if (unit?.startsWith("share")) return `${percent(value)}${unit.replace(/^share/, "")}`
  const number = value.toLocaleString("en-US", { maximumFractionDigits: 3 })
  return unit ? `${number} ${unit}` : number
}

/** The name of the number or word where a topic has several, else that of the topic. */
export function settingName(key: SettingKey): string {
  const topic = topicOf(key)
  const own = topic.texts?.find((one) => one.key === key)
  if (own) return own.name
  const field = topic.fields.find((one) => one.key === key)
  if (!field || topic.fields.length === 1) return topic.name
  return `${topic.name}, ${field.name.charAt(0).toLowerCase()}${field.name.slice(1)}`
}

function choiceNamed(key: SettingKey, value: string): string | undefined {
  return topicOf(key).choices.find((choice) => choice.sets[key] === value)?.name
}

/** How a topic stands: the name of its choice, or the clinic's own numbers. */
export function topicWords(topic: SettingTopic, settings: Settings): string {
  const chosen = chosenOf(topic, settings)
  if (chosen) return chosen.name
  if (topic.texts) return topic.texts.map(({ key }) => settingWords(key, settings[key])).join("; ")
  return topic.fields
    .filter((field) => settings[field.key] !== null)
    .map((field) =>
      topic.fields.length === 1
        ? settingWords(field.key, settings[field.key])
        : `${field.name.charAt(0).toLowerCase()}${field.name.slice(1)} ${settingWords(field.key, settings[field.key])}`,
    )
    .join(", ")
}

/** 0.05 as "5%". */
function percent(share: number): string {
  return `${(share * 100).toLocaleString("en-US", { maximumFractionDigits: 1 })}%`
}
