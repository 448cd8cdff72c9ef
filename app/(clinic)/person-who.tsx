import type { ReactNode } from "react"
import { count } from "../../lib/speech/format"
import { PersonHead } from "../_ui/person-head"
import { sexWords } from "../_ui/sex-words"
import type { ChosenMonth } from "./months"
import styles from "./people-list.module.css"

/** Who a row of a review is about: the name, which opens the patient, then age, clinician and site. */
export function PersonWho(props: {
  person: Parameters<typeof PersonHead>[0]["person"] & {
    age_years: number
    /** Where it bears on what the list is about. */
    sex?: string
    clinician_name: string | null
    site: string | null
  }
  chosen: ChosenMonth
  children?: ReactNode
}) {
  const { person, chosen } = props
  return (
    <PersonHead person={person} month={chosen.param}>
      <p className={styles.soft}>
        {count(person.age_years)} years{person.sex === undefined ? "" : `, ${sexWords(person.sex)}`}
      </p>
      <p className={styles.soft}>{person.clinician_name ?? "no clinician"}</p>
      <p className={styles.soft}>{person.site}</p>
      {props.children}
    </PersonHead>
  )
}
