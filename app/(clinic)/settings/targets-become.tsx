import type { PressureLimit } from "../../../lib/questions/pressure-limits"
import styles from "./targets-become.module.css"

const readings = { office: "Office", home: "Home", ambulatory: "24-hour" } as const

const bases = {
  clinic: "set by the clinic",
  published: "the published equivalent",
  office: "no equivalent is published for this pair, so the office numbers serve",
} as const

/** What a proposed target becomes for each kind of reading, and why. */
export function TargetsBecome({ limits }: { limits: readonly PressureLimit[] }) {
  return (
    <section className={styles.targets} aria-label="Targets as proposed">
      <h3>Targets as proposed</h3>
      <ul>
        {limits.map((limit) => (
          <li key={limit.bp_source}>
            {readings[limit.bp_source]} below {limit.systolic_limit}/{limit.diastolic_limit} mmHg
            <span className={styles.basis}>{bases[limit.limit_basis]}</span>
          </li>
        ))}
      </ul>
    </section>
  )
}
