import Link from "next/link"
import { answerOf } from "../../../../lib/domain/setting-answer"
import { topicOf } from "../../../../lib/domain/setting-choices"
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
