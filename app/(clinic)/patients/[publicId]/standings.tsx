import type { Settings } from "../../../../lib/domain/settings"
import type { PatientIdentity } from "../../../../lib/questions/patient-identity"
import type { WordedMeasure } from "../../../../lib/measures/types"
import { wordedMeasures } from "../../../../lib/measures/worded-measures"
import type { PatientStanding } from "../../../../lib/questions/patient-standings"
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
  const asked = entries.filter((entry) => entry.standing.standing !== "outside")
  const outside = entries.filter((entry) => entry.standing.standing === "outside")
  return (
    <>
      {asked.map((entry) => (
        <StandingEntry key={entry.measure.id} {...entry} />
      ))}
      {outside.length === 0 ? null : (
        <details className={styles.outside} open={asked.length === 0}>
          <summary>
            {outside.length === 1 ? "One measure does" : `${outside.length} measures do`} not ask this person
          </summary>
          {outside.map((entry) => (
            <StandingEntry key={entry.measure.id} {...entry} />
          ))}
        </details>
      )}
    </>
  )
}

export type StandingFacts = { measure: WordedMeasure; standing: PatientStanding; rows: ConditionRow[] }

/** Wanting attention, then not known, then exceptions, then reached, then excluded. */
function rank({ measure, standing }: StandingFacts): number {
  const wanting = measure.direction === "up" ? "not met" : "met"
  const order = [
    wanting,
    "unknown",
    "exception",
    wanting === "met" ? "not met" : "met",
    "excluded",
    "outside",
  ]
  return order.indexOf(standing.standing)
}
