import Link from "next/link"
import type { Proposal } from "../../../lib/domain/setting-proposal"
import type { SettingTopic } from "../../../lib/domain/setting-topic"
import { topicWords } from "../../../lib/domain/setting-values"
import { defaultSettings, type Settings } from "../../../lib/domain/settings"
import { sentenceCase } from "../../../lib/speech/format"
import type { SettingTexts } from "./search-params"
import styles from "./settings.module.css"
import { TopicForm } from "./topic-form"

export type TopicProps = {
  topic: SettingTopic
  settings: Settings
  proposal: Proposal
  /** The values the address proposes, as they were typed. */
  texts: SettingTexts
}

/** One setting: the question, how it stands, and behind a fold the answers there are. */
export function TopicEntry(props: TopicProps) {
  const { topic, settings, proposal, texts } = props
  const isTried = topic.keys.some((key) => texts[key] !== undefined)
  const isWrong = topic.keys.some((key) => proposal.problems.some((problem) => problem.key === key))
  const isDefault = topic.keys.every((key) => settings[key] === defaultSettings[key])
  return (
    <article className={styles.topic} aria-labelledby={`${topic.id}-name`}>
      <div>
        <h3 id={`${topic.id}-name`}>{topic.name}</h3>
        <p className={styles.question}>{topic.question}</p>
      </div>
      <div>
        <p className={styles.stands}>
          {sentenceCase(topicWords(topic, settings))}
          <span className={styles.mark}>{isDefault ? "default" : "set by the clinic"}</span>
        </p>
        {topic.texts ? (
          <Link href="/settings/outreach" prefetch={false} className={styles.elsewhere}>
            Change<span className="visually-hidden"> {topic.name}</span>
          </Link>
        ) : (
          <details open={isTried || isWrong} className={styles.fold}>
            <summary>
              {isTried ? "Answers" : "Change"}
              <span className="visually-hidden"> {topic.name}</span>
            </summary>
            <TopicForm
              key={JSON.stringify(topic.keys.map((key) => [texts[key], settings[key]]))}
              {...props}
            />
          </details>
        )}
      </div>
    </article>
  )
}
