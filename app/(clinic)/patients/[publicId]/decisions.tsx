import type { Caller } from "../../../../lib/access/caller"
import { holdsOn } from "../../../../lib/domain/clinician-decisions"
import { countsFromWords, decisionTopicWords, planWords } from "../../../../lib/speech/decision-words"
import { sentenceCase } from "../../../../lib/speech/format"
import { Decided } from "../../decisions/decided"
import { DecisionForm } from "../../decisions/decision-form"
import { mayDecide } from "../../decisions/may-decide"
import { UndoForm } from "../../decisions/undo-form"
import type { TopicToday } from "./decisions-today"
import type { PatientAnswers } from "./patient-answers"
import { planSources } from "./plan-sources"
import { SourceLinks } from "./source-links"
import styles from "./decisions.module.css"

type Shown = {
  publicId: string
  caller: Caller
  months: number
  today: string
  asOf: string
  /** Where the rows behind what became of a plan are found. */
  line: PatientAnswers["line"]
}

/** What clinicians decided about this person, by topic, with what may be decided now. */
export function Decisions(props: Shown & { topics: readonly TopicToday[] }) {
  const { topics, ...shown } = props
  if (topics.length === 0) return null
  return (
    <section
      className={
        topics.every((one) => one.latest === null)
          ? `${styles.decisions} ${styles.undecided}`
          : styles.decisions
      }
      aria-labelledby="decisions"
    >
      <h2 id="decisions">Decisions</h2>
      <ul>
        {topics.map((one) => (
          <Topic key={one.topic} one={one} {...shown} />
        ))}
      </ul>
      <p className={styles.defers}>
        Kept with who decided and when. A plan and wrong data leave the measures as they are; the others are
        exceptions while they hold. {countsFromWords(shown)} Clinicians decide; local policy applies.
      </p>
    </section>
  )
}

function Topic({ one, publicId, caller, months, today, asOf, line }: Shown & { one: TopicToday }) {
  const { topic, latest, plan, earlier, isOpen } = one
  const about = decisionTopicWords[topic]
  const holds = latest !== null && holdsOn(latest, { months, on: today })
  const of = { publicId, topic, shownId: latest?.id ?? null, about, today, asOf }
  return (
    <li className={latest === null ? styles.undecided : undefined}>
      <h3>{sentenceCase(about)}</h3>
      <div>
        {latest === null ? (
          <p className={styles.none}>None on record.</p>
        ) : (
          <Decided decision={latest} months={months} today={today} />
        )}
        {plan === null ? null : (
          <p
            className={
              plan.state === "not started in time" || plan.tests === "missing" ? styles.late : undefined
            }
          >
            {planWords(plan)}. <SourceLinks sources={planSources(plan, line)} />
          </p>
        )}
        {earlier.length === 0 ? null : (
          <details className={styles.more}>
            <summary>
              Earlier<span className="visually-hidden"> decisions: {about}</span>
            </summary>
            <ol className={styles.earlier}>
              {earlier.map((decision) => (
                <li key={decision.id}>
                  <Decided decision={decision} months={months} today={today} />
                </li>
              ))}
            </ol>
          </details>
        )}
        {isOpen ? (
          <details className={styles.more}>
            <summary>
              {holds ? "Decide anew" : "Decide"}
              <span className="visually-hidden">: {about}</span>
            </summary>
            <DecisionForm of={of} />
          </details>
        ) : null}
      </div>
      {holds && mayDecide(caller, topic) ? (
        <UndoForm publicId={publicId} id={latest.id} about={about} />
      ) : null}
    </li>
  )
}
