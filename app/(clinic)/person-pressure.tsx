import type { ReactNode } from "react"
import { day, pressure } from "../../lib/speech/format"
import type { PressureSource } from "../../lib/speech/pressure-place"
import { PressureMark } from "../_ui/pressure-mark"
import styles from "./people-list.module.css"

type PersonPressureProps = {
  person: {
    systolic: number
    diastolic: number
    systolic_limit: number
    diastolic_limit: number
    bp_source: PressureSource
    bp_on: string
    is_severe: boolean
  }
  /** What else is said of the pressure. */
  children?: ReactNode
}

/** The pressure that represents a person in a list, where and when it was taken, and its target. */
export function PersonPressure({ person, children }: PersonPressureProps) {
  return (
    <>
      <p className={styles.figure}>{pressure(person.systolic, person.diastolic)}</p>
      {person.is_severe ? <p className={styles.severeWords}>Severe</p> : null}
      <p className={styles.soft}>
        <PressureMark source={person.bp_source} />, {day(person.bp_on)}
      </p>
      {children}
      <p className={styles.soft}>target below {pressure(person.systolic_limit, person.diastolic_limit)}</p>
    </>
  )
}
