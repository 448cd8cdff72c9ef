import type { SnapshotMeta } from "../../../lib/engine/snapshot-meta"
import { wordedMeasures } from "../../../lib/measures/worded-measures"
import { inClinicsOrder } from "../../../lib/outreach/between-two"
import type { OwnVisit } from "../../../lib/questions/own-visits"
import { count, day, sentenceCase } from "../../../lib/speech/format"
import { actorOf, reasonParts } from "../../../lib/speech/outreach-words"
import type { ListedCase } from "../../../lib/store/case-list"
import { PersonHead } from "../../_ui/person-head"
import styles from "../people-list.module.css"
import own from "./my-patients.module.css"
import { PersonPressure } from "../person-pressure"

type RowProps = { visit: OwnVisit; known: ListedCase | null; snapshot: SnapshotMeta }

/** One visit: who comes and when, how the pressure stands, which measures want attention, and the reasons on the list. */
export function VisitRow({ visit, known, snapshot }: RowProps) {
  const reasons = known === null || known.case.closed !== null ? [] : known.case.reasons
  const isUrgent = reasons.some((held) => held.isUrgent)
  return (
    <tr role="row" className={isUrgent ? styles.severe : undefined}>
      <PersonHead person={visit} month={null}>
        <p className={styles.soft}>
          {count(visit.age_years)} years,{" "}
          {visit.last_visit_on === null ? "never seen" : `last seen ${day(visit.last_visit_on)}`}
        </p>
        {visit.with_name === null ? null : <p className={styles.soft}>booked with {visit.with_name}</p>}
      </PersonHead>
      <td role="cell">
        <p className={styles.figure}>{visit.starts_at ?? "No time"}</p>
        <p className={styles.soft}>{visit.kind}</p>
      </td>
      <td role="cell">
        <PersonPressure person={visit} />
      </td>
      <td role="cell">
        <Wanting visit={visit} snapshot={snapshot} />
      </td>
      <td role="cell">
        {reasons.length === 0 ? null : <p className={own.onPhone}>To be done before the visit</p>}
        <Reasons reasons={inClinicsOrder(reasons, snapshot.settings)} snapshot={snapshot} />
      </td>
    </tr>
  )
}

function Wanting({ visit, snapshot }: Omit<RowProps, "known">) {
  const wanting = wordedMeasures(snapshot.settings).filter((_, place) => visit.wanting[place])
  if (wanting.length === 0) return <p className={styles.soft}>No measure wants attention</p>
  return (
    <ul className={styles.findings}>
      {wanting.map((measure) => (
        <li key={measure.id}>
          {sentenceCase(measure.direction === "up" ? measure.notMetWords : measure.metWords)}
        </li>
      ))}
    </ul>
  )
}

function Reasons({ reasons, snapshot }: { reasons: ListedCase["case"]["reasons"]; snapshot: SnapshotMeta }) {
  if (reasons.length === 0) return <p className={styles.soft}>No reason on the list</p>
  return (
    <ul className={styles.findings}>
      {reasons.map((held) => {
        const { name, detail } = reasonParts(held, snapshot.settings)
        const actor = actorOf(held)
        return (
          <li key={held.reason}>
            {held.isUrgent ? <strong className={styles.severeWords}>Urgent: </strong> : null}
            {name}{" "}
            <span className={styles.soft}>{[detail, actor && `(${actor})`].filter(Boolean).join(" ")}</span>
          </li>
        )
      })}
    </ul>
  )
}
