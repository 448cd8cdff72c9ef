import { settingTopics } from "../../../lib/domain/setting-choices"
import type { Proposal } from "../../../lib/domain/setting-proposal"
import { settingGroups } from "../../../lib/domain/setting-topic"
import type { Settings } from "../../../lib/domain/settings"
import { Theme } from "../../_ui/screen"
import type { SettingTexts } from "./search-params"
import { TopicEntry } from "./topic-entry"

/** Every setting by group: its question, how it stands, and the form to try another answer. */
export function SettingsGroups(props: { settings: Settings; proposal: Proposal; texts: SettingTexts }) {
  return (
    <>
      {settingGroups.map((group) => (
        <Theme key={group.id} id={group.id} title={group.title}>
          {settingTopics
            .filter((topic) => topic.group === group.id)
            .map((topic) => (
              <TopicEntry key={topic.id} topic={topic} {...props} />
            ))}
        </Theme>
      ))}
    </>
  )
}
