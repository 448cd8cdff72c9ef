import { settingTopics } from "../../../lib/domain/setting-choices"
import { isSettingKey, settingTexts } from "../../../lib/domain/setting-proposal"
import { settingKeys, settingText } from "../../../lib/domain/setting-values"
import type { SettingKey, Settings } from "../../../lib/domain/settings"
import { hrefOf, single, type RawSearch } from "../../_ui/href"

export type SettingTexts = Partial<Record<SettingKey, string>>

/** The values an address proposes, by key, and whether it is written the short way, with the keys alone. */
export type SettingsView = { texts: SettingTexts; isShort: boolean }

/** The form's name for the choice made in a topic. */
export function choiceParam(topicId: string): string {
  return `choice.${topicId}`
}

/** What stands in `choiceParam` when the clinic gives numbers of its own. */
export const ownChoice = "own"

/** Reads what is proposed: a named choice stands for its values, anything else for the numbers given. */
export function parseSettingsView(raw: RawSearch): SettingsView {
  const given = single(raw)
  const texts: SettingTexts = {}
  for (const topic of settingTopics) {
    const choice = topic.choices.find((one) => one.id === given[choiceParam(topic.id)])
    for (const key of topic.keys) {
      const text = choice ? settingText(choice.sets[key] ?? null) : given[key]
      if (text !== undefined) texts[key] = text
    }
  }
  const isShort = Object.entries(given).every(([name, text]) => text === undefined || isSettingKey(name))
  return { texts, isShort }
}

export function settingsHref(texts: SettingTexts, place = ""): string {
  const params = Object.fromEntries(
    settingKeys.flatMap((key) => (texts[key] === undefined ? [] : [[key, texts[key]] as const])),
  )
  return hrefOf("/settings", params) + (place ? `#${place}` : "")
}

/** The values of a proposal that are not those of now, as an address holds them. */
export function proposedTexts(settings: Settings, changed: readonly SettingKey[]): SettingTexts {
  return settingTexts(settings, changed)
}
