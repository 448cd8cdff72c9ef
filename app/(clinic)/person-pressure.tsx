import type { ReactNode } from "react"
import { day, pressure } from "../../lib/speech/format"
import type { PressureSource } from "../../lib/speech/pressure-place"
import { PressureMark } from "../_ui/pressure-mark"
import styles from "./people-list.module.css"

type PersonPressureProps = {
  person: {
    systolic: number | null
    diastolic: number | null
    systolic_limit: number | null
    diastolic_limit: number | null
    bp_source: PressureSource | null
    bp_on: string | null
    is_severe: boolean
  }
  /** What else is said of a pressure that was measured. */
  children?: ReactNode
}

/** The pressure that represents a person in a list, where and when it was taken, and its target; or that there is none. */
export function PersonPressure({ person, children }: PersonPressureProps) {
  const { systolic, diastolic, bp_source: source, bp_on: on } = person
  if (systolic === null || diastolic === null || source === null || on === null)
    return <p>Pressure not measured</p>
  const { systolic_limit: systolicLimit, diastolic_limit: diastolicLimit } = person
  return (
    <>
      <p className={styles.figure}>{pressure(systolic, diastolic)}</p>
      {person.is_severe ? <p className={styles.severeWords}>Severe</p> : null}
      <p className={styles.soft}>
        <PressureMark source={source} />, {day(on)}
      </p>
      {children}
      {systolicLimit === null || diastolicLimit === null ? null : (
        <p className={styles.soft}>target below {pressure(systolicLimit, diastolicLimit)}</p>
      )}
    </>
  )
}
