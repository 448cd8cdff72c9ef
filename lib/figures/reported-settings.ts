import { answerOf } from "../domain/setting-answer"
import { settingTopics } from "../domain/setting-choices"
import { settingGroups } from "../domain/setting-topic"
import type { Settings } from "../domain/settings"

/** Who comes in, who is contacted, what is kept and how data arrive say nothing of a figure. */
const unreported: readonly string[] = ["outreach", "access", "keep", "import"]

/** What the clinic set, as far as it bears on figures, group by group: a setting's name and its answer. */
export function reportedSettings(settings: Settings): { title: string; rows: [string, string][] }[] {
  return settingGroups
    .filter(({ id }) => !unreported.includes(id))
    .map((group) => ({
      title: group.title,
      rows: settingTopics
        .filter((topic) => topic.group === group.id)
        .map((topic): [string, string] => [topic.name, answerOf(topic, settings)]),
    }))
}
