import { drugTopics } from "./drug-topics"
import { kidneyTopics } from "./kidney-topics"
import { accessTopics } from "./access-topics"
import { outreachTopics } from "./outreach-topics"
import { keepTopics } from "./keep-topics"
import { decisionTopics, dietTopics, importTopics, panelTopics, reportTopics } from "./other-topics"
import { pressureTopics } from "./pressure-topics"
import type { SettingChoice, SettingTopic } from "./setting-topic"
import type { SettingKey, Settings } from "./settings"

/** Every setting the clinic has, as questions with the answers that published sources give. */
export const settingTopics: readonly SettingTopic[] = [
  ...panelTopics,
  ...pressureTopics,
  ...drugTopics,
  ...kidneyTopics,
  ...dietTopics,
  ...decisionTopics,
  ...outreachTopics,
  ...reportTopics,
  ...accessTopics,
  ...keepTopics,
  ...importTopics,
]

export function topicOf(key: SettingKey): SettingTopic {
  const topic = settingTopics.find((one) => one.keys.includes(key))
  if (!topic) throw new RangeError(`topicOf knows no topic for ${key}`)
  return topic
}

/** The named choice that the settings stand at, or null where they are the clinic's own numbers. */
export function chosenOf(topic: SettingTopic, settings: Settings): SettingChoice | null {
  const values = new Map<string, unknown>(Object.entries(settings))
  return (
    topic.choices.find((choice) =>
      Object.entries(choice.sets).every(([key, value]) => values.get(key) === value),
    ) ?? null
  )
}
