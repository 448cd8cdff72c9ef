import Link from "next/link"
import { chosenOf, topicOf } from "../../../../lib/domain/setting-choices"
import type { SettingTopic } from "../../../../lib/domain/setting-topic"
import { withSettings } from "../../../../lib/domain/setting-words"
import type { Settings } from "../../../../lib/domain/settings"
import type { WordedMeasure } from "../../../../lib/measures/types"
import styles from "./measure-basis.module.css"

/** Every setting that can change a standing of the measure, with what the clinic set. */
export function MeasureSettings({ measure }: { measure: WordedMeasure }) {
  const topics = [...new Set(measure.settings.map(topicOf))]
  return (
    <dl className={styles.settings}>
      {topics.map((topic) => (
        <div key={topic.id}>
          <dt>
            <Link href={`/settings#${topic.id}-name`} prefetch={false}>
              {topic.name}
            </Link>
          </dt>
          <dd>{answerOf(topic, measure.set)}</dd>
        </div>
      ))}
    </dl>
  )
}

/** The named choice the clinic stands at, or its own numbers with their units. */
function answerOf(topic: SettingTopic, settings: Settings): string {
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
