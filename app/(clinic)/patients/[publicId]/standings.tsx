import type { Settings } from "../../../../lib/domain/settings"
import type { PatientIdentity } from "../../../../lib/questions/patient-identity"
import type { WordedMeasure } from "../../../../lib/measures/types"
import { wordedMeasures } from "../../../../lib/measures/worded-measures"
import type { PatientStanding } from "../../../../lib/questions/patient-standings"
import { standingKind, standingKinds, type StandingKind } from "../../../../lib/speech/standing-kind"
import { standingRows, type ConditionRow } from "./condition-rows"
import type { PatientAnswers } from "./patient-answers"
import { StandingEntry } from "./standing-entry"
import styles from "./standings.module.css"

/** Where the person stands on every measure, those that want attention first, with every condition behind it. */
export function Standings(props: {
  person: PatientIdentity
  held: PatientAnswers["held"]
  settings: Settings
}) {
  const { person, held, settings } = props
  if (held.standings.length === 0) return null
  const limits = { systolic: person.systolic_limit, diastolic: person.diastolic_limit }
  const entries = wordedMeasures(settings)
    .flatMap((measure) => {
      const standing = held.standings.find((one) => one.measure_id === measure.id)
      return standing ? [{ measure, standing, rows: standingRows(measure, held, limits) }] : []
    })
    .toSorted((one, other) => rank(one) - rank(other))
  const of = (kinds: readonly StandingKind[]) => entries.filter((entry) => kinds.includes(kindOf(entry)))
  const outside = of(["outside"])
  return (
    <>
      <section className={styles.open} aria-label="What is open">
        {of(["wanting", "unknown"]).map((entry) => (
          <StandingEntry key={entry.measure.id} {...entry} />
        ))}
        {of(["wanting", "unknown"]).length === 0 ? (
          <p className="soft">No measure asks for attention.</p>
        ) : null}
      </section>
      <section className={styles.settled} aria-label="What is reached, decided or left out">
        <div className={styles.two}>
          {of(["exception", "reached", "excluded"]).map((entry) => (
            <StandingEntry key={entry.measure.id} {...entry} size="small" />
          ))}
        </div>
        {outside.length === 0 ? null : (
          <details className={styles.outside} open={outside.length === entries.length}>
            <summary>
              {outside.length === 1 ? "One measure does" : `${outside.length} measures do`} not ask this
              person
            </summary>
            <div className={styles.two}>
              {outside.map((entry) => (
                <StandingEntry key={entry.measure.id} {...entry} size="small" />
              ))}
            </div>
          </details>
        )}
      </section>
    </>
  )
}

export type StandingFacts = { measure: WordedMeasure; standing: PatientStanding; rows: ConditionRow[] }

/** Wanting attention, then not known, then exceptions, then reached, then excluded. */
function rank(entry: StandingFacts): number {
  return standingKinds.indexOf(kindOf(entry))
}

function kindOf({ measure, standing }: StandingFacts): StandingKind {
  return standingKind(measure, standing.standing)
}
