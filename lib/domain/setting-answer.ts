import { chosenOf } from "./setting-choices"
import type { SettingTopic } from "./setting-topic"
import { withSettings } from "./setting-words"
import type { Settings } from "./settings"

/** The named choice the clinic stands at, or its own numbers with their units. */
export function answerOf(topic: SettingTopic, settings: Settings): string {
  const choice = chosenOf(topic, settings)
  if (choice) return choice.name
  return topic.fields
    .filter((field) => settings[field.key] !== null)
    .map((field) => {
      const value = withSettings(`{${field.key}} ${field.unit}`, settings)
      return topic.fields.length === 1 ? value : `${field.name} ${value}`
    })
    .join("; ")
}
