import Link from "next/link"
import type { Caller } from "../../../lib/access/caller"
import type { Settings } from "../../../lib/domain/settings"
import { differingKey } from "../../../lib/outreach/between-two"
import { count, day } from "../../../lib/speech/format"
import { attemptsWords, belowWords, contactWords, hereWords } from "../../../lib/speech/outreach-row-words"
import { reasonParts } from "../../../lib/speech/outreach-words"
import { ButtonLink } from "../../_ui/button"
import type { RowOfList } from "./outreach-answers"
import styles from "./outreach.module.css"

type RowProps = {
  row: RowOfList
  /** The row shown before, of the same kind or not. */
  above: RowOfList | null
  place: number
  settings: Settings
  caller: Caller
}

/** One person: all their reasons, how to reach them, what was tried, and why they stand here. */
export function OutreachRow({ row, above, place, settings, caller }: RowProps) {
  const isUrgent = row.one.tier === "urgent"
  return (
    <li className={isUrgent ? `${styles.row} ${styles.urgent}` : styles.row}>
      <p className={styles.place}>{isUrgent ? <Urgent /> : count(place)}</p>
      <Who row={row} />
      <div className={styles.reasons}>
        <ul>
          {row.one.case.reasons.map((held) => {
            const { name, detail } = reasonParts(held, settings)
            return (
              <li key={held.reason}>
                <strong>{name}</strong> {detail}
              </li>
            )
          })}
        </ul>
        {isUrgent ? <p className={styles.soft}>{settings["outreach.urgentText"]}</p> : null}
        <WhyHere row={row} above={above} />
      </div>
      <div className={styles.standing}>
        {isUrgent ? <Told row={row} /> : <Tried row={row} caller={caller} />}
      </div>
      <div className={styles.acts}>
        <ButtonLink href={`/outreach/people/${row.one.public_id}`}>Open</ButtonLink>
      </div>
    </li>
  )
}

function Urgent() {
  return (
    <>
      <span aria-hidden="true" className={styles.mark}>
        !
      </span>
      <span className={styles.markWord}>Urgent</span>
    </>
  )
}

function Who({ row: { one, person } }: { row: RowOfList }) {
  const name = [person?.given_name, person?.family_name].filter(Boolean).join(" ") || "Name not on record"
  const age = person?.age_years ?? null
  const facts = [age === null ? null : String(age), person?.clinician_name ?? "no clinician", person?.site]
  return (
    <div>
      <h2 className={styles.name}>
        <Link href={`/outreach/people/${one.public_id}`} prefetch={false}>
          {name}
        </Link>
      </h2>
      <p className={styles.soft}>{facts.filter(Boolean).join(", ")}</p>
    </div>
  )
}

/** Who is told of an urgent row, and whether somebody has seen it. */
function Told({ row: { one, person } }: { row: RowOfList }) {
  return (
    <>
      <p>For {person?.clinician_name ?? "the clinic's lead, as no clinician is named"}</p>
      <p>
        {one.case.acknowledgedBy === null
          ? "Not yet acknowledged"
          : `Acknowledged by ${one.acknowledged_name ?? "an account that is gone"}`}
      </p>
    </>
  )
}

function Tried({ row: { one, person }, caller }: { row: RowOfList; caller: Caller }) {
  const { assignedTo } = one.case
  return (
    <>
      {person ? <p>{contactWords(person)}</p> : null}
      <p>{attemptsWords(one.tried)}</p>
      {assignedTo === null ? null : (
        <p>
          Assigned to{" "}
          {assignedTo === caller.userId ? "this account" : (one.assigned_name ?? "another account")}
        </p>
      )}
      {one.next_visit_on === null ? null : <p>Next visit {day(one.next_visit_on)}</p>}
    </>
  )
}

function WhyHere({ row, above }: { row: RowOfList; above: RowOfList | null }) {
  return (
    <details className={styles.why}>
      <summary>Why here</summary>
      <p>{hereWords(row.facts)}</p>
      <p>
        {above === null
          ? "Nobody on this page stands above."
          : belowWords(differingKey(above.facts, row.facts), { above: above.facts, below: row.facts })}{" "}
        <a href="#order">How the order is made</a>
      </p>
    </details>
  )
}
