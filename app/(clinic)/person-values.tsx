import { count, day, lab } from "../../lib/speech/format"
import { PersonValue } from "./person-value"

/** The latest potassium of a person in a list. */
export function PersonPotassium(props: {
  person: { potassium: number | null; potassium_comparator: string | null; potassium_on: string | null }
}) {
  const { potassium: number, potassium_comparator: comparator, potassium_on: on } = props.person
  return (
    <PersonValue name="Potassium" on={on}>
      {number === null ? null : lab({ number, comparator, unit: "mmol/L", decimals: 1 })}
    </PersonValue>
  )
}

/** The latest eGFR of a person in a list. */
export function PersonEgfr({ person }: { person: { egfr: number | null; egfr_on: string | null } }) {
  return (
    <PersonValue name="eGFR" on={person.egfr_on}>
      {person.egfr === null ? null : count(person.egfr)}
    </PersonValue>
  )
}

/** The next visit of a person in a list. */
export function PersonNextVisit({ person }: { person: { next_visit_on: string | null } }) {
  return (
    <PersonValue name="Next visit" on={null} absent="none booked">
      {person.next_visit_on === null ? null : day(person.next_visit_on)}
    </PersonValue>
  )
}
